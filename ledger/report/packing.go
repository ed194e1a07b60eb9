package report

import (
	"cmp"
	"fmt"

	"putby/ledger"
	"putby/pricing/exact"
)

// oxygenPart is the part of air that is oxygen, by volume: 20.9 %.
var oxygenPart = exact.New(209, 3)

// solids is the density of dry food without its pores, kg/L (memory).
var solids = exact.New(15, 1)

// offBy is how far packs may be off what was loaded before it is worth a note:
// 10 %.
var offBy = exact.New(1, 1)

// PackAdvice says what a person at the bench should know of a pack, which is
// among the ledger's records: how dry it is, and if it is dry how many
// absorbers its containers need beside those used, whether the run's packs are
// far off what was loaded, whether it counts as free, the food's cautions, and
// that none of this says that food is safe.
func PackAdvice(g *ledger.Ledger, pack int) []string {
	p := &g.Records.Packs[pack]
	var words []string
	containers := containersOfPack(g, p)
	_, used := absorbersIn(g, p)
	if dryness := drynessAdvice(g, pack, used || len(containers) > 0); dryness != "" {
		words = append(words, dryness)
	}
	if !g.Moist(pack) {
		for _, c := range containers {
			words = append(words, absorberAdvice(g, pack, c))
		}
	}
	if note := packedAgainstLoaded(g, p); note != "" {
		words = append(words, note)
	}
	if p.Run == "" && p.Cost.IsZero() {
		words = append(words, "Without a run it is opening stock, and without a cost it counts as free: give its run, or what it cost.")
	}
	words = append(words, cautionsOf(g, g.Packs[pack].Food, true)...)
	return append(words, SafetyLine)
}

// containersOfPack are the supplies of a pack that hold food and have a
// capacity.
func containersOfPack(g *ledger.Ledger, p *ledger.Pack) []*ledger.Supply {
	var list []*ledger.Supply
	for _, u := range p.With {
		if i, ok := g.FindSupply(u.Supply); ok {
			s := &g.Supplies[i]
			if (s.Kind == ledger.Jar || s.Kind == ledger.Bag) && s.Capacity.Unit().Dimension() == exact.Volume {
				list = append(list, s)
			}
		}
	}
	return list
}

// gasIn is the volume (L) of gas in a container of a volume (L) that holds dry
// food of a mass (kg; 0 where it is not known): all that its solids leave, 0 at
// the least.
func gasIn(volume, dry exact.Number) exact.Ratio {
	gas := exact.RatioOf(volume).Sub(dry.Over(solids))
	if gas.Sign() < 0 {
		return exact.Ratio{}
	}
	return gas
}

// absorberAdvice compares the absorbers used with those that a container
// needs.
func absorberAdvice(g *ledger.Ledger, pack int, container *ledger.Supply) string {
	p := &g.Records.Packs[pack]
	dry, shared := dryIn(g, pack)
	gas := gasIn(container.Capacity.Base().Number(), dry.Base().Number())
	oxygen := gas.Times(oxygenPart)
	say := phrasingOf(&g.Settings)
	head := fmt.Sprintf("%s, %s: %s of gas, %s of it oxygen, %s.", cmp.Or(container.Name, container.ID), say.dryText(dry, shared), say.inSmall(gas, "mL"), say.percents(exact.MustNumber("20.9")), say.inSmall(oxygen, "cc"))
	kind, used := absorbersOf(g, p)
	if kind == nil {
		if kind = anyAbsorber(g); kind == nil {
			return head + " No absorber with a capacity is among the supplies."
		}
	}
	need := oxygen.Quo(exact.RatioOf(kind.Capacity.Base().Number())).Ceil()
	head += fmt.Sprintf(" It needs %v of %s (%s);", need, cmp.Or(kind.Name, kind.ID), say.quantity(kind.Capacity))
	switch off := used.Sub(need); {
	case used.IsZero():
		return head + " none is used."
	case off.Sign() < 0:
		taken := exact.RatioOf(used.Mul(kind.Capacity.Base().Number()))
		return head + fmt.Sprintf(" %s used, %s too few: %s of oxygen stay in each.", say.number(used), say.number(off.Neg()), say.inSmall(oxygen.Sub(taken), "cc"))
	case off.Sign() > 0:
		return head + fmt.Sprintf(" %s used, %s more than needed%s.", say.number(used), say.number(off), extraCost(g, pack, kind, used, off))
	}
	return head + fmt.Sprintf(" %s used, which is right.", say.number(used))
}

