package ledger

import "putby/pricing/exact"

// This file parts what a run costs: over its loads, and of each load the lost from the good.
// Every split sums back to the digit, which [Ledger.Identities] proves.

// shareOut shares a run's electricity, supplies, wear and labour over its
// loads, each total split once in file order.
func (g *joiner) shareOut(run *Run, cost *RunCost) {
	weights, by, ok := g.weights(cost)
	if !ok {
		if first := g.Records.Loads.At(int(cost.Loads[0].Load)); !g.x.unread.run(run.ID) {
			g.x.fail(place{LoadsFile, first.Line}, "wet", "give wet and dry weights of all its loads, or their trays, or the foods' densities and piece weights",
				"run %s has several foods, and nothing says how they share its costs", run.ID)
		}
		return
	}
	cost.SharedBy = by
	var sum exact.Number
	for i, w := range weights {
		cost.Loads[i].Weight = w
		sum = sum.Add(w)
	}
	// Each total is split by itself: the elements of a load then add up, over loads, to
	// just what the run paid for each.
	g.shareElement(ElectricityCost, cost.Electricity, run, cost)
	g.shareElement(SuppliesCost, cost.Supplies, run, cost)
	g.shareElement(WearCost, cost.Wear, run, cost)
	g.shareElement(LabourCost, cost.Labour, run, cost)
	for i, w := range weights {
		item := &cost.Items[cost.Loads[i].Item]
		item.Energy = item.Energy.Add(cost.Energy.Mul(w.Over(sum)))
	}
}

// shareElement splits one total over a run's loads, by the weights at hand.
func (g *joiner) shareElement(e Element, m exact.Money, run *Run, cost *RunCost) {
	if len(cost.Loads) == 1 {
		cost.Loads[0].Costs[e] = m
		return
	}
	parts, err := m.AppendSplit(g.scratch.parts[:0], g.scratch.weights, g.places)
	if err != nil { // cannot be: weights sum above 0, totals are posted
		g.x.fail(place{RunsFile, run.Line}, RunColumn, "give wet and dry weights of all its loads, or their trays", "run %s: %v", run.ID, err)
		return
	}
	g.scratch.parts = parts
	for i, part := range parts {
		cost.Loads[i].Costs[e] = part
	}
}

// weights finds what the loads share by: the way that the settings name, else
// the first of water removed, mass, trays and quantity that all loads have and
// that does not sum to zero. One that was tried first is tried again, and fails again.
func (g *joiner) weights(cost *RunCost) ([]exact.Number, Share, bool) {
	for _, by := range [...]Share{g.Settings.Share, ByWater, ByMass, ByTrays, ByQuantity} {
		if g.weigh(by, cost) {
			return g.scratch.weights, by, true
		}
	}
	if len(cost.Loads) == 1 {
		g.scratch.weights = append(g.scratch.weights[:0], exact.Int(1))
		return g.scratch.weights, ByQuantity, true
	}
	return nil, 0, false
}

// weigh weighs the loads in one way of sharing, if every load has what that takes,
// none weighs less than nothing and they sum above 0.
func (g *joiner) weigh(by Share, cost *RunCost) bool {
	weights, sum := g.scratch.weights[:0], exact.Number{}
	for i := range cost.Loads {
		w, ok := g.weight(by, cost, &cost.Loads[i])
		if !ok || w.Sign() < 0 {
			return false
		}
		weights, sum = append(weights, w), sum.Add(w)
	}
	g.scratch.weights = weights
	return sum.Sign() > 0
}

// weight returns what one load weighs in a way of sharing: kg of water, kg, trays, or
// the amount where all loads are counted in one unit.
func (g *joiner) weight(by Share, cost *RunCost, lc *LoadCost) (exact.Number, bool) {
	list := &g.Records.Loads
	l, room := &list.rows[lc.Load], list.store
	food := &g.Foods[cost.Items[lc.Item].Food]
	switch by {
	case ByWater:
		wet, dry := room.amount(l.wet, l.wetForm), room.amount(l.dry, l.dryForm)
		if !wet.Given() || !dry.Given() {
			return exact.Number{}, false
		}
		return wet.Base().Number().Sub(dry.Base().Number()), true
	case ByMass:
		if wet := room.amount(l.wet, l.wetForm); wet.Given() {
			return wet.Base().Number(), true
		}
		return food.Mass(lc.Quantity)
	case ByTrays:
		return room.maybe(l.trays, l.traysForm).Get()
	}
	return lc.Quantity, food.Basis == g.Foods[cost.Items[cost.Loads[0].Item].Food].Basis
}

// Mass returns the kg of q of the food's basis unit, exactly, through its
// density or the weight of a piece, and false when the food has none. Who
// shows it as an amount rounds it, at 12 decimals as every quantity that is
// converted; who divides by it must not.
func (f *Food) Mass(q exact.Number) (exact.Number, bool) {
	switch f.Basis {
	case exact.Kg:
		return q, true
	case exact.Ea:
		piece, ok := f.PieceKg.Get()
		return q.Mul(piece), ok
	}
	density, ok := f.Density.Get()
	return q.Mul(density), ok
}

// lose posts the lost part of each load: all of a spoiled run.
func (g *joiner) lose(run *Run, cost *RunCost) {
	for i := range cost.Loads {
		lc := &cost.Loads[i]
		if run.Spoiled {
			lc.LostPart = lc.Quantity
			// A new one each: until here it is &nothing, which all loads share.
			lc.Lost = new(lc.Costs)
		} else if lc.LostPart.Sign() > 0 {
			lc.Lost = new(Costs)
			for e, m := range lc.Costs {
				lc.Lost[e] = m.Share(lc.LostPart, lc.Quantity, g.places)
			}
		}
		item := &cost.Items[lc.Item]
		item.Good = item.Good.Add(lc.Costs)
		if lc.Lost != &nothing {
			item.Good, item.Lost = item.Good.Sub(*lc.Lost), new(item.Lost.Add(*lc.Lost))
		}
		if run.Spoiled {
			item.LostPart = item.Loaded
		}
	}
	for i := range cost.Items {
		item := &cost.Items[i]
		g.Flows.Lost = g.Flows.Lost.Add(item.Lost.Total())
	}
}
