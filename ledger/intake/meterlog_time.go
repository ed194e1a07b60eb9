package intake

import (
	"math"
	"slices"
	"strings"
	"time"

	"putby/energy"
	"putby/pricing/exact"
)

const daySeconds = 24 * 60 * 60

// A logClock reads the times of a log.
type logClock struct {
	zone *time.Location
	day  string     // the date read last
	date exact.Date // and what it is
	// Between since and until, in seconds of the local clock, that clock is
	// offset seconds ahead of UTC, and shows every time once.
	since, until, offset int64
}

// read returns an instant in Unix nanoseconds, or says what is wrong with it.
// It is after last where that settles which of two instants a local time is.
func (c *logClock) read(text string, last int64) (ns int64, problem string) {
	s := strings.Trim(text, " \t")
	if t, ok := epochTime(s); ok {
		return t, ""
	}
	day, rest := cutDay(s)
	if problem := c.take(day); problem != "" {
		return 0, exact.Quote(s) + problem
	}
	at, ok := readClock(rest)
	seconds := c.date.UnixDays()*daySeconds + int64(at.sec)
	switch {
	case !ok:
		return 0, exact.Quote(s) + " is not a time"
	case at.offset != "":
		seconds -= int64(at.east)
	case c.zone == nil:
		return 0, exact.Quote(s) + " has no offset, and no time zone is given"
	default:
		if seconds, problem = c.local(seconds, at, last); problem != "" {
			return 0, exact.Quote(s) + problem
		}
	}
	if seconds < energy.FirstSecond || seconds > energy.LastSecond {
		return 0, exact.Quote(s) + " is outside the years 1910 to 2199"
	}
	return seconds*1e9 + at.nanos, ""
}

// take reads a date, unless it is that of the row before. Its year has four
// digits and stands first, or where there are points last: rows that are read as
// they come cannot tell what else would be meant.
func (c *logClock) take(day string) (problem string) {
	if day == c.day && day != "" {
		return ""
	}
	order := YearMonthDay
	if strings.Contains(day, ".") {
		order = DayMonthYear
	}
	var w writtenDate
	if !w.takeDay(strings.ToLower(day)) || !slices.Contains(w.lengths[:w.count], 4) {
		return " is not a time"
	}
	date, ok := w.in(order)
	if !ok {
		return " is not a time that there is"
	}
	c.day, c.date = day, date
	return ""
}

// local returns the instant of a local time, both in Unix seconds.
func (c *logClock) local(reading int64, at clock, last int64) (int64, string) {
	if c.since <= reading && reading < c.until {
		return reading - c.offset, ""
	}
	t, shown := exact.LocalTime(c.date, at.sec, c.zone)
	if !shown {
		return 0, " is skipped by the clocks of " + c.zone.String()
	}
	first := t.Unix()
	since, until, offset := exact.OffsetAt(first, c.zone)
	c.remember(since, until, offset)
	// Beyond the last second nanoseconds may pass an int64, and read refuses the time.
	if first > energy.LastSecond || first*1e9+at.nanos > last {
		return first, ""
	}
	// It would step back: after the change of the clocks, they show it again.
	return exact.ShownAgain(t).Unix(), ""
}

// remember keeps the local times that are far from any change of the clocks: by more than
// any was ever put forward or back, which is a day, where the date line was moved.
func (c *logClock) remember(since, until, offset int64) {
	const margin = 26 * 60 * 60
	c.since, c.until, c.offset = math.MinInt64, math.MaxInt64, offset
	if since != math.MinInt64 {
		c.since = since + offset + margin
	}
	if until != math.MaxInt64 {
		c.until = until + offset - margin
	}
}

// epochTime reads seconds since 1970, with or without a fraction, of the years
// 1973 to 2199, or milliseconds.
func epochTime(s string) (ns int64, ok bool) {
	whole, fraction := s, ""
	if at := strings.IndexAny(s, ".,"); at >= 0 {
		whole, fraction = s[:at], s[at+1:]
		if fraction == "" {
			return 0, false
		}
	}
	n, ok := scanDigits(whole)
	nanos, ok2 := scanFraction(fraction)
	// 12 or 13 digits are milliseconds, 9 or 10 seconds: a shorter number may count anything.
	switch {
	case !ok || !ok2 || len(whole) > 13:
		return 0, false
	case len(whole) >= 12 && fraction == "":
		return n * 1e6, n/1000 <= energy.LastSecond
	case n >= 1e8 && n <= energy.LastSecond:
		return n*1e9 + nanos, true
	}
	return 0, false
}

// scanClock reads HH:MM, HH:MM:SS or HH:MM:SS with a fraction; each may have one
// digit.
func scanClock(s string) (hour, minute, second, nanos int64, ok bool) {
	whole, fraction, found := s, "", false
	if at := strings.IndexAny(s, ".,"); at >= 0 {
		whole, fraction, found = s[:at], s[at+1:], true
	}
	h, rest, _ := strings.Cut(whole, ":")
	m, sec, seconds := strings.Cut(rest, ":")
	if !seconds {
		sec = "0"
	}
	if len(h) > 2 || len(m) > 2 || len(sec) > 2 || found && (fraction == "" || !seconds) {
		return 0, 0, 0, 0, false
	}
	nanos, ok = scanFraction(fraction)
	ok = ok && scanInto(h, &hour) && scanInto(m, &minute) && scanInto(sec, &second)
	return hour, minute, second, nanos, ok
}

// scanOffset reads Z, +01:00, +0100 or +01 as seconds east.
func scanOffset(s string) (seconds int, ok bool) {
	if s == "" || s == "Z" {
		return 0, s == "Z"
	}
	digits := strings.Replace(s[1:], ":", "", 1)
	n, ok := scanDigits(digits)
	switch {
	case !ok || s[0] == 'Z' || len(digits) != 2 && len(digits) != 4 || strings.Contains(s, ":") && (len(s) != 6 || s[3] != ':'):
		return 0, false
	case len(digits) == 2:
		n *= 100
	}
	if seconds = int(n/100*3600 + n%100*60); n%100 > 59 || seconds > 14*3600 {
		return 0, false
	}
	if s[0] == '-' {
		seconds = -seconds
	}
	return seconds, true
}

func scanInto(s string, n *int64) (ok bool) {
	*n, ok = scanDigits(s)
	return ok
}

// scanDigits reads a number of 1 to 18 digits.
func scanDigits(s string) (n int64, ok bool) {
	if len(s) == 0 || len(s) > 18 {
		return 0, false
	}
	for i := 0; i < len(s); i++ {
		if !isDigit(s[i]) {
			return 0, false
		}
		n = n*10 + int64(s[i]-'0')
	}
	return n, true
}

// scanFraction reads up to 9 digits after a point as nanoseconds; digits beyond
// that must be 0.
func scanFraction(s string) (nanos int64, ok bool) {
	if len(s) > 9 {
		if strings.Trim(s[9:], "0") != "" {
			return 0, false
		}
		s = s[:9]
	}
	if s == "" {
		return 0, true
	}
	n, ok := scanDigits(s)
	for range 9 - len(s) {
		n *= 10
	}
	return n, ok
}
