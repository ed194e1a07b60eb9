package ledger

import (
	"slices"

	"putby/energy"
	"putby/pricing"
	"putby/pricing/exact"
)

// A Ledger is the records joined: what every lot, run, pack and draw cost. It
// is complete up to and on the date AsOf and is not changed after [Join].
type Ledger struct {
	*Records
	// AsOf is the last day of events that count, today as far as the ledger
	// knows: the date asked for, or that of the last record.
	AsOf   exact.Date
	Spends []Spend // what each row of Records.Receipts cost
	Lots   []Lot
	Takes  []Take      // all that was drawn from lots; others hold ranges of it
	Batch  []BatchCost // parallel to Records.Batches
	Runs   []RunCost   // parallel to Records.Runs
	Packs  []PackCost  // parallel to Records.Packs
	Moves  []Move      // in the order in which they happened
	Flows  Flows       // sums of all postings, by what they are

	lotOfRow   []int32 // parallel to Records.Receipts
	lotOfBatch []int32 // parallel to Records.Batches

	foods    []Stock          // parallel to Records.Foods
	supplies []Stock          // parallel to Records.Supplies
	machines []Stock          // parallel to Records.Machines
	shelves  []*pricing.Shelf // parallel to Records.Foods
	made     [][]int32        // batches of each food, by date; parallel to Records.Foods
	tariffs  map[string]*energy.Tariff
	meter    *energy.Meter
	options  Options
	prices   exact.Date // the last day of shelf prices, and of batches in their stead
	places   int
	x        *index
}

// Options say how to join.
type Options struct {
	// Read are the faults of reading the records. [Join] returns them with its
	// own, and leaves out of those what may only follow from them.
	Read Faults
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
	g.postReceipts()
	g.buildShelves()
	g.gatherBatches()
	g.buildTariffs()
	g.checkOverlaps()
	g.checkPacks()
	if g.AsOf < LastDate(rec) {
		// Faults count whatever their date, so all is joined first.
		if all, faults := Join(rec, Options{Read: o.Read, Through: exact.NoDate, PricesThrough: exact.NoDate}); faults != nil {
			return all, faults
		}
	}
	g.follow()
	return g, g.faults()
}

// faults returns the faults of reading and of joining, sorted, or nil.
func (g *Ledger) faults() Faults {
	if len(g.options.Read)+len(g.x.faults) == 0 {
		return nil
	}
	all := append(slices.Clone(g.options.Read), g.x.faults...)
	all.Sort()
	return all
}

func begin(rec *Records, o Options) *Ledger {
	g := &Ledger{
		Records: rec, options: o, x: newIndex(rec, o.Read), places: rec.Settings.Places(),
		Batch:    make([]BatchCost, len(rec.Batches)),
		Runs:     make([]RunCost, len(rec.Runs)),
		Packs:    make([]PackCost, len(rec.Packs)),
		Takes:    make([]Take, 0, len(rec.Loads)*2+len(rec.Packs)*3+len(rec.Runs)*2+len(rec.Draws)),
		Lots:     make([]Lot, 0, len(rec.Receipts)+len(rec.Batches)),
		Moves:    make([]Move, 0, len(rec.Draws)+len(rec.Counts)),
		lotOfRow: none(len(rec.Receipts)), lotOfBatch: none(len(rec.Batches)),
		foods: make([]Stock, len(rec.Foods)), supplies: make([]Stock, len(rec.Supplies)),
		machines: make([]Stock, len(rec.Machines)),
		meter:    energy.NewMeter(rec.Settings.Household),
	}
	if g.AsOf = o.Through; g.AsOf == exact.NoDate {
		g.AsOf = LastDate(rec)
	}
	if g.prices = o.PricesThrough; g.prices == exact.NoDate {
		g.prices = g.AsOf
	}
	for i := range g.foods {
		g.foods[i].pooled = rec.Settings.Costing == Average
	}
	return g
}

