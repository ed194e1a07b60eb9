package pricing

import (
	"slices"

	"putby/pricing/exact"
)

// A Spell is a time in which one shop had an item on offer.
type Spell struct {
	Shop     string
	From, To exact.Date  // first and last day that the offer was seen
	Lowest   exact.Ratio // money per unit
	On       exact.Date  // the first day of that price
}

// Offered keeps the prices of offers: those seen, and what was paid where it is less
// than the regular price of that day: the shop's, or where that is not known any
// shop's.
func (h *History) Offered() *History {
	return h.keep(func(p Price) bool { return p.Kind.is(AskedOffer) || p.reduced })
}

// Spells returns the spells on offer, oldest first: offers of one shop that
// were seen no more than within days apart are one spell, for an offer that is
// noted twice in a week is one offer.
func (h *History) Spells(within int) []Spell {
	var spells []Spell
	open := map[string]int{} // index of each shop's newest spell
	for _, p := range h.Offered().prices {
		i, ok := open[p.Shop]
		if !ok || p.Date > spells[i].To.AddDays(within) {
			open[p.Shop] = len(spells)
			spells = append(spells, Spell{p.Shop, p.Date, p.Date, p.PerUnit, p.Date})
			continue
		}
		spells[i].To = p.Date
		if p.PerUnit.Cmp(spells[i].Lowest) < 0 {
			spells[i].Lowest, spells[i].On = p.PerUnit, p.Date
		}
	}
	return spells
}

// A Rhythm says how far apart spells on offer begin, in days.
type Rhythm struct {
	Shortest, Longest int         // days
	Median            exact.Ratio // days
}

// RhythmOf returns how far apart spells begin, whatever their shops. It reports
// false for fewer than two.
func RhythmOf(spells []Spell) (Rhythm, bool) {
	if len(spells) < 2 {
		return Rhythm{}, false
	}
	starts := make([]exact.Date, len(spells))
	for i, s := range spells {
		starts[i] = s.From
	}
	slices.Sort(starts)
	gaps := make([]int, len(starts)-1)
	for i := range gaps {
		gaps[i] = int(starts[i+1] - starts[i])
	}
	slices.Sort(gaps)
	return Rhythm{gaps[0], gaps[len(gaps)-1], median(gaps)}, true
}

// median returns the middle of sorted numbers.
func median(sorted []int) exact.Ratio {
	values := make([]exact.Ratio, len(sorted))
	for i, n := range sorted {
		values[i] = whole(n)
	}
	m, _ := exact.Median(values)
	return m
}
