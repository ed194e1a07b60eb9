package report

import (
	"putby/ledger"
	"putby/pricing/exact"
)

// A costSum is a sum of rows in the making.
type costSum struct {
	costRow
	value    exact.Ratio   // of shelfMade, at the shelf prices of its rows
	energies []exact.Ratio // of its rows, kWh
	noted    map[string]bool
}

// A sumKey tells sums apart: litres and kilograms do not add.
type sumKey struct {
	key  string
	unit exact.Unit
}

// sumRows adds rows up by item, month or machine, and by unit within those.
// What has no pack yet is left out, but for its losses.
func sumRows(g *ledger.Ledger, rows []costRow, by By) []costRow {
	var sums []*costSum
	at := map[sumKey]*costSum{}
	for i := range rows {
		r := &rows[i]
		key, date, food := groupOf(g, r, by)
		s := at[sumKey{key, r.unit}]
		if s == nil {
			s = &costSum{costRow: costRow{key: key, date: date, food: food, unit: r.unit, hours: None}, noted: map[string]bool{}}
			at[sumKey{key, r.unit}] = s
			sums = append(sums, s)
		}
		s.add(r)
	}
	list := make([]costRow, len(sums))
	for i, s := range sums {
		list[i] = s.row()
	}
	return list
}

func groupOf(g *ledger.Ledger, r *costRow, by By) (key string, date exact.Date, food int) {
	switch by {
	case ByMonth:
		return r.date.Month().String()[:7], r.date.Month(), -1
	case ByMachine:
		return g.Records.Runs[r.run].Machine, exact.NoDate, -1
	}
	return g.Foods[r.food].ID, exact.NoDate, r.food
}

// add puts a run's row into a sum.
func (s *costSum) add(r *costRow) {
	s.lost = s.lost.Add(r.lost)
	for _, n := range r.notes {
		if !s.noted[n] {
			s.noted[n] = true
			s.notes = append(s.notes, n)
		}
	}
	if !r.packed() {
		return
	}
	s.runs += r.runs
	s.loaded, s.made = s.loaded.Add(r.loaded), s.made.Add(r.made)
	s.good, s.energies = s.good.Add(r.good), append(s.energies, r.energy)
	if price, ok := r.shelf.Get(); ok {
		s.shelfMade, s.value = s.shelfMade.Add(r.made), s.value.Add(price.Times(r.made))
	}
	if saving, ok := r.saving.Get(); ok {
		s.saving = exact.Some(s.saving.Or(exact.Ratio{}).Add(saving))
	}
}

// row returns the finished sum. Its shelf price is the mean of its rows',
// weighted by what was reconstituted.
func (s *costSum) row() costRow {
	r := s.costRow
	r.energy = sumRatios(s.energies)
	if s.shelfMade.Sign() > 0 {
		r.shelf = exact.Some(s.value.Quo(exact.RatioOf(s.shelfMade)))
	}
	return r
}

// sumRatios adds neighbours up pair by pair, using list for it: exact sums grow
// long, and so only the last few are.
func sumRatios(list []exact.Ratio) exact.Ratio {
	for len(list) > 1 {
		half := list[:0]
		for i := 0; i+1 < len(list); i += 2 {
			half = append(half, list[i].Add(list[i+1]))
		}
		if len(list)%2 == 1 {
			half = append(half, list[len(list)-1])
		}
		list = half
	}
	if len(list) == 0 {
		return exact.Ratio{}
	}
	return list[0]
}

// A costTotal is the sum of all rows of one unit.
type costTotal struct {
	unit   exact.Unit
	made   exact.Number
	total  exact.Money
	lost   exact.Money
	saving exact.Opt[exact.Ratio]
}

// costTotals sums all rows, one total for each unit.
func costTotals(rows []costRow) *Table {
	t := &Table{Columns: []Column{
		{Key: "unit", Title: "unit"}, {Key: "reconstituted", Title: "reconstituted"},
		{Key: "total", Title: "total"}, {Key: "lost", Title: "lost"}, {Key: "saving", Title: "saving"},
	}}
	var totals []*costTotal
	at := map[exact.Unit]*costTotal{}
	for i := range rows {
		r := &rows[i]
		sum := at[r.unit]
		if sum == nil {
			sum = &costTotal{unit: r.unit}
			at[r.unit] = sum
			totals = append(totals, sum)
		}
		sum.add(r)
	}
	for _, s := range totals {
		t.Rows = append(t.Rows, Row{Cells: []Value{
			UnitOf(s.unit), AmountOf(s.made, s.unit), MoneyOf(s.total), MoneyOf(s.lost), optMoney(s.saving),
		}})
	}
	return t
}

// add puts a row into a total: of one without packs only its losses.
func (s *costTotal) add(r *costRow) {
	s.lost = s.lost.Add(r.lost)
	if !r.packed() {
		return
	}
	s.made, s.total = s.made.Add(r.made), s.total.Add(r.good.Total())
	if saving, ok := r.saving.Get(); ok {
		s.saving = exact.Some(s.saving.Or(exact.Ratio{}).Add(saving))
	}
}

// optMoney is an amount of money that may not exist.
func optMoney(r exact.Opt[exact.Ratio]) Value {
	if v, ok := r.Get(); ok {
		return MoneyQuotient(v)
	}
	return None
}
