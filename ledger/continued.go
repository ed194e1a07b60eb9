package ledger

import (
	"maps"
	"reflect"
	"slices"

	"putby/pricing/exact"
)

// Continued returns the ledger of records that go on from its own: what [Join] would
// make of them, without following all events again. They may have more receipts of food,
// draws and frozen food, which nothing that was there before comes after in a way that
// would change what it cost, and other prices that shops ask, since nothing that was paid
// hangs on those. It is told of a ledger that stands at its last record. It reports false
// where they differ in more, or anything is wrong with them.
func (g *Ledger) Continued(rec *Records) (*Ledger, bool) {
	if g.AsOf != g.last || g.day != g.last || LastDate(rec) < g.last || !rec.goesOn(g.Records) {
		return nil, false
	}
	c := continuation{before: g, rec: rec}
	if c.joiner = c.begin(); !c.drawnLast() || !c.boughtLast() {
		return nil, false
	}
	if !sameRows(rec.Shelf, g.Shelf) {
		c.buildShelves()
	}
	var more events
	c.events(&more)
	more.each(c.last, [classCount]func(int32){receiptClass: c.buy, drawClass: c.drawOut, frozenClass: c.freeze})
	if len(c.x.summary()) > 0 {
		return nil, false
	}
	return c.Ledger, true
}

// goesOn reports whether records have all that others have, and nothing else but prices,
// and what is behind it in lists of events that can be gone on with.
func (rec *Records) goesOn(others *Records) bool {
	mine, their := rec.Settings, others.Settings
	mine.Wording, their.Wording = nil, nil // in which nothing is worked out
	if rec.Excerpt != nil || others.Excerpt != nil || !reflect.DeepEqual(mine, their) {
		return false
	}
	for _, k := range kinds() {
		mine, their := k.list(rec), k.list(others)
		switch k.File {
		case ShelfFile:
		case ReceiptsFile, DrawsFile, FrozenFile:
			if !mine.is(their) && !mine.goesOn(their) {
				return false
			}
		default:
			if !mine.is(their) && (mine.Len() != their.Len() || !mine.goesOn(their)) {
				return false
			}
		}
	}
	return maps.Equal(rec.Meters, others.Meters) && maps.Equal(rec.Rates, others.Rates)
}

// sameRows reports whether two lists are one.
func sameRows[T any](a, b []T) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}

// A continuation joins what records have beyond those of a ledger.
type continuation struct {
	*joiner
	before *Ledger
	rec    *Records
}

// begin is the ledger before, as it is gone on with: what events change is a copy.
func (c *continuation) begin() *joiner {
	next, rec, x := *c.before, c.rec, c.index()
	next.Records, next.find, next.ahead = rec, x.finders, newOutlooks()
	next.last = LastDate(rec)
	next.AsOf, next.day = next.last, next.last
	g := &joiner{Ledger: &next, x: x, scratch: scratch{notes: map[Note][]Note{}}, noRest: &lotRest{from: rec}, lotOfRow: none(rec.Receipts.Len()), lotOfBatch: none(len(rec.Batches))}
	// Clone what events change in place, Clip what they only add to: the ledger before is still
	// read by others, and shares the rest.
	next.Lots, next.Packs, next.pieces = slices.Clone(next.Lots), slices.Clone(next.Packs), slices.Clone(next.pieces)
	next.Takes, next.Moves = slices.Clip(next.Takes), slices.Clip(next.Moves)
	next.foods, next.supplies = goneOnWith(next.foods), goneOnWith(next.supplies)
	// Lots know the records that they are of: those before are let go.
	common := map[*lotRest]*lotRest{}
	for i := range next.Lots {
		lot := &next.Lots[i]
		if lot.lotRest.from == rec {
			continue
		}
		if common[lot.lotRest] == nil {
			rest := *lot.lotRest
			rest.from = rec
			common[lot.lotRest] = &rest
		}
		lot.lotRest = common[lot.lotRest]
	}
	if n := rec.Receipts.Len(); n > len(next.Spends) {
		next.Spends = append(slices.Clip(next.Spends), make([]exact.Money, n-len(next.Spends))...)
	}
	return g
}

// goneOnWith are stocks whose lists of lots can be added to.
func goneOnWith(stocks []Stock) []Stock {
	stocks = slices.Clone(stocks)
	for i := range stocks {
		stocks[i].lots = slices.Clip(stocks[i].lots)
	}
	return stocks
}

