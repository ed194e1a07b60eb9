package ledger

import "putby/pricing/exact"

// This file counts supplies by the piece, as people do; lots count uses. A
// container that serves again keeps its uses until it goes: it is owned until
// it is drawn or missing, and comes back empty from a pack. Of anything else a
// piece is as many uses as a new one has.

// ServesAgain reports whether the supply is a container that comes back empty:
// a jar, a bag or a lid that serves more than once.
func (s *Supply) ServesAgain() bool {
	return s.Uses > 1 && (s.Kind == Jar || s.Kind == Bag || s.Kind == Lid)
}

// uses is how many uses so many new pieces have.
func (s *Supply) uses(pieces exact.Number) exact.Number { return pieces.Mul(exact.Int(int64(s.Uses))) }

// AUse is what one use costs of a piece that costs so much.
func (s *Supply) AUse(piece exact.Money) exact.Ratio { return piece.Per(exact.Int(int64(s.Uses))) }

// pieceCount is what the books have of a container that serves again.
type pieceCount struct {
	owned exact.Number // bought, less those drawn, missing or taken back
	full  exact.Number // on packs in store
}

// empty is how many stand empty by the books.
func (p *pieceCount) empty() exact.Number { return p.owned.Sub(p.full).Max(exact.Number{}) }

// Pieces are what there is of a supply, by the piece.
type Pieces struct {
	// Owned are those bought, less those drawn, missing or taken back; of what
	// does not serve again, what is left of them: 2.5 cans of oil.
	Owned exact.Ratio
	// InStore are those that stand full in store; of what does not serve again
	// always 0, since those are used up.
	InStore  exact.Number
	Free     exact.Ratio  // Owned less InStore, at least 0
	UsesLeft exact.Number // of all that are owned
}

// Pieces counts the supply at a position in Records.Supplies at the ledger's
// date.
func (g *Ledger) Pieces(supply int) Pieces {
	s, left := &g.Supplies[supply], g.supplies[supply].Left
	if !s.ServesAgain() {
		pieces := left.Over(exact.Int(int64(s.Uses)))
		return Pieces{Owned: pieces, Free: pieces, UsesLeft: left}
	}
	p := &g.pieces[supply]
	return Pieces{Owned: exact.RatioOf(p.owned), InStore: p.full, Free: exact.RatioOf(p.empty()), UsesLeft: left}
}

// fill puts the containers of a pack that serve again into store, or, where
// containers is below 0, has them back empty.
func (g *joiner) fill(with []Use, containers int) {
	for i, s := range g.suppliesOf(with) {
		if s >= 0 && g.Supplies[s].ServesAgain() {
			p := &g.pieces[s]
			p.full = p.full.Add(with[i].Number.Mul(exact.Int(int64(containers))))
		}
	}
}

// dropPieces takes k pieces of a supply out of its lots, oldest first, and
// returns what they still cost. Of n containers that serve again they take k/n
// of the uses left with them; beyond those owned they are charged as new ones.
func (g *joiner) dropPieces(s int, k exact.Number, at place) exact.Money {
	supply := &g.Supplies[s]
	if !supply.ServesAgain() {
		cost, _ := g.takeSupply(s, supply.uses(k), at, "quantity")
		return cost
	}
	p, stock := &g.pieces[s], &g.supplies[s]
	if k.Less(p.owned) {
		part := stock.Left.Mul(k).Over(p.owned).Round(exact.QuantityPlaces, exact.HalfEven)
		p.owned = p.owned.Sub(k)
		_, cost := g.take(stock, part)
		return cost
	}
	beyond := k.Sub(p.owned)
	p.owned = exact.Number{}
	_, cost := g.take(stock, stock.Left)
	if beyond.Sign() > 0 { // nothing is left to take, so all of it is charged
		more, _ := g.takeSupply(s, supply.uses(beyond), at, "quantity")
		cost = cost.Add(more)
	}
	return cost
}

// takeSupplyOut posts that k pieces left.
func (g *joiner) takeSupplyOut(m Move, s int, k exact.Number, at place) {
	m.Supply, m.Quantity, m.Takes.From = s, k, int32(len(g.Takes))
	m.Cost = g.dropPieces(s, k, at)
	m.Takes.To = int32(len(g.Takes))
	g.Flows.SupplyDraws = g.Flows.SupplyDraws.Add(m.Cost)
	g.move(m)
}

// piecesIn reads a number of pieces of a supply.
func (g *joiner) piecesIn(s int, q exact.Quantity, at place) (exact.Number, bool) {
	n, supply := q.Base().Number(), &g.Supplies[s]
	switch {
	case q.Given() && q.Unit().Dimension() != exact.Count:
		g.x.fail(at, QuantityColumn, "write how many, such as 2", "quantity: %v is no number of pieces of %s", q, supply.ID)
	case supply.ServesAgain() && !n.IsInt():
		g.x.fail(at, QuantityColumn, "write a whole number, such as 2", "quantity: %v is no whole number of %s", n, supply.ID)
	default:
		return n, true
	}
	return exact.Number{}, false
}

// countSupply holds the pieces in the books against a stocktake.
func (g *joiner) countSupply(m Move, s int, q exact.Quantity, at place) {
	found, ok := g.piecesIn(s, q, at)
	if !ok {
		return
	}
	supply := &g.Supplies[s]
	if !supply.ServesAgain() {
		g.countUses(m, s, found, at)
		return
	}
	p := &g.pieces[s]
	empty := p.empty()
	if empty.Less(found) {
		g.x.fail(at, QuantityColumn, "a record may be lacking or wrong: a receipt of it, or a draw of what stood full"+countedLast,
			"%v of %s are counted empty, but the books have %v: %v owned, less %v full in store", found, supply.ID, empty, p.owned, p.full)
		return
	}
	if missing := empty.Sub(found); missing.Sign() > 0 {
		g.takeSupplyOut(m, s, missing, at)
	}
}

// countUses is countSupply for what does not serve again.
func (g *joiner) countUses(m Move, s int, found exact.Number, at place) {
	supply, stock := &g.Supplies[s], &g.supplies[s]
	each := exact.Int(int64(supply.Uses))
	gap := stock.Left.Sub(found.Mul(each))
	if gap.Sign() < 0 {
		books := stock.Left.Over(each).Round(3, exact.HalfAway)
		g.x.fail(at, QuantityColumn, "a record may be lacking or wrong: a receipt of it"+countedLast,
			"%v of %s are counted, but the books have %v", found, supply.ID, books)
		return
	}
	if gap.Sign() == 0 {
		return
	}
	m.Supply, m.Takes.From = s, int32(len(g.Takes))
	m.Quantity = gap.Over(each).Round(exact.QuantityPlaces, exact.HalfEven)
	_, m.Cost = g.take(stock, gap)
	m.Takes.To = int32(len(g.Takes))
	g.Flows.SupplyDraws = g.Flows.SupplyDraws.Add(m.Cost)
	g.move(m)
}
