package figures

import (
	"cmp"
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// A Countable is something of which a stocktake says how much is there: a pack,
// fresh food or a supply.
type Countable struct {
	Pack, Food, Supply int        // positions; -1: it is none. A pack has its Food too
	Place              string     // where a pack stands
	BestBy             exact.Date // of a pack; NoDate: none is known
	// Books is how much there is by the books: containers, the food's basis unit,
	// or pieces. Of containers that serve again it is the empty ones.
	Books exact.Ratio
}

// A CountQuery says what is to be counted.
type CountQuery struct {
	Place           exact.Opt[string] // only the packs that stand there
	Supplies, Fresh bool              // besides the packs
}

// A Gap is what the books had beyond a stocktake, which writes it off.
type Gap struct{ *ledger.Move }

// GapOf is that of the stocktake at a position in Records.Counts; false where it
// agrees with the books.
func GapOf(g *ledger.Ledger, count int) (Gap, bool) {
	m, gone := lastMove(g, func(m *ledger.Move) bool { return m.Count == count })
	return Gap{m}, gone
}

// GapsOf are those of several stocktakes, and what they cost together.
func GapsOf(g *ledger.Ledger, counts []int) (list []Gap, cost exact.Money) {
	for _, i := range counts {
		if gap, gone := GapOf(g, i); gone {
			list, cost = append(list, gap), cost.Add(gap.Cost)
		}
	}
	return list, cost
}

// IsFresh reports whether it is fresh food, which may well have been eaten.
func (w Gap) IsFresh() bool { return w.Pack < 0 && w.Food >= 0 }

// Drawn is how much fresh food it is, cut to the places that a record may have.
func (w Gap) Drawn(g *ledger.Ledger) exact.Quantity {
	return g.Foods[w.Food].Basis.Of(w.Quantity.Round(exact.MaxFraction, exact.Down))
}

// ToCount lists what a stocktake goes through: the packs in store, place by
// place, in each the foods in file order and of a food what is due soonest first;
// then the supplies, then the fresh food. The ledger must be joined through
// the day of the stocktake.
func ToCount(g *ledger.Ledger, q CountQuery) []Countable {
	list := packsToCount(g, q)
	for i := range g.Supplies {
		if q.Supplies && len(g.SupplyStock(i).Lots()) > 0 {
			list = append(list, Countable{Pack: -1, Food: -1, Supply: i, Books: g.Pieces(i).Free})
		}
	}
	for i := range g.Foods {
		if left := g.FoodStock(i).Left; q.Fresh && left.Sign() > 0 {
			list = append(list, Countable{Pack: -1, Food: i, Supply: -1, Books: exact.RatioOf(left)})
		}
	}
	return list
}

func packsToCount(g *ledger.Ledger, q CountQuery) (list []Countable) {
	for i := range g.Packs {
		p, place := &g.Packs[i], g.Records.Packs.At(i).Place
		if only, ok := q.Place.Get(); !p.Done || p.Left() == 0 || ok && ledger.Fold(place) != ledger.Fold(only) {
			continue
		}
		list = append(list, Countable{Pack: i, Food: p.Food, Supply: -1, Place: place, BestBy: p.BestBy, Books: wholeRatio(p.Left())})
	}
	slices.SortStableFunc(list, func(a, b Countable) int {
		if (a.Place == "") != (b.Place == "") {
			return cmp.Compare(b.Place, a.Place) // what stands nobody knows where comes last
		}
		return cmp.Or(cmp.Compare(a.Place, b.Place), cmp.Compare(a.Food, b.Food), cmp.Compare(orLast(a.BestBy), orLast(b.BestBy)))
	})
	return list
}

// Whole reports whether only whole numbers of it can be counted.
func (c *Countable) Whole(g *ledger.Ledger) bool {
	switch {
	case c.Pack >= 0:
		return true
	case c.Supply >= 0:
		return g.Supplies[c.Supply].ServesAgain()
	}
	return false
}

// Unit is what it is counted in: the basis unit of fresh food, else none.
func (c *Countable) Unit(g *ledger.Ledger) exact.Unit {
	if c.Pack < 0 && c.Food >= 0 {
		return g.Foods[c.Food].Basis
	}
	return exact.NoUnit
}

// ID is its identifier in the records.
func (c *Countable) ID(g *ledger.Ledger) string {
	switch {
	case c.Pack >= 0:
		return g.Records.Packs.At(c.Pack).ID
	case c.Supply >= 0:
		return g.Supplies[c.Supply].ID
	}
	return g.Foods[c.Food].ID
}

// Recordable is what the books have, as a stocktake can record it; not given
// where that has more digits than a record may have.
func (c *Countable) Recordable() (n exact.Opt[exact.Number]) {
	if books, ends := c.Books.Number(); ends && books.Places() <= exact.MaxFraction {
		return exact.Some(books)
	}
	return n
}
