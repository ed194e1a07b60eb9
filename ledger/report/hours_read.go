package report

import (
	"fmt"
	"time"

	"putby/ledger"
	"putby/ledger/intake"
	"putby/pricing/exact"
)

// HoursRead is what became of a file of prices by the hour.
type HoursRead struct {
	File, Tariff string // their names
	Prices       *intake.HourlyPrices
	Merge        *intake.HourlyMerge // with those that the ledger has
	Band         *ledger.Band        // that the tariff gets; nil: it has one
	First        bool                // runs had no tariff, and get this one
	Settings     *ledger.Settings
	Names        Names
}

func (r *HoursRead) moment(t time.Time) string {
	t = t.In(r.Settings.Zone)
	return t.Format("Mon ") + r.Settings.Show().Local(t)
}

// Found says what the file has, and what of it the ledger has otherwise.
func (r *HoursRead) Found() []string {
	list, m, code, say := r.Prices.List, r.Merge, r.Settings.Currency.Code(), phrasingOf(r.Settings)
	per := r.Prices.Per
	if per == intake.AnyPer {
		per = intake.PerKWh
	}
	words := []string{fmt.Sprintf("%s: %s in %s a %v (%s), from %s until %s.", r.File, say.counted(len(list), "price"), code, per,
		exact.Quote(r.Prices.Column), r.moment(list[0].From), r.moment(list[len(list)-1].Until))}
	if !r.Prices.Named {
		words = append(words, "The file names no currency: "+code+" is taken.")
	}
	if m.There > 0 {
		words = append(words, fmt.Sprintf("%s of them the ledger has already.", say.count(m.There)))
	}
	if n := r.Prices.Rounded; n > 0 {
		words = append(words, fmt.Sprintf("%s of them finer than nine digits a kWh, rounded half to even.", say.count(n)))
	}
	words = append(words, firstOf(m.Missing, len(m.Missing), "  and %d more", func(gap intake.HourlyPrice) string {
		return fmt.Sprintf("Missing: from %s until %s.", r.moment(gap.From), r.moment(gap.Until))
	})...)
	if n := len(m.Differ); n > 0 {
		words = append(words, fmt.Sprintf("The ledger has other prices for %s of the file, and keeps its own (%s takes the file's):", say.counted(n, "price"), r.Names.of("replace")))
	}
	return append(words, firstOf(m.Differ, len(m.Differ), "  and %d more", r.other)...)
}

// other says where the ledger has another price.
func (r *HoursRead) other(d intake.HourlyDiffer) string {
	show := r.Settings.Show()
	what := fmt.Sprintf("  %s: %s in the ledger, %s in line %d", r.moment(d.From), show.Number(d.Has), show.Number(d.Rate), d.Line)
	if d.Parts {
		what += ", by other hours or parts of one"
	}
	return what
}

// Saved says what of it is written.
func (r *HoursRead) Saved() (words []string) {
	if r.Band != nil {
		show := r.Settings.Show()
		words = append(words, fmt.Sprintf("Tariff %s: the price of the hour and %s %s a kWh, and %s tax on both.",
			r.Tariff, show.Number(r.Band.Rate), r.Settings.Currency.Code(), show.Locale.Percent(r.Band.Tax.String())))
	}
	if r.First {
		words = append(words, "Setting tariff: "+r.Tariff+", for runs that name none.")
	}
	if n := r.Merge.Added; n > 0 {
		words = append(words, fmt.Sprintf("%s: %s added.", ledger.RatesFile(r.Tariff), phrasingOf(r.Settings).counted(n, "price")))
	}
	if n := r.Merge.Replaced; n > 0 {
		words = append(words, fmt.Sprintf("%s: %s in the place of other ones.", ledger.RatesFile(r.Tariff), phrasingOf(r.Settings).counted(n, "price")))
	}
	return words
}

// mostOfFile is how many gaps and the like of a file are told one by one.
const mostOfFile = 20

// firstOf says the first things of a list, one by one, and how many there are besides.
func firstOf[T any](list []T, all int, more string, say func(T) string) (words []string) {
	for i, thing := range list {
		if i == mostOfFile {
			return append(words, fmt.Sprintf(more, all-i))
		}
		words = append(words, say(thing))
	}
	return words
}
