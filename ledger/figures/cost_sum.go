package figures

import (
	"slices"

	"putby/pricing/exact"
)

// A costSum is a sum of rows in the making.
type costSum struct {
	CostRow
	shelfMade exact.Number  // the part of what was made that has a shelf price
	value     exact.Ratio   // of it, at the shelf prices of its rows
	energies  []exact.Ratio // of its rows, kWh
	noted     map[Note]bool
}

// A sumKey tells sums apart: litres and kilograms do not add.
type sumKey struct {
	food    int        // position in Foods; -1: all
	month   exact.Date // its first day; NoDate: all
	machine string
	unit    exact.Unit
}

// keyOf says to which sum a row belongs.
func keyOf(r *CostRow, by By) sumKey {
	switch by {
	case ByMonth:
		return sumKey{food: -1, month: r.Date.Month(), unit: r.Unit}
	case ByMachine:
		return sumKey{food: -1, machine: r.Machine, unit: r.Unit}
	}
	return sumKey{food: r.Food, unit: r.Unit}
}

// costSums adds the rows of runs up by item, month or machine, and by unit
// within those.
type costSums struct {
	by   By
	sums []*costSum
	at   map[sumKey]*costSum
}

// add adds a run's row to its sum.
func (c *costSums) add(r *CostRow) {
	key := keyOf(r, c.by)
	s := c.at[key]
	if s == nil {
		s = &costSum{CostRow: CostRow{Run: -1, At: -1, Date: key.month, Food: key.food, Machine: key.machine, Unit: r.Unit}, noted: map[Note]bool{}}
		if c.at == nil {
			c.at = map[sumKey]*costSum{}
		}
		c.at[key], c.sums = s, append(c.sums, s)
	}
	s.add(r)
	if r.Packed() {
		s.energies = append(s.energies, r.Energy)
	}
}

// rows returns the finished sums.
func (c *costSums) rows() []CostRow {
	list := make([]CostRow, len(c.sums))
	for i, s := range c.sums {
		list[i] = s.row()
	}
	return list
}

// add puts a run's row into a sum, without its energy.
func (s *costSum) add(r *CostRow) {
	s.Lost = s.Lost.Add(r.Lost)
	for _, n := range r.Notes {
		if !s.noted[n] {
			s.noted[n] = true
			s.Notes = append(s.Notes, n)
		}
	}
	if !r.Packed() {
		return
	}
	s.Runs += r.Runs
	s.Loaded, s.Made = s.Loaded.Add(r.Loaded), s.Made.Add(r.Made)
	s.Good = s.Good.Add(r.Good)
	if price, ok := r.Shelf.Get(); ok {
		s.OfBatch = r.OfBatch && (s.OfBatch || s.shelfMade.IsZero())
		s.shelfMade, s.value = s.shelfMade.Add(r.Made), s.value.Add(price.Times(r.Made))
	}
	s.Saving = addedTo(s.Saving, r.Saving)
}

// row returns the finished sum.
func (s *costSum) row() CostRow {
	r := s.CostRow
	r.Energy = sumInto(s.energies)
	if s.shelfMade.Sign() > 0 {
		r.Shelf = exact.Some(s.value.Quo(exact.RatioOf(s.shelfMade)))
	}
	return r
}

// addedTo adds what there is; a sum of nothing is not given.
func addedTo(sum, part exact.Opt[exact.Ratio]) exact.Opt[exact.Ratio] {
	if r, ok := part.Get(); ok {
		return exact.Some(sum.Or(exact.Ratio{}).Add(r))
	}
	return sum
}

// A CostTotal is the sum of all rows of one unit.
type CostTotal struct {
	Unit   exact.Unit
	Made   exact.Number           // reconstituted
	Good   exact.Money            // what it cost
	Lost   exact.Money            // with that of what has no pack yet
	Saving exact.Opt[exact.Ratio] // money against the shelf; not given: no row has a shelf price
}

// costTotals sum all rows, one total for each unit.
type costTotals []CostTotal

// add adds a run's row to the total of its unit.
func (t *costTotals) add(r *CostRow) {
	n := slices.IndexFunc(*t, func(sum CostTotal) bool { return sum.Unit == r.Unit })
	if n < 0 {
		n, *t = len(*t), append(*t, CostTotal{Unit: r.Unit})
	}
	sum := &(*t)[n]
	sum.Lost = sum.Lost.Add(r.Lost)
	if r.Packed() {
		sum.Made, sum.Good = sum.Made.Add(r.Made), sum.Good.Add(r.Good.Total())
		sum.Saving = addedTo(sum.Saving, r.Saving)
	}
}
