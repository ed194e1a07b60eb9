package locale

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"putby/pricing/exact"
)

// Date writes a date, nothing for one that was not given.
func (l Locale) Date(d exact.Date) string {
	if l.IsPlain() {
		return d.String()
	}
	return dated(l.date, d)
}

// Month writes the month of a date.
func (l Locale) Month(d exact.Date) string {
	if text := d.String(); l.IsPlain() {
		return text[:max(len(text)-len("-01"), 0)]
	}
	return dated(l.month, d)
}

// dated fills a pattern of CLDR's.
func dated(pattern string, d exact.Date) string {
	if d.String() == "" {
		return ""
	}
	year, month, day := d.Civil()
	out := make([]byte, 0, len("2025-02-28, "))
	for rest := pattern; rest != ""; {
		n := len(rest) - len(strings.TrimLeft(rest, rest[:1]))
		switch {
		case rest[:n] == "MMM":
			out = append(out, month.String()[:n]...)
		case rest[0] == 'M':
			out = fmt.Appendf(out, "%0*d", n, month)
		case rest[0] == 'd':
			out = fmt.Appendf(out, "%0*d", n, day)
		case rest[0] == 'y':
			out = fmt.Appendf(out, "%04d", year)
		default:
			out = append(out, rest[:n]...)
		}
		rest = rest[n:]
	}
	return string(out)
}

// ReadDate reads a date as the place writes it, such as 28.02.2025 in de-DE, with
// zeros in front or without; under any locale one whose month is named, such as
// Feb 28, 2025 or 28 February 2025. Numbers alone are read in the order that the place
// writes them, and in no other: few places agree on 5/6/2025. ok is false for all else, a date that does not exist
// among it.
func (l Locale) ReadDate(text string) (d exact.Date, ok bool) {
	parts, marks := partsOf(text)
	if len(parts) != 3 {
		return exact.NoDate, false
	}
	if month := monthNamed(parts[0]); month > 0 {
		return civil(parts[2], month, parts[1])
	} else if month := monthNamed(parts[1]); month > 0 {
		return civil(parts[2], month, parts[0])
	}
	if l.IsPlain() {
		return exact.NoDate, false
	}
	order, own := partsOf(l.inFigures())
	if marks != own && marks+"." != own {
		return exact.NoDate, false
	}
	part := func(letter string) string {
		return parts[slices.IndexFunc(order, func(p string) bool { return p[:1] == letter })]
	}
	return civil(part("y"), monthOf(part("M")), part("d"))
}

// inFigures is the pattern of a date in figures alone.
func (l Locale) inFigures() string { return cmp.Or(l.figures, l.date) }

// Figures writes a date in figures alone, in the order of the place.
func (l Locale) Figures(d exact.Date) string {
	if l.IsPlain() {
		return d.String()
	}
	return dated(l.inFigures(), d)
}

// ReadMonth reads a month of a year, under any locale, since there is one way to
// read it: 2025-02, 2/2025, 02.2025, 2025. 2., Feb 2025. It returns the first day.
func ReadMonth(text string) (first exact.Date, ok bool) {
	parts, marks := partsOf(text)
	if len(parts) != 2 {
		return exact.NoDate, false
	}
	if marks == "-" && len(parts[0])+len(parts[1]) < len("202502") && len(parts[0]) == len("2025") {
		return exact.NoDate, false // records have 2025-02
	}
	month, year := parts[0], parts[1]
	if len(month) == len("2025") && monthNamed(month) == 0 {
		month, year = year, month
	}
	number := monthNamed(month)
	if number == 0 && marks != "" {
		number = monthOf(month)
	}
	return civil(year, number, "1")
}

// monthOf is the number of one or two digits, else 0, which is no month.
func monthOf(digits string) int {
	n, err := strconv.Atoi(digits)
	if err != nil || len(digits) > 2 {
		return 0
	}
	return n
}

// monthNamed is the number of a month by its English name or at least three of its
// letters, 0 where it is none.
func monthNamed(word string) int {
	for m := time.January; m <= time.December && len(word) >= 3; m++ {
		if name := m.String(); len(word) <= len(name) && strings.EqualFold(name[:len(word)], word) {
			return int(m)
		}
	}
	return 0
}

// civil is a date of a year of four digits, if there is such a day.
func civil(year string, month int, day string) (d exact.Date, ok bool) {
	if len(day) < 2 {
		day = "0" + day
	}
	d, err := exact.ParseDate(fmt.Sprintf("%s-%02d-%s", year, month, day))
	return d, err == nil
}

// partsOf are the digits and the words of a date or its pattern, and the marks
// between and behind them, without spaces.
func partsOf(s string) (parts []string, marks string) {
	kind := func(r rune) int {
		switch {
		case '0' <= r && r <= '9':
			return 1
		case unicode.IsLetter(r):
			return 2
		}
		return 0
	}
	last := 0
	for _, r := range s {
		k := kind(r)
		switch {
		case k == 0 && !unicode.IsSpace(r):
			marks += string(r)
		case k > 0 && k != last:
			parts = append(parts, string(r))
		case k > 0:
			parts[len(parts)-1] += string(r)
		}
		last = k
	}
	return parts, marks
}
