package report

import (
	"fmt"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// PackLabels says what the labels of packs say: until when they are best, and how
// much water brings each container back. Of a pack that is not dry they say
// nothing: it is not to be put away.
func PackLabels(g *ledger.Ledger, packs ...string) (words []string) {
	s := phrasingOf(&g.Settings)
	for _, i := range packsNamed(g, packs) {
		if g.Moist(i) {
			continue
		}
		p, cost := g.Records.Packs.At(i), &g.Packs[i]
		said := "On the label of " + p.ID + ": "
		if w, lack := waterToAdd(g, i); lack != "" {
			said += "cover with water (how much is not known, since " + lack + ")"
		} else {
			said += "add " + s.water(w)
		}
		said += s.dated(", best by ", cost.BestBy, "", "")
		if n, some := figures.AbsorbersIn(g, &p); some {
			word := "absorbers"
			if n.Equal(exact.Int(1)) {
				word = "absorber"
			}
			said += fmt.Sprintf(", %s %s inside", s.number(n), word)
		}
		words = append(words, said+".")
	}
	return words
}

// PackPieces says of the containers, lids and absorbers that packs take how many
// are free before and after, by the ledger without those packs; and of which
// there are not enough.
func PackPieces(g *ledger.Ledger, need map[int]exact.Number) (said, short []string) {
	for i := range g.Supplies {
		s, n := &g.Supplies[i], need[i]
		if n.Sign() <= 0 || s.Kind > ledger.Absorber {
			continue
		}
		pieces := figures.NeedOf(g, i, n)
		shown := func(r exact.Ratio) string { return g.Settings.Show().Number(r.Round(3, exact.HalfAway)) }
		if pieces.After().Sign() < 0 {
			there := "only " + shown(pieces.Free) + " free"
			if pieces.Free.Sign() == 0 {
				there = "none free"
			}
			short = append(short, fmt.Sprintf("%s: %s needed, and %s; is a receipt of them missing, or a draw of what was eaten?", s.Title(), shown(pieces.Needed), there))
			continue
		}
		said = append(said, fmt.Sprintf("%s: %s free before, %s after.", s.Title(), shown(pieces.Free), shown(pieces.After())))
	}
	return said, short
}

// PacksAdvice is [PackAdvice] of several packs, which says each thing once.
func PacksAdvice(g *ledger.Ledger, packs ...string) (words []Remark) {
	for _, i := range packsNamed(g, packs) {
		advice := PackAdvice(g, i)
		words = Once(words, advice[:len(advice)-1]...) // all but the last, which is Safety
	}
	return append(words, Safety)
}
