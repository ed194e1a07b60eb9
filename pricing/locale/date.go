package locale

import (
	"fmt"
	"strings"

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
	return strings.NewReplacer(
		"MMM", month.String()[:3], "MM", fmt.Sprintf("%02d", month), "M", fmt.Sprint(int(month)),
		"dd", fmt.Sprintf("%02d", day), "d", fmt.Sprint(day),
		"y", fmt.Sprintf("%04d", year)).Replace(pattern)
}

// ReadDate reads a date whose parts are numbers and stand as the place writes
// them, such as 28.02.2025 in de-DE. ok is false for all else, a date that does
// not exist among it. Where months are named, numbers in the order of the
// place's own short pattern are not read: few agree on them.
func (l Locale) ReadDate(text string) (d exact.Date, ok bool) {
	if l.IsPlain() {
		return exact.NoDate, false
	}
	parts, order := cutDigits(text), strings.FieldsFunc(l.date, func(r rune) bool { return !strings.ContainsRune("dMy", r) })
	if strings.Contains(l.date, "MMM") || len(parts) != 3 || separators(text) != strings.TrimSpace(separators(l.date)) {
		return exact.NoDate, false
	}
	var y, m, day string
	for i, part := range order {
		switch part[0] {
		case 'y':
			y = parts[i]
		case 'M':
			m = parts[i]
		default:
			day = parts[i]
		}
	}
	if len(y) != 4 || len(m) > 2 || len(day) > 2 {
		return exact.NoDate, false
	}
	d, err := exact.ParseDate(y + "-" + pad(m) + "-" + pad(day))
	return d, err == nil
}

func pad(s string) string {
	if len(s) < 2 {
		return "0" + s
	}
	return s
}

func cutDigits(s string) []string {
	return strings.FieldsFunc(s, func(r rune) bool { return r < '0' || r > '9' })
}

// separators are what stands between the parts of a date, without spaces.
func separators(s string) string {
	return strings.Map(func(r rune) rune {
		if r == ' ' || r >= '0' && r <= '9' || strings.ContainsRune("dMy", r) {
			return -1
		}
		return r
	}, s)
}
