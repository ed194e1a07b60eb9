package exact

import (
	"errors"
	"fmt"
	"strings"
	"time"
)

// ErrMoment is what every error of [ParseMoment] is.
var ErrMoment = errors.New("not a date and time")

// ParseMoment reads a date and a time of day to the minute or second, such as
// 2025-02-28 18:30 or 2025-02-28T18:30:05, local to zone; or the same with an
// offset (+01:00, -0330 or Z), which need not be the zone's. It returns the
// instant in zone. A local time that the clocks skip is an error; one that
// occurs twice is the first.
func ParseMoment(s string, zone *time.Location) (time.Time, error) {
	if len(s) < 16 || s[10] != ' ' && s[10] != 'T' {
		return time.Time{}, momentError(s, "write it as 2025-02-28 18:30")
	}
	date, err := ParseDate(s[:10])
	if err != nil {
		return time.Time{}, fmt.Errorf("%s is %w: %w", Quote(s), ErrMoment, err)
	}
	clock, offset := s[11:], ""
	if at := strings.IndexAny(clock, "Z+-"); at >= 0 {
		clock, offset = clock[:at], clock[at:]
	}
	sec, ok := clockSeconds(clock)
	if !ok {
		return time.Time{}, momentError(s, "the time of day must be from 00:00 to 23:59:59")
	}
	if offset == "" {
		t, ok := LocalTime(date, sec, zone)
		if !ok {
			return t, momentError(s, "the clocks of "+zone.String()+" skip that time")
		}
		return t, nil
	}
	east, ok := offsetSeconds(offset)
	if !ok {
		return time.Time{}, momentError(s, "write the offset as +01:00 or Z")
	}
	return time.Unix(int64(date)*86400+int64(sec-east), 0).In(zone), nil
}

func momentError(s, why string) error {
	return fmt.Errorf("%s is %w: %s", Quote(s), ErrMoment, why)
}

// clockSeconds reads HH:MM or HH:MM:SS.
func clockSeconds(s string) (int, bool) {
	if len(s) != 5 && len(s) != 8 || s[2] != ':' || len(s) == 8 && s[5] != ':' {
		return 0, false
	}
	h, ok1 := digits(s[:2])
	m, ok2 := digits(s[3:5])
	sec, ok3 := 0, true
	if len(s) == 8 {
		sec, ok3 = digits(s[6:])
	}
	return h*3600 + m*60 + sec, ok1 && ok2 && ok3 && h < 24 && m < 60 && sec < 60
}

// offsetSeconds reads Z, +HH:MM or +HHMM.
func offsetSeconds(s string) (int, bool) {
	if s == "Z" {
		return 0, true
	}
	rest := strings.Replace(s[1:], ":", "", 1)
	if len(rest) != 4 || s[0] == 'Z' {
		return 0, false
	}
	h, ok1 := digits(rest[:2])
	m, ok2 := digits(rest[2:])
	if !ok1 || !ok2 || h > 14 || m > 59 {
		return 0, false
	}
	east := h*3600 + m*60
	if s[0] == '-' {
		east = -east
	}
	return east, true
}

// LocalTime returns the instant at which the clocks of zone show date and the
// time of day sec (seconds since 0:00): the first one when they show it twice.
// It reports false when they never do.
func LocalTime(date Date, sec int, zone *time.Location) (time.Time, bool) {
	y, m, d := date.Civil()
	t := time.Date(y, m, d, 0, 0, sec, 0, zone)
	// A twin that was shown before lies back by as much as the clocks went back
	// at the last change.
	if from, _ := t.ZoneBounds(); !from.IsZero() {
		_, now := t.Zone()
		_, before := from.Add(-time.Second).Zone()
		if twin := t.Add(time.Duration(now-before) * time.Second); now < before && twin.Before(from) {
			t = twin
		}
	}
	y2, m2, d2 := t.Date()
	h, min, s := t.Clock()
	return t, y2 == y && m2 == m && d2 == d && h*3600+min*60+s == sec
}
