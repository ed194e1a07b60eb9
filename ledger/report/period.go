package report

import (
	"fmt"
	"slices"
	"strconv"
	"time"

	"putby/pricing/exact"
)

// Each says what a row of the month report is about.
type Each uint8

// The rows of a month report. Shops and kinds split what was spent; the others
// are stretches of time.
const (
	EachMonth Each = iota
	EachYear
	EachWeek // of ISO 8601: Monday to Sunday, in the year that has its Thursday
	EachShop
	EachKind
)

var eachNames = []string{"month", "year", "week", "shop", "kind"}

// String returns the name that [ParseEach] reads.
func (e Each) String() string { return eachNames[e] }

// ParseEach reads what the rows of a month report are.
func ParseEach(s string) (Each, error) {
	i := slices.Index(eachNames, s)
	if i < 0 {
		return 0, &QueryError{"by", exact.Quote(s) + " is not a grouping", "one of: month, year, week, shop, kind"}
	}
	return Each(i), nil
}

// ParsePeriod reads a month such as 2025-06, or a year such as 2025, and
// returns its first and last day.
func ParsePeriod(s string) (from, to exact.Date, err error) {
	months, first := 1, s+"-01"
	if len(s) == len("2025") {
		months, first = 12, s+"-01-01"
	}
	if from, err = exact.ParseDate(first); err != nil {
		return exact.NoDate, exact.NoDate, fmt.Errorf("%s is not a month or a year: write it as 2025-06 or 2025", exact.Quote(s))
	}
	return from, from.AddMonths(months).AddDays(-1), nil
}

// monthEnd returns the last day of d's month.
func monthEnd(d exact.Date) exact.Date { return d.Month().AddMonths(1).AddDays(-1) }

// A period is a stretch of whole days.
type period struct {
	key      string // 2025-06, 2025 or 2025-W23
	from, to exact.Date
}

// monthOf returns the month of a day.
func monthOf(d exact.Date) period {
	return period{d.Month().String()[:7], d.Month(), monthEnd(d)}
}

// yearOf returns the year of a day.
func yearOf(d exact.Date) period {
	y, _, _ := d.Civil()
	return period{strconv.Itoa(y), exact.DateOf(y, time.January, 1), exact.DateOf(y, time.December, 31)}
}

// weekOf returns the week of a day, as ISO 8601 has it.
func weekOf(d exact.Date) period {
	monday := d.AddDays(-(int(d.Weekday()+6) % 7))
	y, m, day := monday.AddDays(3).Civil() // the week's year is its Thursday's
	_, week := time.Date(y, m, day, 0, 0, 0, 0, time.UTC).ISOWeek()
	return period{fmt.Sprintf("%04d-W%02d", y, week), monday, monday.AddDays(6)}
}

// of returns the period of a day. Shops and kinds are reckoned by the month.
func (e Each) of(d exact.Date) period {
	switch e {
	case EachYear:
		return yearOf(d)
	case EachWeek:
		return weekOf(d)
	}
	return monthOf(d)
}

// yearBefore returns the period a year earlier: the same month or week. A year
// has none but the year before it, and a 53rd week may have none.
func (e Each) yearBefore(p period) (period, bool) {
	switch e {
	case EachYear:
		return period{}, false
	case EachWeek:
		thursday := p.from.AddDays(3)
		for _, days := range []int{52 * 7, 53 * 7} {
			if before := weekOf(thursday.AddDays(-days)); before.key[5:] == p.key[5:] {
				return before, true
			}
		}
		return period{}, false
	}
	return monthOf(p.from.AddMonths(-12)), true
}

// periods returns the periods from that of the first day to that of the last.
func (e Each) periods(first, last exact.Date) []period {
	var list []period
	for d := first; d <= last; d = list[len(list)-1].to.AddDays(1) {
		list = append(list, e.of(d))
	}
	return list
}
