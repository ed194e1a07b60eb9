package ledger

import "putby/pricing/exact"

// This file turns lines of receipts into lots. What a line cost is known by then: see
// receipts.go, which apportions what is for the whole receipt.

// buy puts what a receipt line bought into its lot.
func (g *joiner) buy(i int32) {
	r := g.Receipts.At(int(i))
	at := place{ReceiptsFile, r.Line}
	lot := Lot{Row: i, Batch: -1, Date: r.Date, Cost: g.Spends[i], lotRest: g.noRest}
	switch r.Kind {
	case FoodLine:
		f, ok := g.x.food(at, ItemColumn, r.Item)
		if !ok {
			return
		}
		if lot.Quantity, ok = g.edible(&g.Foods[f], &r); !ok {
			g.x.unread.noLot(r.Item)
			return
		}
		g.put(&g.foods[f], lot)
	case SupplyLine:
		s, ok := g.x.supplies.find(r.Item)
		if !ok {
			g.x.unknown(at, ItemColumn, "supply", r.Item, SuppliesFile)
			return
		}
		if r.Count.Sign() < 0 {
			g.takeBack(i, int(s))
			return
		}
		lot.Quantity = g.Supplies[s].uses(r.Pieces())
		g.put(&g.supplies[s], lot)
		g.pieces[s].owned = g.pieces[s].owned.Add(r.Pieces())
	case MachineLine:
		m, ok := g.x.machines.find(r.Item)
		if !ok {
			g.x.unknown(at, ItemColumn, "machine", r.Item, MachinesFile)
			return
		}
		lot.Quantity = exact.Int(int64(g.Machines[m].Cycles))
		// Posted: what wears off until the end is the difference of two amounts at ledger places.
		lot.lotRest = &lotRest{from: g.Records, Residual: g.post(g.Machines[m].Residual)}
		g.put(&g.machines[m], lot)
	case ServiceLine:
		// It counts as bought only where a lot took it, which repair sees to itself.
		g.repair(i, &r)
		return
	}
	g.Flows.Bought = g.Flows.Bought.Add(lot.Cost)
}

// Pieces is how many a line of a supply bought: a blank size is one.
func (r *ReceiptRow) Pieces() exact.Number {
	if r.Size.Sign() == 0 {
		return r.Count
	}
	return r.Count.Mul(r.Size.Base().Number())
}

// edible returns what a line of food gives once refuse is thrown away: its
// size in the food's unit, rounded at 12 decimals, then times count and edible
// part. Pieces have no refuse.
func (g *joiner) edible(f *Food, r *ReceiptRow) (exact.Number, bool) {
	size, ok := g.x.amount(f, r.Size, place{ReceiptsFile, r.Line}, "size")
	if !ok {
		return size, false
	}
	q := size.Round(exact.QuantityPlaces, exact.HalfEven).Mul(r.Count)
	return q.Mul(f.EdiblePart()), true
}

// EdiblePart is what is left of one unit bought: 1 less refuse.
func (f *Food) EdiblePart() exact.Number {
	if f.Basis == exact.Ea {
		return exact.Int(1)
	}
	return exact.Int(100).Sub(f.Refuse).Mul(exact.New(1, 2))
}

// HasRefuse reports whether a part of what is bought of the food is thrown
// away.
func (f *Food) HasRefuse() bool { return f.EdiblePart().Less(exact.Int(1)) }

// repair adds the cost of a service to the newest lot of the machine it names,
// so that it reaches the litres that follow.
func (g *joiner) repair(i int32, r *ReceiptRow) {
	m, ok := g.x.machines.find(r.Item)
	if !ok {
		return // free text: spending only
	}
	s := &g.machines[m]
	if len(s.lots) == 0 || g.Lots[s.lots[len(s.lots)-1]].Left.Sign() == 0 {
		g.spendNotes[i] = []Note{{Kind: RepairOfNoCycle, At: int(m)}}
		return
	}
	lot, cost := &g.Lots[s.lots[len(s.lots)-1]], g.Spends[i]
	lot.Cost, lot.CostLeft, s.Cost = lot.Cost.Add(cost), lot.CostLeft.Add(cost), s.Cost.Add(cost)
	g.Flows.Bought = g.Flows.Bought.Add(cost)
}

// post rounds an amount to ledger places, half to even.
func (g *joiner) post(m exact.Money) exact.Money { return m.Round(g.places, exact.HalfEven) }
