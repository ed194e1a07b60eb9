package energy

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"putby/pricing/exact"
)

// A Clock is a reading of the local clock in minutes after midnight, 0 to
// 1440. 24:00 is the end of the day.
type Clock int16

// DayEnd is 24:00, the end that a band has when its row gives none.
const DayEnd Clock = 24 * 60

// ErrClock is what every error of [ParseClock] is.
var ErrClock = errors.New("not a time of day")

// ParseClock reads a time of day of the 24-hour clock, such as 7:00, 07:00 or
// 24:00.
func ParseClock(s string) (Clock, error) {
	hours, minutes, _ := strings.Cut(s, ":")
	if hours == "" || len(hours) > 2 || len(minutes) != 2 || strings.Trim(hours+minutes, "0123456789") != "" {
		return 0, fmt.Errorf("%s is %w: write it as 7:00 or 19:30", exact.Quote(s), ErrClock)
	}
	h, _ := strconv.Atoi(hours)
	m, _ := strconv.Atoi(minutes)
	if m > 59 || h*60+m > int(DayEnd) {
		return 0, fmt.Errorf("%s is %w: hours go from 0 to 24, minutes from 00 to 59", exact.Quote(s), ErrClock)
	}
	return Clock(h*60 + m), nil
}

// String writes the time as [ParseClock] reads it, such as 07:00.
func (c Clock) String() string { return fmt.Sprintf("%02d:%02d", c/60, c%60) }

// seconds returns the seconds after midnight, on a day without a clock change.
func (c Clock) seconds() int64 { return int64(c) * 60 }
