package exact

import (
	"errors"
	"fmt"
	"math"
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
	clock, offset := s[11:], "" // behind the date, whose hyphens are no signs
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
	return time.Unix(date.UnixDays()*86400+int64(sec-east), 0).In(zone), nil
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

// offsetSeconds reads Z, +HH:MM or +HHMM, as far as the 14 hours that zones
// reach.
func offsetSeconds(s string) (int, bool) {
	if s == "Z" {
		return 0, true
	}
	if len(s) == 6 && s[3] == ':' {
		s = s[:3] + s[4:]
	}
	if len(s) != 5 || s[0] == 'Z' {
		return 0, false
	}
	h, ok1 := digits(s[1:3])
	m, ok2 := digits(s[3:])
	east := h*3600 + m*60
	if !ok1 || !ok2 || m > 59 || east > 14*3600 {
		return 0, false
	}
	if s[0] == '-' {
		east = -east
	}
	return east, true
}

// LocalTime returns the instant at which the clocks of zone show date and the
// time of day sec (seconds since 0:00): the first one when they show it twice.
// It reports false when they never do, and then returns the instant at which
// they skip it.
func LocalTime(date Date, sec int, zone *time.Location) (time.Time, bool) {
	reading := date.UnixDays()*86400 + int64(sec)
	t := firstShowing(reading, zone)
	_, east := t.Zone()
	return t, t.Unix()+int64(east) == reading && 0 <= sec && sec < 86400
}

// Midnight returns the first instant of d in a zone: 0:00, or where a clock
// change leaves that out, the change itself; of two, the earlier.
func (d Date) Midnight(zone *time.Location) time.Time {
	return firstShowing(d.UnixDays()*86400, zone)
}

// firstShowing returns the first instant at which the clocks of zone show a
// reading, or have skipped it. The reading is in seconds since 1970 began on
// those clocks. (time.Date does not say which instant it takes near a change.)
func firstShowing(reading int64, zone *time.Location) time.Time {
	t := time.Unix(reading, 0).Add(-48 * time.Hour).In(zone) // before it, whatever the zone
	for {
		_, east := t.Zone()
		shown := time.Unix(reading-int64(east), 0)
		if shown.Before(t) {
			return t // the change that led here skipped it
		}
		end, changes := NextChange(t)
		if !changes || shown.Before(end) {
			return shown.In(zone)
		}
		t = end
	}
}

// NextChange returns an instant after t up to which the clocks of t's location
// keep their offset, and false when they keep it for good. The clocks need not
// change there: a rule for all years ends with each year.
//
// It is what [time.Time.ZoneBounds] says, but for the last day of a leap year,
// on which that names an end that is past (golang/go issue 81583); there it is
// a day later.
func NextChange(t time.Time) (time.Time, bool) {
	_, end := t.ZoneBounds()
	switch {
	case end.IsZero():
		return end, false
	case !end.After(t):
		return t.Add(24 * time.Hour), true
	}
	return end, true
}

// ShownAgain returns the later instant at which the clocks of t's location show
// what they show at t, where they are set back, or t when they show it once.
func ShownAgain(t time.Time) time.Time {
	change, changes := NextChange(t)
	if !changes {
		return t
	}
	_, now := t.Zone()
	_, then := change.Zone()
	again := t.Add(time.Duration(now-then) * time.Second)
	if now > then && !again.Before(change) {
		return again
	}
	return t
}

// OffsetAt returns how far the clocks of a zone are ahead of UTC at an instant,
// and since and until when they keep that, all in (Unix) seconds; of a zone that
// never had or never will have another offset the ends of the int64s.
func OffsetAt(second int64, zone *time.Location) (since, until, offset int64) {
	t := time.Unix(second, 0).In(zone)
	_, seconds := t.Zone()
	since, until = math.MinInt64, math.MaxInt64
	if start, _ := t.ZoneBounds(); !start.IsZero() {
		since = start.Unix()
	}
	if end, changes := NextChange(t); changes {
		until = end.Unix()
	}
	return since, until, int64(seconds)
}
