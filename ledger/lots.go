package ledger

import "putby/pricing/exact"

// A Lot is something bought, or made in the kitchen, in one go: so many uses
// at a cost. A line of food is a lot of litres, kilograms or pieces, a box of
// absorbers a lot of absorbers, a jar that serves 20 times a lot of 20 uses, a
// machine a lot of cycles.
type Lot struct {
	Row      int32        // position in Records.Receipts, or -1
	Batch    int32        // position in Records.Batches, or -1
	Date     exact.Date   // when it was bought or made
	Quantity exact.Number // as bought: L, kg, ea or uses; edible
	Cost     exact.Money  // as bought, with repairs of a machine
	Left     exact.Number // of Quantity, not below 0
	// CostLeft is what the rest of the lot carries. Under average costing food
	// carries its cost by the pool, not by the lot, and this stays 0.
	CostLeft exact.Money
	*lotRest
}

// A lotRest is what all lots have in common, and what few have. Those that have
// none of that share one.
type lotRest struct {
	from     *Records
	Residual exact.Money  // of a machine: stays in the lot for good
	Frozen   exact.Number // the part of Left that is in the freezer, of food
	FrozenOn exact.Date   // the last day on which some of it was frozen
	FrozenBy exact.Date   // the last day of food among it that was of another lot; NoDate: there is none
}

// UnitCost is what a unit cost as it was bought or made.
func (l *Lot) UnitCost() exact.Ratio { return l.Cost.Per(l.Quantity) }

// Item is the food, supply or machine that the lot is of.
func (l *Lot) Item() string {
	if l.Batch >= 0 {
		return l.from.Batches[l.Batch].Item
	}
	return l.from.Receipts.At(int(l.Row)).Item
}

// Receipt is the receipt or batch that the lot came with.
func (l *Lot) Receipt() string {
	if l.Batch >= 0 {
		return l.from.Batches[l.Batch].ID
	}
	return l.from.Receipts.At(int(l.Row)).Receipt
}

// Number is the receipt's line, if it has a number.
func (l *Lot) Number() string {
	if l.Batch >= 0 {
		return ""
	}
	return l.from.Receipts.At(int(l.Row)).Number
}

// A Take is an amount drawn from a lot.
type Take struct {
	Lot      int32        // position in Ledger.Lots; ListPrice when no lot covered it
	Quantity exact.Number // L, kg, ea, uses or cycles
	Cost     exact.Money  // carried by that part of the lot, or charged at list price
}

// ListPrice stands for a lot where uses of a supply that no receipt covers are
// charged at its list price.
const ListPrice = -1

// A Stock is all that is in hand of a food, a supply or a machine's cycles.
type Stock struct {
	lots   []int32      // oldest first
	oldest int          // the first of lots that may have any left: loads that name their lot empty later ones before it
	Left   exact.Number // L, kg, ea, uses or cycles
	Cost   exact.Money  // what it carries; of a machine with the residual
	pooled bool         // average costing
	frozen bool         // some of it went into the freezer, and may be there still
}

// lotsIn is how many lots the records make at the most.
func lotsIn(rec *Records) int {
	n := len(rec.Batches)
	for i := range rec.Receipts.rows {
		if rec.Receipts.rows[i].kind <= MachineLine {
			n++
		}
	}
	return n
}

// Lots returns the positions of the stock's lots, oldest first.
func (s *Stock) Lots() []int32 { return s.lots }

// put adds a lot to a stock.
func (g *joiner) put(s *Stock, lot Lot) {
	lot.Left, lot.CostLeft = lot.Quantity, lot.Cost
	s.Left, s.Cost = s.Left.Add(lot.Quantity), s.Cost.Add(lot.Cost)
	if s.pooled {
		lot.CostLeft = exact.Money{}
	}
	at := int32(len(g.Lots))
	if lot.Batch >= 0 {
		g.lotOfBatch[lot.Batch] = at
	} else {
		g.lotOfRow[lot.Row] = at
	}
	s.lots = append(s.lots, at)
	g.Lots = append(g.Lots, lot)
}

