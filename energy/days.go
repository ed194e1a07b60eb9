package energy

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"putby/pricing/exact"
)

// A DaySet is a set of kinds of day: bits 0 to 6 stand for Monday to Sunday,
// bit 7 for a holiday. The zero value stands for every day, as a blank cell
// does. A holiday is also its weekday: mon-fri holds on a Friday that is one.
type DaySet uint8

// Holidays is the set of holidays alone.
const Holidays DaySet = 1 << 7

// ErrDays is what every error of [ParseDays] is.
var ErrDays = errors.New("not a list of days")

var dayNames = [...]string{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}

// ParseDays reads days as a tariff writes them: mon to sun, ranges such as
// mon-fri (fri-mon runs through the weekend), hol for holidays, and lists of
// these, sat,sun,hol. Capitals do not matter. Blank is every day.
func ParseDays(s string) (DaySet, error) {
	var holidays DaySet
	var rest []string
	for _, part := range strings.Split(s, ",") {
		if strings.EqualFold(strings.TrimSpace(part), "hol") {
			holidays = Holidays
		} else {
			rest = append(rest, part)
		}
	}
	if len(rest) == 0 {
		return holidays, nil
	}
	set, err := parseSet(strings.Join(rest, ","), dayNumber, 7)
	if err == nil && set == 0 && holidays != 0 {
		err = errEmptyPart
	}
	if err != nil {
		return 0, fmt.Errorf("%s is %w: %w", exact.Quote(s), ErrDays, err)
	}
	return DaySet(set) | holidays, nil
}

// dayNumber returns the place of a day in the week, from 0 for Monday.
func dayNumber(s string) (int, error) {
	if i := slices.IndexFunc(dayNames[:], func(name string) bool { return strings.EqualFold(s, name) }); i >= 0 {
		return i, nil
	}
	return 0, errors.New("write days as mon tue wed thu fri sat sun or hol, such as mon-fri or sat,sun,hol")
}

// dayBit is the bit of a weekday.
func dayBit(d time.Weekday) DaySet { return 1 << ((int(d) + 6) % 7) }

// Has reports whether a day of this weekday, holiday or not, is in the set.
func (s DaySet) Has(d time.Weekday, holiday bool) bool {
	return s == 0 || s&dayBit(d) != 0 || holiday && s&Holidays != 0
}

// String writes the set as [ParseDays] reads it.
func (s DaySet) String() string {
	out := formatSet(uint16(s&^Holidays), 7, func(i int) string { return dayNames[i] })
	if s&Holidays == 0 {
		return out
	}
	if out == "" {
		return "hol"
	}
	return out + ",hol"
}
