package figures

import (
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

// An AbsorberNeed is how many absorbers a container of a pack needs, and has.
type AbsorberNeed struct {
	Container *ledger.Supply
	Dry       exact.Quantity // in it; not given: not known
	Shared    bool           // by the run's weights
	Gas       exact.Ratio    // litres of it
	Oxygen    exact.Ratio    // litres of that
	Kind      *ledger.Supply // those used, else the first that there are; nil: none has a capacity
	Need      exact.Number   // of Kind
	Used      exact.Number   // of Kind, in one container
	Stays     exact.Ratio    // litres of oxygen, where too few are used
	Extra     exact.Ratio    // what those beyond need cost, in all containers together
}

// ContainersOf are the supplies of a pack that hold food and have a capacity.
func ContainersOf(g *ledger.Ledger, p *ledger.Pack) (list []*ledger.Supply) {
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

// AbsorbersFor works out what a container of a pack needs, by the gas that it has
// room for.
func AbsorbersFor(g *ledger.Ledger, pack int, container *ledger.Supply) AbsorberNeed {
	n := AbsorberNeed{Container: container}
	n.Dry, n.Shared = DryIn(g, pack)
	n.Gas = gasIn(container.Capacity.Base().Number(), n.Dry.Base().Number())
	n.Oxygen = n.Gas.Times(oxygenPart)
	p := g.Records.Packs.At(pack)
	if n.Kind, n.Used = absorbersOf(g, &p); n.Kind == nil {
		if n.Kind = anyAbsorber(g); n.Kind == nil {
			return n
		}
	}
	each := n.Kind.Capacity.Base().Number()
	n.Need = n.Oxygen.Quo(exact.RatioOf(each)).Ceil()
	switch off := n.Off(); {
	case n.Used.IsZero():
	case off.Sign() < 0:
		n.Stays = n.Oxygen.Sub(exact.RatioOf(n.Used.Mul(each)))
	case off.Sign() > 0:
		n.Extra = costOf(g, pack, n.Kind, n.Used).Mul(off.Over(n.Used))
	}
	return n
}

// Off is how many more are used than needed; below 0: so many are missing.
func (n *AbsorberNeed) Off() exact.Number { return n.Used.Sub(n.Need) }

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

// AbsorbersIn is how many absorbers are in each container of a pack, of
// whatever kind, and whether there are any.
func AbsorbersIn(g *ledger.Ledger, p *ledger.Pack) (n exact.Number, any bool) {
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

// costOf is what the absorbers of a pack cost, all containers together.
func costOf(g *ledger.Ledger, pack int, kind *ledger.Supply, used exact.Number) exact.Ratio {
	cost, rest := exact.Money{}, used.Mul(exact.Int(int64(g.Records.Packs.At(pack).Count)))
	for _, t := range g.Takes[g.Packs[pack].Takes.From:g.Packs[pack].Takes.To] {
		if t.Lot != ledger.ListPrice && g.Lots[t.Lot].Item() == kind.ID {
			cost, rest = cost.Add(t.Cost), rest.Sub(t.Quantity)
		}
	}
	sum := cost.Ratio()
	if price, ok := kind.Price.Get(); ok { // what no lot covers
		sum = sum.Add(kind.AUse(price).Times(rest))
	}
	return sum
}

// PackedOff reports whether a run's packs of a food are together over 10 % off
// what was loaded less what was lost, and how much both are. Of food that is packed
// in part more is to come.
func PackedOff(g *ledger.Ledger, run, food int) (made, want exact.Number, off bool) {
	item := g.Runs[run].Item(food)
	if item == nil || item.Short {
		return made, want, false
	}
	made, want = item.Made, item.Loaded.Sub(item.LostPart)
	return made, want, offBy.Mul(want).Less(made.Sub(want).Abs())
}
