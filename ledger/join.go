package ledger

import (
	"cmp"
	"slices"
	"sync/atomic"

	"putby/energy"
	"putby/pricing"
	"putby/pricing/exact"
)

// A Ledger is the records joined: what every lot, run, pack and draw cost. It
// is complete up to and on the date AsOf. Nothing changes it after [Join], so
// that any number of readers may share it: what it holds, its slices and the
// records are to be read, and no other package writes into them (a test holds
// that).
type Ledger struct {
	*Records
	// AsOf is the last day of events that count, today as far as the ledger
	// knows: the date asked for, or that of the last record.
	AsOf exact.Date
	// Spends is what each row of Records.Receipts cost in all, or the deposit
	// that it paid, at minor digits; nothing for receipt-wide rows and totals.
	Spends []exact.Money
	Lots   []Lot
	Takes  []Take      // all that was drawn from lots; others hold ranges of it; none when brief or bare
	Batch  []BatchCost // parallel to Records.Batches
	Runs   []RunCost   // parallel to Records.Runs
	Packs  []PackCost  // parallel to Records.Packs
	Moves  []Move      // in the order in which they happened; none when bare
	Flows  Flows       // sums of all postings, by what they are

	foods    []Stock          // parallel to Records.Foods
	supplies []Stock          // parallel to Records.Supplies; in uses
	pieces   []pieceCount     // parallel to Records.Supplies
	machines []Stock          // parallel to Records.Machines
	shelves  []*pricing.Shelf // parallel to Records.Foods
	made     [][]int32        // batches of each food, by date; parallel to Records.Foods
	tariffs  map[string]*energy.Tariff
	ahead    *outlooks
	// spendNotes are those of few rows of Spends.
	spendNotes map[int32][]Note
	meter      *energy.Meter
	last       exact.Date // of the last record
	day        exact.Date // at which it stands: the last of shelf prices, of batches in their stead, and of runs that say what is usual
	places     int        // decimals of a posting: the currency's minor digits and four more
	find       *finders
}

// A joiner builds a ledger.
type joiner struct {
	*Ledger
	x       *index // for the joining alone: the ledger keeps what finds
	options Options
	scratch scratch
	loading bool     // food is going into the machine
	noRest  *lotRest // of all lots that have nothing of their own in it

	lotOfRow   []int32 // parallel to Records.Receipts
	lotOfBatch []int32 // parallel to Records.Batches
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
	// PricesThrough is the day at which a report stands that counts whole runs:
	// their later packs count, but neither later shelf prices nor what later runs
	// say is usual. NoDate is the ledger's own date.
	PricesThrough exact.Date
	// Itemize keeps how each phase was billed, piece by piece.
	Itemize bool
	// Brief leaves Ledger.Takes empty, for reports that need not say which lots
	// were drawn on: it is the largest part of a ledger.
	Brief bool
	// Bare is Brief, and keeps neither Ledger.Moves nor RunCost.Loads, nor what
	// packs and draws cost beside the packs' own supplies: for a caller that asks only what
	// the food of runs cost, or whether the records have faults.
	Bare bool
}

// A Range is a part of Ledger.Takes.
type Range struct{ From, To int32 } // positions, To not in it; equal ones: nothing was drawn

// Join holds records against each other and works out every cost. All faults
// of the records are returned, sorted; when there are any, the ledger must not
// be reported on.
func Join(rec *Records, o Options) (*Ledger, Faults) {
	joins.Add(1)
	g := begin(rec, o)
	power := g.startPower()
	var all *events
	Parallel(g.postReceipts, func() {
		g.buildShelves()
		g.gatherBatches()
		g.checkPacks()
		all = g.events()
	})
	if g.AsOf < g.last {
		// Faults count whatever their date, so all is joined first.
		if whole, faults := Join(rec, Options{Read: o.Read, Bare: true}); faults != nil {
			power.finish()
			return whole, faults
		}
	}
	g.follow(all, power)
	power.finish()
	// Last: what they say of one run rests on all others.
	g.noteUnusual(power.unusual)
	g.judgePacked()
	return g.Ledger, g.faults()
}

// joins counts what is the most work of a command.
var joins atomic.Int64

// Joins is how often [Join] was called, for tests that hold commands to it.
func Joins() int { return int(joins.Load()) }

// faults returns the faults of reading and of joining, sorted, or nil.
func (g *joiner) faults() Faults {
	found := g.x.summary()
	if len(g.options.Read)+len(found) == 0 {
		return nil
	}
	all := append(slices.Clone(g.options.Read), found...)
	all.Sort()
	return all
}

func begin(rec *Records, o Options) *joiner {
	x := newIndex(rec, o.Read)
	g := &joiner{
		x: x,
		Ledger: &Ledger{
			Records: rec, find: x.finders, places: rec.Settings.Places(),
			Batch: make([]BatchCost, len(rec.Batches)),
			Runs:  make([]RunCost, len(rec.Runs)),
			Packs: make([]PackCost, rec.Packs.Len()),
			Lots:  make([]Lot, 0, lotsIn(rec)),
			foods: make([]Stock, len(rec.Foods)), supplies: make([]Stock, len(rec.Supplies)), pieces: make([]pieceCount, len(rec.Supplies)),
			machines: make([]Stock, len(rec.Machines)),
			meter:    energy.NewMeter(rec.Settings.Household),
			ahead:    newOutlooks(),
		},
		options: o, scratch: newScratch(rec, o.Bare),
		noRest:   &lotRest{from: rec},
		lotOfRow: none(rec.Receipts.Len()), lotOfBatch: none(len(rec.Batches)),
	}
	// The date of every run stands before any is worked out: startPower sees by it which have begun.
	for i := range g.Runs {
		g.Runs[i].Date, g.Runs[i].Billed = exact.DateIn(rec.Runs[i].Start), &notItemized
	}
	g.sharePacks()
	g.last = LastDate(rec)
	g.AsOf = cmp.Or(o.Through, g.last)
	g.day = cmp.Or(o.PricesThrough, g.AsOf)
	if !o.Bare {
		g.Moves = make([]Move, 0, rec.Draws.Len()+len(rec.Counts))
	}
	// About two lots a load, three supplies a pack, wear and oil a run, a lot a draw: to grow
	// the largest list of a ledger is to copy it.
	if !o.Brief && !o.Bare {
		g.Takes = make([]Take, 0, rec.Loads.Len()*2+rec.Packs.Len()*3+len(rec.Runs)*2+rec.Draws.Len())
	}
	for i := range g.foods {
		g.foods[i].pooled = rec.Settings.Costing == Average
	}
	return g
}

// sharePacks gives the packs room for their parts of the costs of runs.
func (g *joiner) sharePacks() {
	if g.options.Bare {
		return
	}
	shares := make([]Costs, len(g.Packs))
	for i := range g.Packs {
		g.Packs[i].Share = &shares[i]
	}
}

// none returns -1, which stands for no lot and for no run, n times.
func none(n int) []int32 {
	list := make([]int32, n)
	for i := range list {
		list[i] = noLot
	}
	return list
}

// follow goes through the events in order of time. A run waits for its
// electricity, which is worked out beside: it hangs on no lot, and a tariff's blocks
// count runs by start, as they come here.
func (g *joiner) follow(all *events, power *power) {
	all.each(g.AsOf, [classCount]func(int32){
		receiptClass: g.buy,
		batchClass:   g.cook,
		runClass: func(i int32) {
			power.await(i)
			g.dry(i)
		},
		packClass:   g.pack,
		drawClass:   g.drawOut,
		frozenClass: g.freeze,
		countClass:  g.takeStock,
	})
}
