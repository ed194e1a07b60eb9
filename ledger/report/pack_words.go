package report

import (
	"fmt"
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// PackWords are the words of the command that packs what is left of a run as its
// foods are usually packed; brief ones do not say how much is in each container
// where it is as last time.
func PackWords(g *ledger.Ledger, run int, brief bool) string {
	var list, rest []string
	for i := range g.Runs[run].Items {
		item := &g.Runs[run].Items[i]
		text := PackWord(g, item)
		if brief && packedLast(g, item.Food) != nil {
			text, _, _ = strings.Cut(text, " x ")
		}
		text = `"` + text + `"`
		if list = append(list, text); len(item.Packs) == 0 || item.Short {
			rest = append(rest, text)
		}
	}
	if len(list) == 1 && packedLast(g, g.Runs[run].Items[0].Food) != nil {
		words := strings.Fields(strings.Trim(list[0], `"`))
		return words[1] // of the only food, each as last time
	}
	if len(rest) > 0 {
		list = rest
	}
	return strings.Join(list, " ")
}

// AllPacked reports whether nothing of a run is left to pack.
func AllPacked(g *ledger.Ledger, run int) bool {
	return len(g.Runs[run].Items) > 0 && !slices.ContainsFunc(g.Runs[run].Items, func(item ledger.ItemCost) bool { return len(item.Packs) == 0 || item.Short })
}

// PackWord is one food of a run: chives 2 x 90 g. One that was never packed is in
// one container, in the unit in which the household is shown amounts.
func PackWord(g *ledger.Ledger, item *ledger.ItemCost) string {
	food, left := &g.Foods[item.Food], item.Usual
	if len(item.Packs) == 0 || item.Short {
		left = left.Sub(exact.RatioOf(item.Made))
	}
	unit, count := g.Settings.Show().In(food.Basis), exact.Int(1)
	each := unit.Of(left.Quo(exact.RatioOf(unit.Factor())).Round(ledger.ShownPlaces, exact.Down))
	if last := packedLast(g, item.Food); last != nil {
		each = last.Each
	}
	if n, err := food.InBasis(each); err == nil && n.Sign() > 0 {
		count = left.Quo(exact.RatioOf(n)).Round(0, exact.HalfAway).Max(count)
	}
	return fmt.Sprintf("%s %v x %s", food.ID, count, g.Settings.Show().Typed(each))
}

// packedLast is the pack that says how a food is packed, or nil.
func packedLast(g *ledger.Ledger, food int) *ledger.Pack {
	i := figures.LastPack(g.Records, g.Foods[food].ID, func(i int) bool { return !g.Packs[i].Done })
	if i < 0 {
		return nil
	}
	p := g.Records.Packs.At(i)
	return &p
}
