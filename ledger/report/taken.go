package report

import (
	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// TakenOut says of packs that containers were taken from where they stand, until
// when they are best and, where they are to be eaten, how much water each of
// their containers takes; and of each of their foods what is left in store. Names
// that are none of packs say nothing.
func TakenOut(g *ledger.Ledger, eaten bool, names ...string) (words []Remark) {
	s := phrasingOf(&g.Settings)
	var foods []int
	if eaten {
		words = OpenedMoist(g, names...)
	}
	for _, i := range packsNamed(g, names) {
		words = append(words, Remark{Words: s.takenFrom(g, i, eaten && !g.Moist(i))})
		foods = Once(foods, g.Packs[i].Food)
	}
	var left []string
	for _, food := range foods {
		n := "no container"
		if there := figures.InStore(g, food); there > 0 {
			n = s.counted(there, "container")
		}
		left = append(left, n+" of "+g.Foods[food].Title())
	}
	if left == nil {
		return words
	}
	return append(words, Remark{Words: "Left in store: " + Listed(left) + "."})
}

// takenFrom is where a pack stands, its best-by date and the water to add.
func (s phrasing) takenFrom(g *ledger.Ledger, pack int, eaten bool) string {
	p, cost := g.Records.Packs.At(pack), &g.Packs[pack]
	words := "Pack " + p.ID
	if p.Place != "" {
		words += " (" + p.Place + ")"
	}
	words += s.dated(", best by ", cost.BestBy, "", "")
	if !eaten {
		return words + "."
	}
	w, lack := waterToAdd(g, pack)
	if lack != "" {
		return words + ": cover with water; how much is not known, since " + lack + "."
	}
	return words + ": add " + s.water(w) + " to each container."
}

// water is an amount of it as volume, marked where it is an estimate.
func (s phrasing) water(w figures.Rehydration) string {
	words := s.amount(w.Litres, exact.L) + " of water"
	if w.Shared {
		return about + words
	}
	return words
}
