package ledger

import (
	"putby/energy"
	"putby/pricing"
	"putby/pricing/exact"
)

// A Ledger is the records joined: what every lot, run, pack and draw cost. It
// is complete up to and on the date AsOf and is not changed after [Join].
type Ledger struct {
	*Records
	AsOf   exact.Date // the last day of events that count
	Spends []Spend    // what each row of Records.Receipts cost
	Lots   []Lot
	Takes  []Take      // all that was drawn from lots; others hold ranges of it
	Batch  []BatchCost // parallel to Records.Batches
	Runs   []RunCost   // parallel to Records.Runs
	Packs  []PackCost  // parallel to Records.Packs
	Moves  []Move      // in the order in which they happened
	Flows  Flows       // sums of all postings, by what they are

	foods    []Stock // parallel to Records.Foods
	supplies []Stock // parallel to Records.Supplies
	machines []Stock // parallel to Records.Machines
	shelves  []*pricing.Shelf
	tariffs  map[string]*energy.Tariff
	meter    *energy.Meter
	options  Options
	places   int
	x        *index
}

// Options say how to join.
type Options struct {
	// Through is the last date of events that count; NoDate is the date of the
	// last record. Packs of a run that has begun by then are counted when its
	// cost is split, whatever their date.
	Through exact.Date
	// PricesThrough is the last date of shelf prices that count; NoDate is
	// the ledger's own date. A report on whole runs as of a date needs it, since
	// their later packs count but later prices do not.
	PricesThrough exact.Date
	// Itemize keeps how each phase was billed, piece by piece.
	Itemize bool
}

// A Range is a part of Ledger.Takes.
type Range struct{ From, To int32 }

// Join holds records against each other and works out every cost. All faults
// of the records are returned, sorted; when there are any, the ledger must not
// be reported on.
func Join(rec *Records, o Options) (*Ledger, Faults) {
	g := begin(rec, o)
	whole := g.AsOf == LastDate(rec)
	g.postReceipts()
	g.buildShelves()
	g.buildTariffs()
	g.checkOverlaps()
	g.checkPacks()
	if !whole {
		// Faults count whatever their date, so all is joined first.
		if all, faults := Join(rec, Options{Through: exact.NoDate, PricesThrough: exact.NoDate}); faults != nil {
			return all, faults
		}
	}
	g.follow()
	g.x.faults.Sort()
	if len(g.x.faults) > 0 {
		return g, g.x.faults
	}
	return g, nil
}

func begin(rec *Records, o Options) *Ledger {
	g := &Ledger{
		Records: rec, options: o, x: newIndex(rec), places: rec.Settings.Places(),
		Batch: make([]BatchCost, len(rec.Batches)),
		Runs:  make([]RunCost, len(rec.Runs)),
		Packs: make([]PackCost, len(rec.Packs)),
		Takes: make([]Take, 0, len(rec.Loads)*2+len(rec.Packs)*3+len(rec.Draws)),
		foods: make([]Stock, len(rec.Foods)), supplies: make([]Stock, len(rec.Supplies)),
		machines: make([]Stock, len(rec.Machines)),
		meter:    energy.NewMeter(rec.Settings.Household),
	}
	if g.AsOf = LastDate(rec); o.Through != exact.NoDate {
		g.AsOf = min(g.AsOf, o.Through)
	}
	for i := range g.foods {
		g.foods[i].pooled = rec.Settings.Costing == Average
	}
	return g
}

// follow goes through the events in order of time.
func (g *Ledger) follow() {
	var rows []int32
	for i := range g.Receipts {
		if k := g.Receipts[i].Kind; k.Bought() && k != OtherLine {
			rows = append(rows, int32(i))
		}
	}
	newEvents(g.Records, rows).each(g.AsOf, [classCount]func(int32){
		receiptClass: g.buy,
		batchClass:   g.cook,
		runClass:     g.dry,
		packClass:    g.pack,
		drawClass:    g.drawOut,
		countClass:   g.takeStock,
	})
}

// buy puts what a receipt line bought into its lot.
func (g *Ledger) buy(i int32) {
	r := &g.Receipts[i]
	cost := g.Spends[i].Cost
	lot := Lot{Item: r.Item, Date: r.Date, Receipt: r.Receipt, Number: r.Number, Row: int(i), Batch: -1, Cost: cost}
	switch r.Kind {
	case FoodLine:
		if f, ok := g.x.food(ReceiptsFile, r.Line, "item", r.Item); ok {
			if lot.Quantity, ok = g.edible(&g.Foods[f], r); ok {
				g.put(&g.foods[f], lot)
				g.Flows.Bought = g.Flows.Bought.Add(cost)
			}
		}
	case SupplyLine:
		s, ok := g.x.supplies[r.Item]
		if !ok {
			g.x.unknown(ReceiptsFile, r.Line, "item", "supply", r.Item, SuppliesFile)
			return
		}
		pieces := exact.Int(1)
		if r.Size.Given() || r.Size.Sign() > 0 {
			pieces = r.Size.Base().Number()
		}
		lot.Quantity = r.Count.Mul(pieces).Mul(exact.Int(int64(g.Supplies[s].Uses)))
		g.put(&g.supplies[s], lot)
		g.Flows.Bought = g.Flows.Bought.Add(cost)
	case MachineLine:
		g.buyMachine(r, lot)
	case ServiceLine:
		g.repair(i, r)
	}
}

