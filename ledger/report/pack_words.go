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
		text := PackWord(g, item, 0)
		if packedLast(g, item.Food) != nil {
			if brief {
				text, _, _ = strings.Cut(text, " x ")
			}
		} else if jar := freeJar(g, item); jar != nil {
			text += " with 1 " + jar.ID
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

// PackWord is one food of a run: chives 2 x 90 g. Of a food that was never packed
// what is left is shared by as many containers as there are said to be; where count
// is 0 by the jars that it fills, or one, in the unit in which people are shown amounts.
func PackWord(g *ledger.Ledger, item *ledger.ItemCost, count int) string {
	food, left := &g.Foods[item.Food], LeftToPack(item)
	containers := exact.Int(int64(max(count, 1)))
	var each exact.Quantity
	if last := packedLast(g, item.Food); last != nil {
		each = last.Each
	} else {
		if jar := freeJar(g, item); jar != nil && count == 0 {
			containers = jarsFor(food, jar, left)
		}
		unit := g.Settings.Show().In(food.Basis)
		each = unit.Of(left.Quo(exact.RatioOf(unit.Factor().Mul(containers))).Round(ledger.ShownPlaces, exact.Down))
	}
	if n, err := food.InBasis(each); count == 0 && err == nil && n.Sign() > 0 {
		containers = left.Quo(exact.RatioOf(n)).Round(0, exact.HalfAway).Max(exact.Int(1))
	}
	return fmt.Sprintf("%s %v x %s", food.ID, containers, g.Settings.Show().Typed(each))
}

// LeftToPack is what of a run's food is in no pack yet, or where all is, what it is
// likely to have given.
func LeftToPack(item *ledger.ItemCost) exact.Ratio {
	if len(item.Packs) == 0 || item.Short {
		return item.Usual.Sub(exact.RatioOf(item.Made))
	}
	return item.Usual
}

// freeJar is the first jar, or else bag, of which enough are free for what is left to
// pack of a food, or nil.
func freeJar(g *ledger.Ledger, item *ledger.ItemCost) *ledger.Supply {
	for _, kind := range []ledger.SupplyKind{ledger.Jar, ledger.Bag} {
		for i := range g.Supplies {
			s := &g.Supplies[i]
			if s.Kind != kind || s.Capacity.Unit().Dimension() != exact.Volume {
				continue
			}
			if n := jarsFor(&g.Foods[item.Food], s, LeftToPack(item)); n.Sign() > 0 && g.Pieces(i).Free.Cmp(exact.RatioOf(n)) >= 0 {
				return s
			}
		}
	}
	return nil
}

// jarsFor is how many jars of a kind an amount of a food fills; 0 where that is not
// known.
func jarsFor(food *ledger.Food, jar *ledger.Supply, amount exact.Ratio) exact.Number {
	n, err := food.InBasis(jar.Capacity)
	if err != nil || n.Sign() <= 0 {
		return exact.Number{}
	}
	return amount.Quo(exact.RatioOf(n)).Ceil()
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
