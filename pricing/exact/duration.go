package exact

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"
)

// MaxDuration is the longest span that [ParseDuration] takes: 31 days.
const MaxDuration = 31 * 24 * time.Hour

// ErrDuration is what every error of [ParseDuration] is.
var ErrDuration = errors.New("not a duration")

// ParseDuration reads a length of time in whole seconds, from 0 to
// [MaxDuration], written as 8h24m, 504m, 90s, 8:24 (hours and minutes) or
// 8:24:07. In the colon forms minutes and seconds have two digits and stay
// below 60; the letters stand at most once each, in that order.
func ParseDuration(s string) (time.Duration, error) {
	d, ok := clockForm(s)
	if !ok {
		d, ok = letterForm(s)
	}
	switch {
	case !ok:
		return 0, fmt.Errorf("%s is %w: write it as 8h24m, 8:24, 8:24:07 or 504m", Quote(s), ErrDuration)
	case d > MaxDuration:
		return 0, fmt.Errorf("%s is %w here: it is longer than 31 days", Quote(s), ErrDuration)
	}
	return d, nil
}

// MustDuration is ParseDuration for constants; it panics on an error.
func MustDuration(s string) time.Duration { return must(ParseDuration(s)) }

// clockForm reads hours of one to four digits, then :MM once or twice.
func clockForm(s string) (time.Duration, bool) {
	at := strings.IndexByte(s, ':')
	if at < 1 || at > 4 || len(s) != at+3 && len(s) != at+6 {
		return 0, false
	}
	hours, ok := digits(s[:at])
	total, unit := time.Duration(hours)*time.Hour, time.Minute
	for s = s[at:]; ok && s != ""; s = s[3:] {
		n, isNumber := digits(s[1:3])
		ok = s[0] == ':' && isNumber && n < 60
		total += time.Duration(n) * unit
		unit /= 60
	}
	return total, ok
}

// letterForm reads numbers of one to seven digits with the letters h, m and s.
// What is too long for a duration it returns as longer than MaxDuration.
func letterForm(s string) (time.Duration, bool) {
	total, last := time.Duration(0), MaxDuration
	for s != "" {
		at := strings.IndexAny(s[:min(len(s), 8)], "hms")
		if at < 1 {
			return 0, false
		}
		n, ok := digits(s[:at])
		unit := unitOfTime(s[at])
		if !ok || unit >= last {
			return 0, false
		}
		total += min(time.Duration(n), MaxDuration/unit+1) * unit
		last, s = unit, s[at+1:]
	}
	return total, last < MaxDuration
}

func unitOfTime(letter byte) time.Duration {
	switch letter {
	case 'h':
		return time.Hour
	case 'm':
		return time.Minute
	}
	return time.Second
}

// FormatDuration writes d as [ParseDuration] reads it: 504 minutes as 8h24m,
// nothing as 0m. Parts of a second are dropped; a negative d, which no record
// may hold, gets a "-" in front.
func FormatDuration(d time.Duration) string {
	var buf [32]byte
	out := buf[:0]
	seconds := int64(d / time.Second)
	if seconds < 0 {
		out, seconds = append(out, '-'), -seconds
	}
	h, m, s := seconds/3600, seconds/60%60, seconds%60
	if h > 0 {
		out = append(strconv.AppendInt(out, h, 10), 'h')
	}
	if m > 0 || seconds == 0 {
		out = append(strconv.AppendInt(out, m, 10), 'm')
	}
	if s > 0 {
		out = append(strconv.AppendInt(out, s, 10), 's')
	}
	return string(out)
}