// edible returns what a line of food gives once refuse is thrown away: its
// size in the food's unit, rounded at 12 decimals, then times count and edible
// part (design, finer print 5). Pieces have no refuse.
func (g *Ledger) edible(f *Food, r *ReceiptRow) (exact.Number, bool) {
	size, ok := g.x.amount(f, r.Size, ReceiptsFile, r.Line, "size")
	if !ok {
		return size, false
	}
	q := size.Round(exact.QuantityPlaces, exact.HalfEven).Mul(r.Count)
	return q.Mul(f.ediblePart()), true
}

// ediblePart is what is left of one unit bought: 1 less refuse.
func (f *Food) ediblePart() exact.Number {
	if f.Basis == exact.Ea {
		return exact.Int(1)
	}
	return exact.Int(100).Sub(f.Refuse).Mul(exact.New(1, 2))
}

func (g *Ledger) buyMachine(r *ReceiptRow, lot Lot) {
	m, ok := g.x.machines[r.Item]
	if !ok {
		g.x.unknown(ReceiptsFile, r.Line, "item", "machine", r.Item, MachinesFile)
		return
	}
	machine := &g.Machines[m]
	lot.Quantity = exact.Int(int64(machine.Cycles))
	lot.Residual = g.post(machine.Residual)
	if lot.Residual.Cmp(lot.Cost) > 0 {
		lot.Residual = lot.Cost // it loses nothing, so there is nothing to wear
	}
	g.put(&g.machines[m], lot)
	g.Flows.Bought = g.Flows.Bought.Add(lot.Cost)
}

// repair adds the cost of a service to the newest lot of the machine it names,
// so that it reaches the litres that follow.
func (g *Ledger) repair(i int32, r *ReceiptRow) {
	m, ok := g.x.machines[r.Item]
	if !ok {
		return // free text: spending only
	}
	s := &g.machines[m]
	if len(s.lots) == 0 || g.Lots[s.lots[len(s.lots)-1]].Left.Sign() == 0 {
		g.Spends[i].Notes = []string{"the repair of " + r.Item + " is spending only: no cycle of it is left in the books"}
		return
	}
	lot, cost := &g.Lots[s.lots[len(s.lots)-1]], g.Spends[i].Cost
	lot.Cost, lot.CostLeft, s.Cost = lot.Cost.Add(cost), lot.CostLeft.Add(cost), s.Cost.Add(cost)
	g.Flows.Bought = g.Flows.Bought.Add(cost)
}

// post rounds an amount to ledger places, half to even.
func (g *Ledger) post(m exact.Money) exact.Money { return m.Round(g.places, exact.HalfEven) }

// A BatchCost is what the foods of a batch cost.
type BatchCost struct {
	Takes Range
	Parts []exact.Number // amounts in basis units, parallel to Batch.From
	Food  exact.Money    // of the foods it took
	Own   exact.Money    // its own cost
	Made  exact.Number   // in the basis unit of what it made
}

// cook draws a batch's foods and puts what it made into a new lot.
func (g *Ledger) cook(i int32) {
	b := &g.Batches[i]
	made, known := g.x.food(BatchesFile, b.Line, "item", b.Item)
	cost := &g.Batch[i]
	cost.Takes.From = int32(len(g.Takes))
	for _, part := range b.From {
		f, ok := g.x.food(BatchesFile, b.Line, "from", part.Item)
		if !ok {
			continue
		}
		q, ok := g.x.amount(&g.Foods[f], part.Quantity, BatchesFile, b.Line, "from")
		if !ok {
			continue
		}
		taken, money := g.take(&g.foods[f], q, nil)
		g.short(&g.Foods[f], q, taken, BatchesFile, b.Line, "from", "batch "+b.ID, b.Date)
		cost.Parts, cost.Food = append(cost.Parts, q), cost.Food.Add(money)
	}
	cost.Takes.To = int32(len(g.Takes))
	cost.Own = g.post(b.Cost)
	g.Flows.BatchCost = g.Flows.BatchCost.Add(cost.Own)
	if !known {
		return
	}
	if q, ok := g.x.amount(&g.Foods[made], b.Quantity, BatchesFile, b.Line, "quantity"); ok {
		cost.Made = q
		g.put(&g.foods[made], Lot{Item: b.Item, Date: b.Date, Receipt: b.ID, Row: -1, Batch: int(i), Quantity: q, Cost: cost.Food.Add(cost.Own)})
	}
}

// short notes that lots do not cover what a record takes.
func (g *Ledger) short(f *Food, want, taken exact.Number, file string, line int, field, who string, day exact.Date) {
	if !taken.Less(want) {
		return
	}
	g.x.failSum(file, line, field, "is a receipt missing, or dated too late? garden produce and gifts are receipts at price 0",
		"%s takes %v of %s on %v, but only %v is in hand: %v missing",
		who, f.Basis.Of(want), f.ID, day, f.Basis.Of(taken), f.Basis.Of(want.Sub(taken)))
}
