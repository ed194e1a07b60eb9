package figures

import (
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// A PackFit is how what is left of a run's food is proposed to be packed.
type PackFit struct {
	Containers exact.Number   // a whole number, 1 at least
	Each       exact.Quantity // what one gives
	AsLast     bool           // each as the last time
	Jar        *ledger.Supply // of which enough are free; nil: none is, or it is packed as the last time
}

// FitPack proposes containers for a food of a run, each as the last time. Of a food
// that was never packed what is left is shared by as many containers as there are
// said to be; where count is 0 by the jars that it fills, or one, in the unit in which
// people are shown amounts.
func FitPack(g *ledger.Ledger, item *ledger.ItemCost, count int) PackFit {
	food, left := &g.Foods[item.Food], LeftToPack(item)
	fit := PackFit{Containers: exact.Int(int64(max(count, 1)))}
	if last := lastPackOf(g, item.Food); last >= 0 {
		fit.Each, fit.AsLast = g.Records.Packs.At(last).Each, true
	} else {
		jar, n := freeJar(g, item)
		if fit.Jar = jar; jar != nil && count == 0 {
			fit.Containers = n
		}
		unit := g.Settings.Show().In(food.Basis)
		fit.Each = unit.Of(left.Quo(exact.RatioOf(unit.Factor().Mul(fit.Containers))).Round(ledger.ShownPlaces, exact.Down))
	}
	if n, err := food.InBasis(fit.Each); count == 0 && err == nil && n.Sign() > 0 {
		fit.Containers = ContainersLeft(item, n).Max(exact.Int(1))
	}
	return fit
}

// AllPacked reports whether nothing of a run is left to pack.
func AllPacked(g *ledger.Ledger, run int) bool {
	items := g.Runs[run].Items
	return len(items) > 0 && !slices.ContainsFunc(items, func(item ledger.ItemCost) bool { return item.ToPack() })
}

// LeftToPack is what of a run's food is in no pack yet, or where all is, what it is
// likely to have given.
func LeftToPack(item *ledger.ItemCost) exact.Ratio {
	if item.ToPack() {
		return item.Usual.Sub(exact.RatioOf(item.Made))
	}
	return item.Usual
}

// ContainersLeft is about how many containers that give so much each [LeftToPack]
// fills.
func ContainersLeft(item *ledger.ItemCost, each exact.Number) exact.Number {
	return LeftToPack(item).Quo(exact.RatioOf(each)).Round(0, exact.HalfAway)
}

// freeJar is the first jar, or else bag, of which enough are free for what is left to
// pack of a food, and how many that fills; nil where there is none, or that is not known.
func freeJar(g *ledger.Ledger, item *ledger.ItemCost) (*ledger.Supply, exact.Number) {
	for _, kind := range []ledger.SupplyKind{ledger.Jar, ledger.Bag} {
		for i := range g.Supplies {
			s := &g.Supplies[i]
			takes, _ := jarTakes(&g.Foods[item.Food], s)
			if s.Kind != kind || takes.Sign() <= 0 {
				continue
			}
			n := LeftToPack(item).Quo(exact.RatioOf(takes)).Ceil()
			if n.Sign() > 0 && g.Pieces(i).Free.Cmp(exact.RatioOf(n)) >= 0 {
				return s, n
			}
		}
	}
	return nil, exact.Number{}
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

// An Overfilling is a pack that holds more than its jars or bags take.
type Overfilling struct {
	Food        int          // position
	Each, Takes exact.Number // what is in a container, and what fills it, in the food's basis unit
	Into        []ledger.Use // the jars and bags of each container
	Taken       bool         // Takes is at 1 kg a litre, since the density is not known
}

// Overfilled reports whether a pack holds more than its jars or bags take, as far as
// that is known. Dried pieces keep the size that they had fresh. What is measured
// by volume, as broth is, is a powder once dried and goes into less; and a pack that is
// as full as the food's last one is not overfilled.
func Overfilled(g *ledger.Ledger, p *ledger.Pack) (o Overfilling, over bool) {
	i, ok := g.FindFood(p.Item)
	if !ok || g.Foods[i].Basis != exact.Kg {
		return o, false
	}
	food := &g.Foods[i]
	o = roomOf(g, food, p)
	each, err := food.InBasis(p.Each)
	if o.Food, o.Each = i, each; err != nil || o.Takes.Sign() <= 0 || !o.Takes.Mul(mostInJar).Less(each) {
		return o, false
	}
	if at := lastPackOf(g, i); at >= 0 {
		last := g.Records.Packs.At(at)
		before := roomOf(g, food, &last).Takes
		if n, err := food.InBasis(last.Each); err == nil && before.Sign() > 0 && !n.Mul(o.Takes).Less(each.Mul(before)) {
			return o, false
		}
	}
	return o, true
}

// roomOf is how much of a food the jars and bags take that go with each container of a
// pack, and which they are; 0 where one of them is of a size that is not known.
func roomOf(g *ledger.Ledger, food *ledger.Food, p *ledger.Pack) (o Overfilling) {
	for _, u := range p.With {
		i, ok := g.FindSupply(u.Supply)
		if !ok || g.Supplies[i].Kind != ledger.Jar && g.Supplies[i].Kind != ledger.Bag {
			continue
		}
		n, taken := jarTakes(food, &g.Supplies[i])
		if n.Sign() <= 0 {
			return Overfilling{}
		}
		o.Takes, o.Into, o.Taken = o.Takes.Add(n.Mul(u.Number)), append(o.Into, u), taken
	}
	return o
}
