package figures

import (
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// A CostAnswer is what a cost comes to in a sentence.
type CostAnswer struct {
	Runs   int          // that have a row
	Packed int          // of them, those that have packs
	Lost   exact.Money  // of all rows, with those that have no packs
	Units  []UnitAnswer // of what is packed
	// Of the foods that are packed: those that cost less than the shelf asks, those
	// that do not, and those of which no shelf price is known.
	Pays, PaysNot, Unpriced int
}

// A UnitAnswer is the cost of all that is counted in one unit beside the shelf's
// price of the same: of what has a shelf price, or where nothing has one of all.
type UnitAnswer struct {
	Unit    exact.Unit
	PerUnit exact.Ratio            // money per unit reconstituted
	Shelf   exact.Opt[exact.Ratio] // money per unit, weighted by what was made; not given: nothing has a price
	OfBatch bool                   // no shop's price is in Shelf, only what batches took
}

// A costAnswering is a [CostAnswer] in the making.
type costAnswering struct {
	last   int         // run of the last row
	runs   int         // that have a row so far
	filled int         // run of the last row that has packs
	packed int         // runs that have any
	lost   exact.Money // of all rows so far
	foods  []costSum   // by position in Foods
	units  [3]costSum
	bare   [3]costSum // rows without a shelf price
}

// unitsOfFoods are what foods are counted in.
var unitsOfFoods = [3]exact.Unit{exact.L, exact.Kg, exact.Ea}

func newCostAnswering(g *ledger.Ledger) *costAnswering {
	return &costAnswering{last: -1, filled: -1, foods: make([]costSum, len(g.Foods))}
}

func (c *costAnswering) add(r *CostRow) {
	if r.Run != c.last {
		c.runs, c.last = c.runs+1, r.Run
	}
	c.lost = c.lost.Add(r.Lost)
	if !r.Packed() {
		return
	}
	if r.Run != c.filled {
		c.packed, c.filled = c.packed+1, r.Run
	}
	row, sums := *r, &c.units
	row.Notes = nil // of which the answer says nothing
	if !r.Shelf.Given() {
		sums = &c.bare
	}
	c.foods[r.Food].add(&row)
	sums[slices.Index(unitsOfFoods[:], r.Unit)].add(&row)
}

func (c *costAnswering) answer() CostAnswer {
	a := CostAnswer{Runs: c.runs, Packed: c.packed, Lost: c.lost}
	for i, unit := range unitsOfFoods {
		// Cost and shelf price side by side are to be of the same food: what has no price is left
		// out, unless nothing has one.
		sum := &c.units[i]
		if !sum.Packed() {
			sum = &c.bare[i]
		}
		if sum.Packed() {
			row := sum.row()
			per, _ := row.PerUnit().Get()
			a.Units = append(a.Units, UnitAnswer{unit, per, row.Shelf, row.OfBatch})
		}
	}
	for i := range c.foods {
		saving, known := c.foods[i].Saving.Get()
		switch {
		case !c.foods[i].Packed():
		case !known:
			a.Unpriced++
		case saving.Sign() > 0:
			a.Pays++
		default:
			a.PaysNot++
		}
	}
	return a
}
