package figures

import (
	"slices"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// A TariffQuery asks for the week of a tariff.
type TariffQuery struct {
	Name string     // empty: the settings' tariff, else the only one
	Date exact.Date // whose prices and season are meant
	// Latest says that of an hourly tariff the last day with prices is meant,
	// where Date has none.
	Latest bool
}

// A TariffWeek is what a tariff holds in the week of a date, what it leaves
// open, and which rows never apply, over all dates.
type TariffWeek struct {
	Name   string
	Others []string // the other tariffs
	Week   energy.Week
	Hours  []exact.Ratio // that each of the week's bands holds in it, holidays left out
	First  exact.Date    // before which nothing has a price; NoDate: the tariff has always held
	From   exact.Date    // since when the week's prices hold; NoDate: always
	Next   exact.Date    // when others follow; LastDate: never
	Months energy.MonthSet
	Gaps   []energy.Gap // but for the time before First
	Unused []energy.Band

	// Of hours of the week: Open, that some have no price; Shared, that blocks
	// share some; Mixed, that a band begins within a half hour.
	Open, Shared, Mixed bool

	// Of a tariff with hourly bands alone: the date's prices part by part, how
	// many hours of it have none, and since and until when prices are known.
	Day          []energy.DayPrice
	Unknown      exact.Ratio // hours of Day without a price
	Since, Until time.Time   // zero: there are none
	Missing      []energy.PricedHour
}

// IsHourly reports whether the tariff has hourly bands.
func (w *TariffWeek) IsHourly() bool { return w.Day != nil }

// WeekOf works out the week of a tariff. It needs only the settings, bands and
// holidays to be without fault, since a gap that a run meets is a fault of its
// own. The error is an [*UnknownError] or a [*FactError].
func WeekOf(rec *ledger.Records, q TariffQuery) (*TariffWeek, error) {
	name, err := q.tariff(rec)
	if err != nil {
		return nil, err
	}
	t, err := rec.BuildTariff(name)
	if err != nil {
		return nil, unknown(ledger.Tariffs, name)
	}
	check := t.Check()
	q.Date = q.latest(t, rec.Settings.Zone)
	w := &TariffWeek{Name: name, Week: t.Week(q.Date), Gaps: check.Gaps, Unused: check.Unused}
	w.findDates(t.Bands())
	w.Gaps = slices.DeleteFunc(w.Gaps, func(g energy.Gap) bool { return g.From == exact.NoDate && g.Until == w.First })
	w.lookAtHours()
	if t.IsHourly() {
		w.lookAtDay(t)
	}
	w.Months = w.otherSeasons(t)
	w.Others = slices.DeleteFunc(rec.TariffNames(), func(other string) bool { return other == name })
	return w, nil
}

// tariff is the one asked for.
func (q TariffQuery) tariff(rec *ledger.Records) (string, error) {
	names := rec.TariffNames()
	switch {
	case q.Name != "":
		return q.Name, nil
	case rec.Settings.Tariff != "":
		return rec.Settings.Tariff, nil
	case len(names) == 1:
		return names[0], nil
	case len(names) == 0:
		return "", unknown(ledger.Tariffs, "")
	}
	return "", &FactError{Fact: TariffFact, Fault: SeveralNamed, Among: names}
}

// latest is the date asked about, or the last with hourly prices.
func (q TariffQuery) latest(t *energy.Tariff, zone *time.Location) exact.Date {
	_, end, any := t.Prices().Span()
	if !q.Latest || !any || !t.IsHourly() {
		return q.Date
	}
	day := q.Date.Midnight(zone)
	for range t.Prices().Between(day, q.Date.AddDays(1).Midnight(zone)) {
		return q.Date
	}
	return exact.DateIn(end.Add(-time.Second).In(zone))
}

// lookAtDay goes through the prices of the date, and through what is missing
// between the first and the last.
func (w *TariffWeek) lookAtDay(t *energy.Tariff) {
	w.Day = t.Day(w.Week.Date)
	var unknown time.Duration
	for _, p := range w.Day {
		if !p.Price.Given() {
			unknown += p.Until.Sub(p.From)
		}
	}
	w.Unknown = exact.Int(int64(unknown / time.Second)).Over(exact.Int(3600))
	first, end, any := t.Prices().Span()
	if !any {
		return
	}
	w.Since, w.Until = first, end
	at := first
	for h := range t.Prices().Between(first, end) {
		if at.Before(h.From) {
			w.Missing = append(w.Missing, energy.PricedHour{From: at, Until: h.From})
		}
		at = h.Until
	}
}

// findDates finds when prices begin to hold.
func (w *TariffWeek) findDates(bands []energy.Band) {
	w.First, w.From, w.Next = exact.LastDate, exact.NoDate, exact.LastDate
	for _, b := range bands {
		w.First = min(w.First, b.From)
		if b.From <= w.Week.Date {
			w.From = max(w.From, b.From)
		} else {
			w.Next = min(w.Next, b.From)
		}
	}
}

// Unpriced reports whether the first kWh of a month has no price where a band
// of the week is the lowest that holds; -1 is none.
func (w *TariffWeek) Unpriced(band int) bool { return band < 0 || w.Week.Bands[band].Above.Sign() > 0 }

// lookAtHours goes through the hours of the week.
func (w *TariffWeek) lookAtHours() {
	minutes := make([]int64, len(w.Week.Bands))
	for _, d := range w.Week.Days {
		for _, s := range d.Stretches {
			w.Open = w.Open || len(s.Bands) == 0 || w.Unpriced(s.Bands[0])
			w.Shared = w.Shared || len(s.Bands) > 1
			for _, b := range s.Bands {
				if d.Days&energy.Holidays == 0 {
					minutes[b] += int64(s.End - s.Start)
				}
			}
		}
		for _, c := range d.HalfHours() {
			w.Mixed = w.Mixed || c.Mixed
		}
	}
	for _, n := range minutes {
		w.Hours = append(w.Hours, exact.Int(n).Over(exact.Int(60)))
	}
}

// otherSeasons are the months whose week, under the same prices, differs.
func (w *TariffWeek) otherSeasons(t *energy.Tariff) (months energy.MonthSet) {
	for i := range 12 {
		first := w.Week.Date.Month().AddMonths(i)
		day := max(first, w.From)
		if last := first.AddMonths(1).AddDays(-1); day > last || day >= w.Next {
			continue
		}
		if !sameWeek(w.Week, t.Week(day)) {
			_, m, _ := day.Civil()
			months |= 1 << m
		}
	}
	return months
}

// sameWeek reports whether two weeks have the same bands at the same times.
func sameWeek(a, b energy.Week) bool {
	return slices.EqualFunc(a.Bands, b.Bands, func(x, y energy.Band) bool { return x.Line == y.Line }) &&
		slices.EqualFunc(a.Days, b.Days, func(x, y energy.DayLine) bool {
			return x.Days == y.Days && slices.EqualFunc(x.Stretches, y.Stretches, func(p, q energy.Stretch) bool {
				return p.Start == q.Start && p.End == q.End && slices.Equal(p.Bands, q.Bands)
			})
		})
}
