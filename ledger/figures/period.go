package figures

import (
	"fmt"
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

// monthEnd returns the last day of d's month.
func monthEnd(d exact.Date) exact.Date { return d.Month().AddMonths(1).AddDays(-1) }

// A Period is a stretch of whole days.
type Period struct {
	Key      string     // 2025-06, 2025 or 2025-W23
	From, To exact.Date // first and last day, both in it
}

// monthOf returns the month of a day.
func monthOf(d exact.Date) Period {
	return Period{d.Month().String()[:7], d.Month(), monthEnd(d)}
}

// yearOf returns the year of a day.
func yearOf(d exact.Date) Period {
	y, _, _ := d.Civil()
	return Period{strconv.Itoa(y), exact.DateOf(y, time.January, 1), exact.DateOf(y, time.December, 31)}
}

// weekOf returns the week of a day, as ISO 8601 has it.
func weekOf(d exact.Date) Period {
	monday := d.AddDays(-(int(d.Weekday()+6) % 7)) // Go's weeks begin on Sunday, as 0
	y, m, day := monday.AddDays(3).Civil()         // the week's year is its Thursday's
	_, week := time.Date(y, m, day, 0, 0, 0, 0, time.UTC).ISOWeek()
	return Period{fmt.Sprintf("%04d-W%02d", y, week), monday, monday.AddDays(6)}
}

// of returns the period of a day. Shops and kinds are worked out by the month.
func (e Each) of(d exact.Date) Period {
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
func (e Each) yearBefore(p Period) (Period, bool) {
	switch e {
	case EachYear:
		return Period{}, false
	case EachWeek:
		thursday := p.From.AddDays(3)
		// A year of ISO 8601 has 52 or 53 weeks, so the week of that number lies either so far back.
		for _, days := range []int{52 * 7, 53 * 7} {
			if before := weekOf(thursday.AddDays(-days)); before.Key[5:] == p.Key[5:] {
				return before, true
			}
		}
		return Period{}, false
	}
	return monthOf(p.From.AddMonths(-12)), true
}

// periods returns the periods from that of the first day to that of the last.
func (e Each) periods(first, last exact.Date) []Period {
	var list []Period
	for d := first; d <= last; d = list[len(list)-1].To.AddDays(1) {
		list = append(list, e.of(d))
	}
	return list
}
