package exact

import (
	"errors"
	"fmt"
	"strings"
	"time"
)

// MaxDuration is the longest span that [ParseDuration] takes: 31 days.
const MaxDuration = 31 * 24 * time.Hour

// ErrDuration is what every error of [ParseDuration] is.
var ErrDuration = errors.New("not a duration")

// ParseDuration reads a length of time in whole seconds, written as 8h24m,
// 504m, 90s, 8:24 (hours and minutes) or 8:24:07. In the colon forms minutes
// and seconds have two digits and stay below 60.
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

func clockForm(s string) (time.Duration, bool) {
	parts := strings.Split(s, ":")
	if len(parts) < 2 || len(parts) > 3 || len(parts[0]) == 0 || len(parts[0]) > 4 {
		return 0, false
	}
	total, unit := time.Duration(0), time.Hour
	for i, p := range parts {
		n, ok := digits(p)
		if !ok || i > 0 && (len(p) != 2 || n > 59) {
			return 0, false
		}
		total += time.Duration(n) * unit
		unit /= 60
	}
	return total, true
}

// letterForm reads numbers with the letters h, m and s, each at most once and
// in that order.
func letterForm(s string) (time.Duration, bool) {
	total, last := time.Duration(0), time.Duration(0)
	for s != "" {
		at := strings.IndexAny(s, "hms")
		if at < 1 || at > 7 {
			return 0, false
		}
		n, ok := digits(s[:at])
		unit := map[byte]time.Duration{'h': time.Hour, 'm': time.Minute, 's': time.Second}[s[at]]
		if !ok || last != 0 && unit >= last {
			return 0, false
		}
		total, last, s = total+time.Duration(n)*unit, unit, s[at+1:]
	}
	return total, last != 0
}

// FormatDuration writes d, in whole seconds, as [ParseDuration] reads it:
// 8h24m, 504m as 8h24m, 0 as 0m.
func FormatDuration(d time.Duration) string {
	h, m, s := d/time.Hour, d/time.Minute%60, d/time.Second%60
	out := ""
	if h > 0 {
		out += fmt.Sprintf("%dh", h)
	}
	if m > 0 || h == 0 && s == 0 {
		out += fmt.Sprintf("%dm", m)
	}
	if s > 0 {
		out += fmt.Sprintf("%ds", s)
	}
	return out
}
