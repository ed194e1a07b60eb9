package ledger

import (
	"slices"

	"putby/pricing/exact"
)

// This file draws the food of a run on its lots. What else a run costs is in uses.go, and
// how its loads share that in share.go.

// loadUp draws the food of each load. The costs of all runs lie side by side in two
// lists of the scratch, each run's being a range of them, clipped: one allocation for
// thousands of runs. Loads of one food share an item.
func (g *joiner) loadUp(i int, run *Run, cost *RunCost) {
	// Meanwhile lots give what is frozen first: see [Lot.leaves].
	g.loading = true
	defer func() { g.loading = false }()
	room := &g.scratch
	firstLoad, firstItem := len(room.loads), len(room.items)
	for _, row := range g.x.loadsOf.of(i) {
		l := g.Records.Loads.At(int(row))
		at := place{LoadsFile, l.Line}
		f, ok := g.x.food(at, ItemColumn, l.Item)
		if !ok {
			continue
		}
		q, ok := g.x.amount(&g.Foods[f], l.Quantity, at, "quantity")
		if !ok {
			continue
		}
		room.loads = append(room.loads, LoadCost{Load: row, Quantity: q, Lost: &nothing})
		lc := &room.loads[len(room.loads)-1]
		lc.Item = room.item(i, int(f), firstItem)
		lc.LostPart = g.lostPart(&g.Foods[f], &l, q)
		lc.Takes.From = int32(len(g.Takes))
		lc.Costs[FoodCost] = g.takeLoad(int(f), &l, q, run, cost.Date)
		lc.Takes.To = int32(len(g.Takes))
		g.Flows.Food = g.Flows.Food.Add(lc.Costs[FoodCost])
		item := &room.items[firstItem+int(lc.Item)]
		item.Loaded, item.LostPart = item.Loaded.Add(q), item.LostPart.Add(lc.LostPart)
	}
	cost.Loads, cost.Items = slices.Clip(room.loads[firstLoad:]), slices.Clip(room.items[firstItem:])
}

// lostPart returns how much of the q loaded was spilled or thrown away.
func (g *joiner) lostPart(f *Food, l *Load, q exact.Number) exact.Number {
	if l.Lost.Sign() == 0 {
		return exact.Number{}
	}
	at := place{LoadsFile, l.Line}
	lost, ok := g.x.amount(f, l.Lost, at, "lost")
	if ok && q.Less(lost) {
		g.x.fail(at, "lost", "it is the part of the quantity that was spilled or thrown away", "lost: %s is more than the %s loaded", g.Settings.Show().Quantity(l.Lost), g.Settings.Show().Quantity(l.Quantity))
	}
	return lost.Min(q)
}

// takeLoad draws a load on its lots: those it names, or the oldest.
func (g *joiner) takeLoad(f int, l *Load, q exact.Number, run *Run, day exact.Date) exact.Money {
	food, stock, at := &g.Foods[f], &g.foods[f], place{LoadsFile, l.Line}
	if l.Receipt == "" {
		taken, money := g.take(stock, q)
		if !run.Start.IsZero() { // else nobody knows what it could draw on
			g.short(food, q, taken, at, "quantity", "run "+run.ID, day)
		}
		return money
	}
	if stock.pooled {
		g.x.fail(at, ReceiptColumn, "leave it blank, or set costing to fifo", "under average costing a load cannot name its lot")
		return exact.Money{}
	}
	taken, money := g.takeNamed(stock, l, q)
	if !taken.Less(q) {
		return money
	}
	name := l.Receipt
	if l.Number != "" {
		name += " line " + l.Number
	}
	if g.checkNamed(l, at, name) && !run.Start.IsZero() {
		g.short(food, q, taken, at, "quantity", "run "+run.ID+" from "+name, day)
	}
	return money
}

// takeNamed draws a load on the lots of the receipt or batch that it names.
func (g *joiner) takeNamed(s *Stock, l *Load, q exact.Number) (taken exact.Number, cost exact.Money) {
	if receipt, ok := g.x.receipts.findNear(g.scratch.receipt, l.Receipt); ok {
		g.scratch.receipt = receipt
		for _, row := range g.x.linesOf.of(int(receipt)) {
			if at := g.lotOfRow[row]; at != noLot && g.Records.sold(row, l) {
				part, money := g.takeFrom(s, at, q.Sub(taken))
				taken, cost = taken.Add(part), cost.Add(money)
			}
		}
		return taken, cost
	}
	if batch, ok := g.x.batches.find(l.Receipt); ok && l.namesBatch(&g.Batches[batch]) && g.lotOfBatch[batch] != noLot {
		return g.takeFrom(s, g.lotOfBatch[batch], q)
	}
	return taken, cost
}

// sold reports whether a load may draw on a line of the receipt that it names.
func (rec *Records) sold(row int32, l *Load) bool {
	r, room := &rec.Receipts.rows[row], rec.Receipts.store
	return r.kind == FoodLine && room.text(r.item) == l.Item && (l.Number == "" || room.text(r.number) == l.Number)
}

// namesBatch reports whether a load that names a batch may draw on it.
func (l *Load) namesBatch(b *Batch) bool { return b.Item == l.Item && l.Number == "" }

// checkNamed reports whether the receipt or batch that a load names has its
// food, and notes it where it has not.
func (g *joiner) checkNamed(l *Load, at place, name string) bool {
	receipt, bought := g.x.receipts.find(l.Receipt)
	batch, cooked := g.x.batches.find(l.Receipt)
	switch {
	case bought && slices.ContainsFunc(g.x.linesOf.of(int(receipt)), func(row int32) bool { return g.Records.sold(row, l) }),
		cooked && l.namesBatch(&g.Batches[batch]):
		return true
	case !bought && !cooked:
		g.x.unknown(at, ReceiptColumn, "receipt or batch", l.Receipt, ReceiptsFile)
	case !g.x.unread.about(ReceiptsFile, l.Receipt):
		g.x.fail(at, ReceiptColumn, "leave it blank to draw on the oldest", "receipt: %s has no %s", name, l.Item)
	}
	return false
}
