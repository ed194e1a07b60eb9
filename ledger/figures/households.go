package figures

import (
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// This file adds the sums of one ledger to those of others that have the same
// currency, exactly. Amounts are added unit by unit.

// A UnitSum is a sum of what is counted in one unit.
type UnitSum[T any] interface {
	CountedIn() exact.Unit
	Plus(T) T
}

// AddByUnit adds sums to others, each to that of its unit, in order of units.
func AddByUnit[T UnitSum[T]](to, sums []T) []T {
	all := slices.Clone(to)
	for _, s := range sums {
		at, there := slices.BinarySearchFunc(all, s.CountedIn(), func(t T, u exact.Unit) int { return int(t.CountedIn()) - int(u) })
		if there {
			all[at] = all[at].Plus(s)
		} else {
			all = slices.Insert(all, at, s)
		}
	}
	return all
}

// CountedIn is the total's unit.
func (t CostTotal) CountedIn() exact.Unit { return t.Unit }

// Plus adds another total of its unit.
func (t CostTotal) Plus(u CostTotal) CostTotal {
	t.Made, t.Good, t.Lost = t.Made.Add(u.Made), t.Good.Add(u.Good), t.Lost.Add(u.Lost)
	t.Saving = addedTo(t.Saving, u.Saving)
	return t
}

// PerUnit is what a unit cost; not given where nothing was made.
func (t CostTotal) PerUnit() (r exact.Opt[exact.Ratio]) {
	if t.Made.Sign() > 0 {
		r = exact.Some(t.Good.Per(t.Made))
	}
	return r
}

// Totals sums the foods that are compared, one total for each unit.
func (c CompareResult) Totals() []CostTotal {
	var totals costTotals
	for i := range c.Foods {
		totals.add(&c.Foods[i].CostRow)
	}
	return totals
}

// With adds what another ledger had in its own time: the stores of both before
// stand beside each other, and those after.
func (t Tally) With(u *Tally) Tally {
	sum := t.Plus(u)
	sum.Opening, sum.Closing = t.Opening.Add(u.Opening), t.Closing.Add(u.Closing)
	return sum
}

// A StoreTotal is the sum of all packs in store of one unit.
type StoreTotal struct {
	Unit   exact.Unit
	Left   int                    // containers
	Amount exact.Number           // what they make
	Cost   exact.Money            // carried by those containers
	Shelf  exact.Opt[exact.Ratio] // of those of which a price is known
}

// CountedIn is the total's unit.
func (t StoreTotal) CountedIn() exact.Unit { return t.Unit }

// Plus adds another total of its unit.
func (t StoreTotal) Plus(u StoreTotal) StoreTotal {
	t.Left, t.Amount, t.Cost = t.Left+u.Left, t.Amount.Add(u.Amount), t.Cost.Add(u.Cost)
	t.Shelf = addedTo(t.Shelf, u.Shelf)
	return t
}

// Totals sums the packs that are listed, one total for each unit.
func (r *OnHandResult) Totals(g *ledger.Ledger) (totals []StoreTotal) {
	for i := range r.Packs {
		p := &r.Packs[i]
		totals = AddByUnit(totals, []StoreTotal{{g.Foods[p.Food].Basis, p.Left, p.Amount, p.Cost, p.Shelf}})
	}
	return totals
}

// An EarnedTotal is what machines cost and have earned back, of one household or of
// several.
type EarnedTotal struct {
	Machines                 int         // how many
	Price, Repairs, Residual exact.Money // of all: paid, paid for repairs, to be had back at their end
	Earned                   exact.Ratio // money
	Paid                     int         // households whose machines are paid for
}

// Target is what there is to earn back.
func (t EarnedTotal) Target() exact.Money { return t.Price.Add(t.Repairs).Sub(t.Residual) }

// Left is what is not earned back, of all together.
func (t EarnedTotal) Left() exact.Ratio { return t.Target().Ratio().Sub(t.Earned) }

// Plus adds what another household's machines cost and earned.
func (t EarnedTotal) Plus(u EarnedTotal) EarnedTotal {
	t.Machines, t.Paid = t.Machines+u.Machines, t.Paid+u.Paid
	t.Price, t.Repairs, t.Residual = t.Price.Add(u.Price), t.Repairs.Add(u.Repairs), t.Residual.Add(u.Residual)
	t.Earned = t.Earned.Add(u.Earned)
	return t
}

// Total is what the ledger's machines cost and have earned back.
func (r *PaybackResult) Total() EarnedTotal {
	t := EarnedTotal{r.Outlay.Machines, r.Outlay.Price, r.Outlay.Repairs, r.Outlay.Residual, r.Earned(), 0}
	if t.Machines > 0 && t.Left().Sign() <= 0 {
		t.Paid = 1
	}
	return t
}

// A PricesTotal sums up what is known of a food's prices in the year, by the unit
// that they are per.
type PricesTotal struct {
	Unit            exact.Unit
	Count           int         // prices, asked or paid
	Lowest, Highest exact.Ratio // money per Unit
	Times           int         // on offer
}

// CountedIn is the unit that the prices are per.
func (t PricesTotal) CountedIn() exact.Unit { return t.Unit }

// Plus adds the prices that another household knows.
func (t PricesTotal) Plus(u PricesTotal) PricesTotal {
	if t.Lowest.Cmp(u.Lowest) > 0 {
		t.Lowest = u.Lowest
	}
	if t.Highest.Cmp(u.Highest) < 0 {
		t.Highest = u.Highest
	}
	t.Count, t.Times = t.Count+u.Count, t.Times+u.Times
	return t
}

// Totals sums up the year's prices; it is empty where none is known.
func (r *OffersResult) Totals(g *ledger.Ledger) []PricesTotal {
	if r.Year.Count == 0 {
		return nil
	}
	return []PricesTotal{{g.Foods[r.Food].Basis, r.Year.Count, r.Year.Lowest, r.Year.Highest, r.Times}}
}