// index finds the records by what finds those before.
func (c *continuation) index() *index {
	rec, find := c.rec, *c.before.find
	x := &index{finders: &find, rec: rec, unread: newUnread(nil, nil), told: map[string]int{}}
	x.packDrawn = slices.Clip(x.packDrawn)
	for i := len(x.packDrawn); i < rec.Draws.Len(); i++ {
		at, ok := x.packs.find(rec.Draws.store.text(rec.Draws.rows[i].of))
		if !ok {
			at = -1
		}
		x.packDrawn = append(x.packDrawn, at)
	}
	if rec.Receipts.Len() > c.before.Receipts.Len() {
		x.indexReceipts()
	}
	return x
}

// drawnLast reports whether no event before comes after a draw that came, or food that
// went into the freezer: of their day there may be receipts, runs, packs and draws, and
// what was frozen of other food.
func (c *continuation) drawnLast() bool {
	rec, was := c.rec, c.before.Records
	first := exact.LastDate
	for i := was.Draws.Len(); i < rec.Draws.Len(); i++ {
		first = min(first, rec.Draws.rows[i].date)
	}
	for i := len(was.Freezes); i < len(rec.Freezes); i++ {
		first = min(first, rec.Freezes[i].Date)
	}
	if first == exact.LastDate {
		return true
	}
	after := false
	each := func(d exact.Date) { after = after || d > first }
	was.EachDate(each)
	// A count is of the end of its day: one of that very day would have found less.
	for i := range was.Counts {
		after = after || was.Counts[i].Date >= first
	}
	for i := range was.Freezes {
		after = after || was.Freezes[i].Date >= first && c.draws(was.Freezes[i].Item)
	}
	return !after
}

// draws reports whether any of an item's fresh food was drawn since.
func (c *continuation) draws(item string) bool {
	added := c.rec.Draws.From(c.before.Draws.Len())
	return added.Index(func(d *Draw) bool { return d.Item == item }) >= 0
}

// boughtLast posts the receipts that came, and reports whether they are of food alone,
// each whole, and their lots the last: whatever was drawn since of the same food came
// from older ones, or it would have been short.
func (c *continuation) boughtLast() bool {
	rec, had := c.rec, c.before.Receipts.Len()
	first := exact.LastDate
	for i := had; i < rec.Receipts.Len(); i++ {
		r := &rec.Receipts.rows[i]
		if r.kind == SupplyLine || r.kind == MachineLine || r.kind == ServiceLine {
			return false
		}
		if first = min(first, r.date); c.thawsLess(rec.Receipts.At(i)) {
			return false
		}
	}
	if first == exact.LastDate {
		return true
	}
	if rec.Settings.Costing == Average { // a lot changes what a pool's later draws cost
		return false
	}
	if slices.ContainsFunc(c.before.Lots, func(l Lot) bool { return l.Date > first || l.Date == first && l.Batch >= 0 }) ||
		slices.ContainsFunc(rec.Counts, func(r Count) bool { return r.Date >= first }) {
		return false
	}
	p := &posting{g: c.joiner}
	for i := range c.x.receipts.len() {
		rows := c.x.linesOf.of(i)
		switch {
		case int(rows[len(rows)-1]) < had:
		case int(rows[0]) < had: // more of a receipt that was there
			return false
		default:
			p.receipt(rows)
		}
	}
	return true
}

// thawsLess reports whether food was bought that the kitchen, which took of it since,
// would have taken before any that is frozen.
func (c *continuation) thawsLess(r ReceiptRow) bool {
	f, ok := c.x.foods.find(r.Item)
	if !ok || !c.foods[f].frozen {
		return false
	}
	return c.before.Records.Draws.Index(func(d *Draw) bool { return d.Item == r.Item && d.Date >= r.Date }) >= 0
}

// events are those of the records that came.
func (c *continuation) events(e *events) {
	rec, was := c.rec, c.before.Records
	bought := slices.DeleteFunc(from(was.Receipts.Len(), rec.Receipts.Len()), func(i int32) bool { return rec.Receipts.rows[i].kind != FoodLine })
	e.add(receiptClass, bought, func(i int32) exact.Date { return rec.Receipts.rows[i].date })
	e.add(drawClass, from(was.Draws.Len(), rec.Draws.Len()), func(i int32) exact.Date { return rec.Draws.rows[i].date })
	e.add(frozenClass, from(len(was.Freezes), len(rec.Freezes)), func(i int32) exact.Date { return rec.Freezes[i].Date })
}

// from are the positions between two.
func from(first, end int) []int32 {
	list := positions(end)
	return list[first:]
}