// noLot stands for the lot of a record that made none, or none yet.
const noLot = -1

// take draws up to q from a stock, oldest lot first, and returns what it took
// and what that cost. What is missing is q less what was taken.
func (g *joiner) take(s *Stock, q exact.Number) (taken exact.Number, cost exact.Money) {
	if s.pooled {
		return g.takePooled(s, q)
	}
	for s.oldest < len(s.lots) {
		at := s.lots[s.oldest]
		part, money := g.takeFrom(s, at, q)
		if g.Lots[at].Left.Sign() == 0 {
			s.oldest++
		}
		if q.Equal(part) { // mostly one lot is enough
			return taken.Add(part), cost.Add(money)
		}
		q, taken, cost = q.Sub(part), taken.Add(part), cost.Add(money)
	}
	return taken, cost
}

// takeFrom draws up to q from one lot of a stock that has no pool.
func (g *joiner) takeFrom(s *Stock, at int32, q exact.Number) (taken exact.Number, cost exact.Money) {
	lot := &g.Lots[at]
	if taken = q.Min(lot.Left); taken.Sign() <= 0 {
		return exact.Number{}, exact.Money{}
	}
	cost = g.draw(lot, taken)
	s.Left, s.Cost = s.Left.Sub(taken), s.Cost.Sub(cost)
	g.note(at, taken, cost)
	return taken, cost
}

// note keeps what was drawn from a lot.
func (g *joiner) note(lot int32, q exact.Number, cost exact.Money) {
	if !g.options.Brief && !g.options.Bare {
		g.Takes = append(g.Takes, Take{lot, q, cost})
	}
}

// costOf is what part of what is left of a lot costs. Whoever takes the last
// takes all that is left of its cost, but a machine's residual. A machine that is
// worth more at its end than it cost does not wear.
func (lot *Lot) costOf(part exact.Number, places int) exact.Money {
	wears := lot.CostLeft
	if !lot.Residual.IsZero() {
		wears = exact.MoneyOf(wears.Sub(lot.Residual).Number().Max(exact.Number{}))
	}
	return wears.Share(part, lot.Left, places)
}

// draw takes part of what is left of a lot.
func (g *joiner) draw(lot *Lot, part exact.Number) exact.Money {
	cost := lot.costOf(part, g.places)
	lot.leaves(part, g.loading)
	lot.CostLeft = lot.CostLeft.Sub(cost)
	return cost
}

// takePooled draws at the pool's average cost; amounts leave oldest first, and
// the lots that gave them share the cost by amount. What the lots have left sums to
// what the stock has, so that its list does not end before the loop does.
func (g *joiner) takePooled(s *Stock, q exact.Number) (exact.Number, exact.Money) {
	taken := q.Min(s.Left)
	if taken.Sign() <= 0 {
		return exact.Number{}, exact.Money{}
	}
	cost := s.Cost.Share(taken, s.Left, g.places)
	s.Left, s.Cost = s.Left.Sub(taken), s.Cost.Sub(cost)
	rest, money := taken, cost
	for rest.Sign() > 0 {
		lot := &g.Lots[s.lots[s.oldest]]
		part := rest.Min(lot.Left)
		if part.Sign() > 0 {
			share := money.Share(part, rest, g.places)
			g.note(s.lots[s.oldest], part, share)
			lot.leaves(part, g.loading)
			rest, money = rest.Sub(part), money.Sub(share)
		}
		if lot.Left.Sign() == 0 {
			s.oldest++
		}
	}
	return taken, cost
}

// OldestLeft returns the oldest lot of a stock that has any left, or nil.
func (g *Ledger) OldestLeft(s *Stock) *Lot {
	for _, i := range s.lots[s.oldest:] {
		if g.Lots[i].Left.Sign() > 0 {
			return &g.Lots[i]
		}
	}
	return nil
}
