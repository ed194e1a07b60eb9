package report

import (
	"slices"

	"putby/ledger/figures"
	"putby/pricing/exact"
)

// A source is what a food earns towards the machine.
type source struct {
	food int
	figures.EarningSum
}

// addSources sums what each food's runs earn once they are used, and what a
// run earns on average.
func (p *payback) addSources(notes *doubts) {
	var lacks figures.Notes
	list := figures.RunEarnings(p.g, figures.CostQuery{}, figures.Always(p.food), &lacks)
	notes.addFigures(p.g, lacks)
	all := figures.EarningOf(list, -1)
	p.run = all.PerRun()
	for f := range p.g.Foods {
		if s := (source{f, figures.EarningOf(list, f)}); s.Runs > 0 {
			p.foods = append(p.foods, s)
		}
	}
	slices.SortStableFunc(p.foods, func(a, b source) int {
		return b.PerRun().Or(exact.Ratio{}).Cmp(a.PerRun().Or(exact.Ratio{}))
	})
}

// foodTable lists what a run of each food earns, the most first.
func (p *payback) foodTable() *Table {
	t := &Table{Columns: []Column{
		{Key: "item", Title: "food"}, {Key: "runs", Title: "runs", Rank: 3}, {Key: "whole_runs", Title: "as whole runs", Rank: 1}, {Key: "earned", Title: "earned once used", Rank: 1},
		{Key: "per_run", Title: "a whole run", Bar: true}, {Key: "runs_to_pay", Title: "runs of it that pay what is left", Rank: 2},
	}, Empty: "No run is packed yet."}
	for i := range p.foods {
		s := &p.foods[i]
		each, more := None, None
		if mean, ok := s.PerRun().Get(); ok {
			each = MoneyQuotient(mean)
			if left := p.left(); left.Sign() > 0 && mean.Sign() > 0 {
				more = PlainOf(left.Quo(mean).Ceil()).Estimated()
			}
		}
		t.Rows = append(t.Rows, Row{Cells: []Value{
			foodValue(&p.g.Foods[s.food]), CountOf(s.Runs), QuotientOf(s.Whole, 2), MoneyQuotient(s.Earned), each, more,
		}})
	}
	return t
}
