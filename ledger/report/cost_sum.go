package report

import (
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// sumRows adds rows up by item, month or machine, and by unit within those,
// since litres and kilograms do not add. What has no pack yet is left out, but
// for its losses.
func sumRows(g *ledger.Ledger, rows []costRow, by By) []costRow {
	var sums []costRow
	for i := range rows {
		r := &rows[i]
		key, date, food := groupOf(g, r, by)
		at := slices.IndexFunc(sums, func(s costRow) bool { return s.key == key && s.unit == r.unit })
		if at < 0 {
			at = len(sums)
			sums = append(sums, costRow{key: key, date: date, food: food, unit: r.unit, hours: None})
		}
		sums[at].add(r)
	}
	return sums
}

func groupOf(g *ledger.Ledger, r *costRow, by By) (key string, date exact.Date, food int) {
	switch by {
	case ByMonth:
		return r.date.Month().String()[:7], r.date.Month(), -1
	case ByMachine:
		i := slices.IndexFunc(g.Records.Runs, func(run ledger.Run) bool { return run.ID == r.key })
		return g.Records.Runs[i].Machine, exact.NoDate, -1
	}
	return g.Foods[r.food].ID, exact.NoDate, r.food
}

// add puts a run's row into a sum.
func (s *costRow) add(r *costRow) {
	s.lost = s.lost.Add(r.lost)
	for _, n := range r.notes {
		s.note(n)
	}
	if !r.packed() {
		return
	}
	s.runs += r.runs
	s.loaded, s.made = s.loaded.Add(r.loaded), s.made.Add(r.made)
	s.good, s.energy = s.good.Add(r.good), s.energy.Add(r.energy)
	if price, ok := r.shelf.Get(); ok {
		// The mean price is weighted by what was reconstituted.
		before := s.shelf.Or(exact.Ratio{}).Times(s.shelfMade)
		s.shelfMade = s.shelfMade.Add(r.made)
		s.shelf = exact.Some(before.Add(price.Times(r.made)).Quo(exact.RatioOf(s.shelfMade)))
	}
	if saving, ok := r.saving.Get(); ok {
		s.saving = exact.Some(s.saving.Or(exact.Ratio{}).Add(saving))
	}
}

// costTotals sums all rows, one total for each unit.
func costTotals(rows []costRow) *Table {
	t := &Table{Columns: []Column{
		{Key: "unit", Title: "unit"}, {Key: "reconstituted", Title: "reconstituted"},
		{Key: "total", Title: "total"}, {Key: "lost", Title: "lost"}, {Key: "saving", Title: "saving"},
	}}
	var sums []costRow
	for i := range rows {
		r := &rows[i]
		at := slices.IndexFunc(sums, func(s costRow) bool { return s.unit == r.unit })
		if at < 0 {
			at = len(sums)
			sums = append(sums, costRow{unit: r.unit, food: -1})
		}
		sums[at].add(r)
	}
	for _, s := range sums {
		t.Rows = append(t.Rows, Row{Cells: []Value{
			UnitOf(s.unit), AmountOf(s.made, s.unit), MoneyOf(s.good.Total()), MoneyOf(s.lost), optMoney(s.saving),
		}})
	}
	return t
}

// optMoney is an amount of money that may not exist.
func optMoney(r exact.Opt[exact.Ratio]) Value {
	if v, ok := r.Get(); ok {
		return MoneyQuotient(v)
	}
	return None
}
