package report

import (
	"fmt"
	"strings"

	"putby/energy"
	"putby/ledger"
	"putby/ledger/intake"
	"putby/pricing/exact"
)

// RateRead says what a rate of the open database is, what of it bands cannot express,
// and what the bands that it becomes leave open.
func RateRead(rate *intake.URDBRate, bands []ledger.Band, s *ledger.Settings, names Names) []string {
	name := strings.Trim(rate.Utility+", "+rate.Name, ", ")
	words := []string{fmt.Sprintf("%s: %d bands of tariff %s.", name, len(bands), bands[0].Tariff)}
	if bands[0].From == exact.NoDate {
		words = append(words, "It says no first date: the prices hold always ("+names.of("from")+").")
	}
	if code := s.Currency.Code(); code != "USD" {
		words = append(words, fmt.Sprintf("The format is in US dollars, this ledger in %s: see that the prices are too.", code))
	}
	words = append(words, "Left out:")
	words = append(words, worded(rate.Left, func(left string) string { return "  - " + left })...)
	words = append(words, worded(rate.Comments, func(c string) string { return "It says: " + c })...)
	list := make([]energy.Band, len(bands))
	for i, b := range bands {
		list[i] = b.Band
	}
	t, err := energy.NewTariff(bands[0].Tariff, s.Zone, list, nil)
	if err != nil {
		return words // the change will be refused, and say why
	}
	for _, g := range t.Check().Gaps {
		// The time before the rate's first date is no gap of it: it says nothing of that.
		if g.From != exact.NoDate || g.Until != bands[0].From {
			words = append(words, fmt.Sprintf("No price: %v", g))
		}
	}
	return words
}