// none returns no lot, n times.
func none(n int) []int32 {
	list := make([]int32, n)
	for i := range list {
		list[i] = noLot
	}
	return list
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
	at := place{ReceiptsFile, r.Line}
	lot := Lot{Item: r.Item, Date: r.Date, Receipt: r.Receipt, Number: r.Number, Row: int(i), Batch: -1, Cost: g.Spends[i].Cost}
	switch r.Kind {
	case FoodLine:
		f, ok := g.x.food(at, "item", r.Item)
		if !ok {
			return
		}
		if lot.Quantity, ok = g.edible(&g.Foods[f], r); !ok {
			g.x.doubts.noLot(r.Item)
			return
		}
		g.put(&g.foods[f], lot)
	case SupplyLine:
		s, ok := g.x.supplies[r.Item]
		if !ok {
			g.x.unknown(at, "item", "supply", r.Item, SuppliesFile)
			return
		}
		lot.Quantity = r.pieces().Mul(exact.Int(int64(g.Supplies[s].Uses)))
		g.put(&g.supplies[s], lot)
	case MachineLine:
		m, ok := g.x.machines[r.Item]
		if !ok {
			g.x.unknown(at, "item", "machine", r.Item, MachinesFile)
			return
		}
		lot.Quantity = exact.Int(int64(g.Machines[m].Cycles))
		lot.Residual = g.post(g.Machines[m].Residual)
		g.put(&g.machines[m], lot)
	case ServiceLine:
		g.repair(i, r)
		return
	}
	g.Flows.Bought = g.Flows.Bought.Add(lot.Cost)
}

// pieces is how many a line of a supply bought: a blank size is one.
func (r *ReceiptRow) pieces() exact.Number {
	if r.Size.Sign() == 0 {
		return r.Count
	}
	return r.Count.Mul(r.Size.Base().Number())
}

// edible returns what a line of food gives once refuse is thrown away: its
// size in the food's unit, rounded at 12 decimals, then times count and edible
// part (design, finer print 5). Pieces have no refuse.
func (g *Ledger) edible(f *Food, r *ReceiptRow) (exact.Number, bool) {
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
	at := place{BatchesFile, b.Line}
	cost := &g.Batch[i]
	cost.Takes.From = int32(len(g.Takes))
	for _, part := range b.From {
		if f, ok := g.x.food(at, "from", part.Item); ok {
			g.cookPart(b, cost, f, part.Quantity)
		}
	}
	cost.Takes.To = int32(len(g.Takes))
	cost.Own = g.post(b.Cost)
	g.Flows.BatchCost = g.Flows.BatchCost.Add(cost.Own)
	f, ok := g.x.food(at, "item", b.Item)
	if !ok {
		return
	}
	if cost.Made, ok = g.x.amount(&g.Foods[f], b.Quantity, at, "quantity"); !ok {
		g.x.doubts.noLot(b.Item)
		return
	}
	g.put(&g.foods[f], Lot{
		Item: b.Item, Date: b.Date, Receipt: b.ID, Row: -1, Batch: int(i), Quantity: cost.Made, Cost: cost.Food.Add(cost.Own),
	})
}

// cookPart draws one food of a batch.
func (g *Ledger) cookPart(b *Batch, cost *BatchCost, food int32, amount exact.Quantity) {
	at, f := place{BatchesFile, b.Line}, &g.Foods[food]
	q, ok := g.x.amount(f, amount, at, "from")
	if !ok {
		return
	}
	taken, money := g.take(&g.foods[food], q)
	g.short(f, q, taken, at, "from", "batch "+b.ID, b.Date)
	cost.Parts, cost.Food = append(cost.Parts, q), cost.Food.Add(money)
}

// short notes that lots do not cover what a record takes.
func (g *Ledger) short(f *Food, want, taken exact.Number, at place, field, who string, day exact.Date) {
	if !taken.Less(want) || g.x.doubts.lots(f.ID) {
		return
	}
	g.x.fail(at, field, "is a receipt missing, or dated too late? garden produce and gifts are receipts at price 0",
		"%s takes %v of %s on %v, but only %v is in hand: %v missing",
		who, f.Basis.Of(want), f.ID, day, f.Basis.Of(taken), f.Basis.Of(want.Sub(taken)))
}
