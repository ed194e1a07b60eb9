package ledger

import "putby/pricing/exact"

// shareOut shares a run's electricity, supplies, wear and labour over its
// loads, each total split once in file order.
func (g *Ledger) shareOut(run *Run, cost *RunCost) {
	weights, by, ok := g.weights(cost)
	if !ok {
		if first := &g.Records.Loads[cost.Loads[0].Load]; !g.x.doubts.run(run.ID) {
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
	totals := [...]struct {
		e Element
		m exact.Money
	}{{ElectricityCost, cost.Electricity}, {SuppliesCost, cost.Supplies}, {WearCost, cost.Wear}, {LabourCost, cost.Labour}}
	for _, t := range totals {
		if len(weights) == 1 {
			cost.Loads[0].Costs[t.e] = t.m
			continue
		}
		parts, err := t.m.Split(weights, g.places)
		if err != nil { // cannot be: weights sum above 0, totals are posted
			g.x.fail(place{RunsFile, run.Line}, "run", "", "run %s: %v", run.ID, err)
			return
		}
		for i, part := range parts {
			cost.Loads[i].Costs[t.e] = part
		}
	}
	for i, w := range weights {
		item := &cost.Items[cost.Loads[i].Item]
		item.Energy = item.Energy.Add(cost.Energy.Mul(w.Over(sum)))
	}
}

// weights finds what the loads share by: the way that the settings name, else
// the first of water removed, mass, trays and quantity that all loads have and
// that does not sum to zero.
func (g *Ledger) weights(cost *RunCost) ([]exact.Number, Share, bool) {
	ways := []Share{g.Settings.Share, ByWater, ByMass, ByTrays, ByQuantity}
	for i, by := range ways {
		if i > 0 && by == g.Settings.Share {
			continue
		}
		if weights, ok := g.weightsBy(by, cost); ok {
			return weights, by, true
		}
	}
	if len(cost.Loads) == 1 {
		return []exact.Number{exact.Int(1)}, ByQuantity, true
	}
	return nil, 0, false
}

func (g *Ledger) weightsBy(by Share, cost *RunCost) ([]exact.Number, bool) {
	weights := make([]exact.Number, len(cost.Loads))
	var sum exact.Number
	for i := range cost.Loads {
		w, ok := g.weight(by, cost, &cost.Loads[i])
		if !ok || w.Sign() < 0 {
			return nil, false
		}
		weights[i], sum = w, sum.Add(w)
	}
	return weights, sum.Sign() > 0
}

// weight returns what one load weighs in a way of sharing.
func (g *Ledger) weight(by Share, cost *RunCost, lc *LoadCost) (exact.Number, bool) {
	l := &g.Records.Loads[lc.Load]
	food := &g.Foods[cost.Items[lc.Item].Food]
	switch by {
	case ByWater:
		if !l.Wet.Given() || !l.Dry.Given() {
			return exact.Number{}, false
		}
		return l.Wet.Base().Number().Sub(l.Dry.Base().Number()), true
	case ByMass:
		if l.Wet.Given() {
			return l.Wet.Base().Number(), true
		}
		return food.Mass(lc.Quantity)
	case ByTrays:
		return l.Trays.Get()
	}
	return lc.Quantity, food.Basis == g.Foods[cost.Items[cost.Loads[0].Item].Food].Basis
}

// Mass returns the kg of q of the food's basis unit, through its density
// (rounded half to even at 12 decimals) or the weight of a piece, and false
// when the food has none.
func (f *Food) Mass(q exact.Number) (exact.Number, bool) {
	switch f.Basis {
	case exact.Kg:
		return q, true
	case exact.Ea:
		piece, ok := f.PieceKg.Get()
		return q.Mul(piece), ok
	}
	density, ok := f.Density.Get()
	return q.Mul(density).Round(exact.QuantityPlaces, exact.HalfEven), ok
}

// lose posts the lost part of each load: all of a spoiled run.
func (g *Ledger) lose(run *Run, cost *RunCost) {
	for i := range cost.Loads {
		lc := &cost.Loads[i]
		if run.Spoiled {
			lc.LostPart = lc.Quantity
			lc.Lost = lc.Costs
		} else if lc.LostPart.Sign() > 0 {
			for e, m := range lc.Costs {
				lc.Lost[e] = m.Share(lc.LostPart, lc.Quantity, g.places)
			}
		}
		item := &cost.Items[lc.Item]
		item.Good, item.Lost = item.Good.Add(lc.Costs.Sub(lc.Lost)), item.Lost.Add(lc.Lost)
		if run.Spoiled {
			item.LostPart = item.Loaded
		}
	}
	for _, item := range cost.Items {
		g.Flows.Lost = g.Flows.Lost.Add(item.Lost.Total())
	}
}
