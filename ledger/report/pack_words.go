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
	items := g.Runs[run].Items
	for i := range items {
		item := &items[i]
		containers, each := packing(g, item, 0)
		text, last := fmt.Sprintf("%s %v", g.Foods[item.Food].ID, containers), packedLast(g, item.Food) != nil
		if last && len(items) == 1 {
			return containers.String() // of the only food, each as last time
		}
		if !last || !brief {
			text += " x " + each
		}
		if jar := freeJar(g, item); !last && jar != nil {
			text += " with 1 " + jar.ID
		}
		text = `"` + text + `"`
		if list = append(list, text); len(item.Packs) == 0 || item.Short {
			rest = append(rest, text)
		}
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
	containers, each := packing(g, item, count)
	return fmt.Sprintf("%s %v x %s", g.Foods[item.Food].ID, containers, each)
}

// packing is how many containers of a food [PackWord] tells, and what is in each.
func packing(g *ledger.Ledger, item *ledger.ItemCost, count int) (containers exact.Number, typed string) {
	food, left := &g.Foods[item.Food], LeftToPack(item)
	containers = exact.Int(int64(max(count, 1)))
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
	return containers, g.Settings.Show().Typed(each)
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
	n, _ := jarTakes(food, jar)
	if n.Sign() <= 0 {
		return exact.Number{}
	}
	return amount.Quo(exact.RatioOf(n)).Ceil()
}

// jarTakes is how much of a food fills a jar, in the food's basis unit; 0 where that is
// not known. What is weighed and has no density is taken to be 1 kg a litre, which is
// common practice.
func jarTakes(food *ledger.Food, jar *ledger.Supply) (n exact.Number, taken bool) {
	if jar.Capacity.Unit().Dimension() != exact.Volume {
		return n, false
	}
	n, err := food.InBasis(jar.Capacity)
	if err != nil && food.Basis == exact.Kg {
		return jar.Capacity.Base().Number(), true
	}
	return n, false
}

// mostInJar is how much of what fills a jar may go into it before somebody is asked:
// 130 %.
var mostInJar = exact.New(13, 1)

// Overfull says that a pack holds more than its jars or bags take; "" where it does not,
// or that is not known. Dried pieces keep the size that they had fresh. What is measured
// by volume, as broth is, is a powder once dried and goes into less; and nothing is said
// where the food was packed as full the last time.
func Overfull(g *ledger.Ledger, p *ledger.Pack) string {
	i, ok := g.FindFood(p.Item)
	if !ok || g.Foods[i].Basis != exact.Kg {
		return ""
	}
	food := &g.Foods[i]
	takes, jars, taken := roomOf(g, food, p)
	each, err := food.InBasis(p.Each)
	if err != nil || takes.Sign() <= 0 || !takes.Mul(mostInJar).Less(each) {
		return ""
	}
	if last := packedLast(g, i); last != nil {
		before, _, _ := roomOf(g, food, last)
		if n, err := food.InBasis(last.Each); err == nil && before.Sign() > 0 && !n.Mul(takes).Less(each.Mul(before)) {
			return ""
		}
	}
	words := fmt.Sprintf("%s of %s in %s: dried pieces keep their size, and about %s goes in", g.Settings.Show().Amount(each, food.Basis), food.Title(), Listed(jars), g.Settings.Show().Amount(takes, food.Basis))
	if taken {
		words += " (at 1 kg a litre, since its density is not known)"
	}
	return words
}

// roomOf is how much of a food the jars and bags take that go with each container of a
// pack, and which they are; 0 where one of them is of a size that is not known.
func roomOf(g *ledger.Ledger, food *ledger.Food, p *ledger.Pack) (sum exact.Number, jars []string, taken bool) {
	for _, u := range p.With {
		i, ok := g.FindSupply(u.Supply)
		if !ok || g.Supplies[i].Kind != ledger.Jar && g.Supplies[i].Kind != ledger.Bag {
			continue
		}
		n, guessed := jarTakes(food, &g.Supplies[i])
		if n.Sign() <= 0 {
			return exact.Number{}, nil, false
		}
		words := g.Supplies[i].Title()
		if !u.Number.Equal(exact.Int(1)) {
			words = u.Number.String() + " x " + words
		}
		sum, jars, taken = sum.Add(n.Mul(u.Number)), append(jars, words), guessed
	}
	return sum, jars, taken
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
