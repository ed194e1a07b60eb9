package locale

import (
	"strings"

	"putby/pricing/exact"
)

// ReadShortDate reads a date as people write it by hand: as [Locale.ReadDate] does, with
// two digits of its year, or without the year, which is then the last such day up to
// today. Figures alone are read where the place puts the year last, since 5/6/25 in a
// place that puts it first may begin with its year.
func (l Locale) ReadShortDate(text string, today exact.Date) (d exact.Date, ok bool) {
	if d, ok = l.ReadDate(text); ok {
		return d, ok
	}
	parts, marks := partsOf(text)
	switch len(parts) {
	case 3:
		return l.shortYear(text, parts[2])
	case 2:
		return l.lastDay(parts, marks, today)
	}
	return exact.NoDate, false
}

// shortYear reads a date that ends on the two digits of its year.
func (l Locale) shortYear(text, year string) (d exact.Date, ok bool) {
	rest, ends := strings.CutSuffix(text, year)
	if !ends || len(year) != 2 || monthOf(year) == 0 {
		return exact.NoDate, false
	}
	return l.ReadDate(rest + "20" + year)
}

// lastDay finds the last day up to today of which the day and the month are told.
func (l Locale) lastDay(parts []string, marks string, today exact.Date) (d exact.Date, ok bool) {
	day, month := parts[0], monthNamed(parts[1])
	if first := monthNamed(parts[0]); first > 0 {
		day, month = parts[1], first
	}
	if month > 0 && marks != "" && marks != "." || month == 0 && !l.figured(parts, marks, &day, &month) || today == exact.NoDate {
		return exact.NoDate, false
	}
	year, _, _ := today.Civil()
	for range 9 { // a 29 February comes back within eight years
		if d, ok = civil(exact.Int(int64(year)).String(), month, day); ok && d <= today {
			return d, true
		}
		year--
	}
	return exact.NoDate, false
}

// figured reads a day and a month in figures, as the place parts and orders them.
func (l Locale) figured(parts []string, marks string, day *string, month *int) bool {
	if l.IsPlain() {
		return false
	}
	order, own := partsOf(l.inFigures())
	if order[2][0] != 'y' || own == "" || marks != own[:1] && marks != own {
		return false
	}
	first, second := parts[0], parts[1]
	if order[0][0] == 'M' {
		first, second = second, first
	}
	*day, *month = first, monthOf(second)
	return *month > 0
}
