package report

import (
	"fmt"
	"slices"
	"strings"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// words say what the check found, and when the prices are from.
func (w *tariffWeek) words() []string {
	var found []string
	switch {
	case w.open():
		found = append(found, "Some hours of this week have no price: "+noBand+" marks them.")
	case len(w.gaps) > 0:
		found = append(found, "Every hour of this week has a price; some hours of others have none.")
	default:
		found = append(found, "Every hour has a price.")
	}
	if n := len(w.unused); n > 0 {
		found = append(found, sentenceCase(counted(n, "row"))+map[bool]string{true: " never holds.", false: " never hold."}[n == 1])
	}
	return []string{strings.Join(append(found, w.since()...), " ")}
}

// since says which prices are drawn, and when others follow.
func (w *tariffWeek) since() (words []string) {
	from, next := w.froms()
	if from != exact.NoDate {
		words = append(words, fmt.Sprintf("These prices hold from %v on.", from))
	}
	if next != exact.LastDate {
		words = append(words, fmt.Sprintf("Others follow on %v.", next))
	}
	return words
}

// froms are the dates of the prices drawn and of the next ones.
func (w *tariffWeek) froms() (from, next exact.Date) {
	from, next = exact.NoDate, exact.LastDate
	for _, b := range w.tariff.Bands() {
		if b.From <= w.week.Date {
			from = max(from, b.From)
		} else {
			next = min(next, b.From)
		}
	}
	return from, next
}

func (w *tariffWeek) notes(rec *ledger.Records) (notes []string) {
	if w.first != exact.NoDate {
		notes = append(notes, fmt.Sprintf("Nothing has a price before %v.", w.first))
	}
	if len(w.gaps) > 0 {
		notes = append(notes, "A gap is a fault only for a run that meets it; a band without months, days, start and end holds always.")
	}
	if w.mixed() {
		notes = append(notes, "A band that begins within a half hour is drawn from the next one on.")
	}
	if w.some(func(s energy.Stretch) bool { return len(s.Bands) > 1 }) {
		notes = append(notes, "Where blocks share an hour, the letter is that of the lowest: the month's use decides, the household's own first.")
	}
	if months := w.otherSeasons(); months != 0 {
		notes = append(notes, fmt.Sprintf("Other weeks look different in the months %v (--date).", months))
	}
	var others []string
	for _, name := range rec.TariffNames() {
		if name != w.tariff.Name() {
			others = append(others, name)
		}
	}
	if others != nil {
		notes = append(notes, "Other tariffs: "+strings.Join(others, ", ")+".")
	}
	return notes
}

// mixed reports whether a band begins within a half hour.
func (w *tariffWeek) mixed() bool {
	for _, d := range w.week.Days {
		for _, c := range d.HalfHours() {
			if c.Mixed {
				return true
			}
		}
	}
	return false
}

// otherSeasons are the months whose week, under the same prices, differs.
func (w *tariffWeek) otherSeasons() (months energy.MonthSet) {
	from, next := w.froms()
	for i := range 12 {
		first := w.week.Date.Month().AddMonths(i)
		day := max(first, from)
		if last := first.AddMonths(1).AddDays(-1); day > last || day >= next {
			continue
		}
		if !sameWeek(w.week, w.tariff.Week(day)) {
			_, m, _ := day.Civil()
			months |= 1 << m
		}
	}
	return months
}

// sameWeek reports whether two weeks have the same bands at the same times.
func sameWeek(a, b energy.Week) bool {
	lines := func(w energy.Week) []int {
		list := make([]int, len(w.Bands))
		for i, band := range w.Bands {
			list[i] = band.Line
		}
		return list
	}
	if !slices.Equal(lines(a), lines(b)) || len(a.Days) != len(b.Days) {
		return false
	}
	return slices.EqualFunc(a.Days, b.Days, func(x, y energy.DayLine) bool {
		return x.Days == y.Days && slices.EqualFunc(x.Stretches, y.Stretches, func(p, q energy.Stretch) bool {
			return p.Start == q.Start && p.End == q.End && slices.Equal(p.Bands, q.Bands)
		})
	})
}