// inSmall writes litres as mL or cc, which are the same.
func (p phrasing) inSmall(litres exact.Ratio, unit string) string {
	return p.number(litres.Times(exact.Int(1000)).Round(2, exact.HalfAway)) + " " + unit
}

func (p phrasing) dryText(dry exact.Quantity, shared bool) string {
	switch {
	case shared:
		return about + p.quantity(dry) + " of dry food, by the run's weights"
	case dry.Given():
		return p.quantity(dry) + " of dry food"
	}
	return "dry weight not known"
}

// absorbersIn is how many absorbers are in each container of a pack, of
// whatever kind, and whether there are any.
func absorbersIn(g *ledger.Ledger, p *ledger.Pack) (n exact.Number, any bool) {
	for _, u := range p.With {
		if i, ok := g.FindSupply(u.Supply); ok && g.Supplies[i].Kind == ledger.Absorber {
			n = n.Add(u.Number)
		}
	}
	return n, n.Sign() > 0
}

// absorbersOf finds the absorbers whose capacity is known among a pack's
// supplies, and how many each container has.
func absorbersOf(g *ledger.Ledger, p *ledger.Pack) (*ledger.Supply, exact.Number) {
	for _, u := range p.With {
		if i, ok := g.FindSupply(u.Supply); ok && absorbs(&g.Supplies[i]) {
			return &g.Supplies[i], u.Number
		}
	}
	return nil, exact.Number{}
}

func absorbs(s *ledger.Supply) bool {
	return s.Kind == ledger.Absorber && s.Capacity.Unit().Dimension() == exact.Volume
}

// anyAbsorber is the first absorber among the supplies, or nil.
func anyAbsorber(g *ledger.Ledger) *ledger.Supply {
	for i := range g.Supplies {
		if absorbs(&g.Supplies[i]) {
			return &g.Supplies[i]
		}
	}
	return nil
}

// extraCost says what absorbers cost that a pack has beyond need: their part of
// what its absorbers cost, all containers together.
func extraCost(g *ledger.Ledger, pack int, kind *ledger.Supply, used, extra exact.Number) string {
	cost, rest := exact.Money{}, used.Mul(exact.Int(int64(g.Records.Packs[pack].Count)))
	for _, t := range g.Takes[g.Packs[pack].Takes.From:g.Packs[pack].Takes.To] {
		if t.Lot != ledger.ListPrice && g.Lots[t.Lot].Item() == kind.ID {
			cost, rest = cost.Add(t.Cost), rest.Sub(t.Quantity)
		}
	}
	sum := cost.Ratio()
	if price, ok := kind.Price.Get(); ok { // what no lot covers
		sum = sum.Add(price.Number().Over(exact.Int(int64(kind.Uses))).Times(rest))
	}
	say := phrasingOf(&g.Settings)
	return ", which costs " + say.money(sum.Mul(extra.Over(used)))
}

// packedAgainstLoaded notes when a run's packs of a food are together over 10 %
// off what was loaded less what was lost.
func packedAgainstLoaded(g *ledger.Ledger, p *ledger.Pack) string {
	run, ok := g.FindRun(p.Run)
	food, known := g.FindFood(p.Item)
	if !ok || !known {
		return ""
	}
	for _, item := range g.Runs[run].Items {
		if item.Food != food || item.Short {
			continue // of one that is packed in part more is to come
		}
		want := item.Loaded.Sub(item.LostPart)
		off := item.Made.Sub(want)
		if offBy.Mul(want).Less(off.Abs()) {
			show := g.Settings.Show()
			amounts := show.Amounts(g.Foods[food].Basis, item.Made, want)
			return fmt.Sprintf("The packs of %s from run %s give %s together; %s was loaded less what was lost.", g.Foods[food].Title(), p.Run, amounts[0], amounts[1])
		}
	}
	return ""
}
