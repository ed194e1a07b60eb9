package report

import (
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// A source is what a food earns towards the machine, run by run: its value on
// the shelf of the run's day less its cost and its losses, without the wear.
type source struct {
	food   int
	runs   int
	earned exact.Ratio
}

// reckonSources sums what each food's runs earn once they are used. Runs that
// await packing are left out, and foods without a shelf price.
func (p *payback) reckonSources(notes *doubts) {
	runs, all := 0, exact.Ratio{}
	for i := range p.g.Runs {
		run := &p.g.Runs[i]
		counts := false
		for j := range run.Items {
			item := &run.Items[j]
			if !run.Done || !p.wants(item.Food) {
				continue
			}
			earned, ok := p.earns(i, j, notes)
			if !ok {
				continue
			}
			s := p.source(item.Food)
			s.runs, s.earned = s.runs+1, s.earned.Add(earned)
			all, counts = all.Add(earned), true
		}
		if counts {
			runs++
		}
	}
	if runs > 0 {
		p.cycle = exact.Some(all.Quo(wholeRatio(runs)))
	}
	slices.SortStableFunc(p.foods, func(a, b source) int { return b.perRun().Cmp(a.perRun()) })
}

func (p *payback) source(food int) *source {
	at := slices.IndexFunc(p.foods, func(s source) bool { return s.food == food })
	if at < 0 {
		at = len(p.foods)
		p.foods = append(p.foods, source{food: food})
	}
	return &p.foods[at]
}

func (s source) perRun() exact.Ratio { return s.earned.Quo(wholeRatio(s.runs)) }

// earns is what a food of a run earns once all of it is used.
func (p *payback) earns(run, at int, notes *doubts) (exact.Ratio, bool) {
	cost := costOf(p.g, CostQuery{Query: NewQuery(), Without: []ledger.Element{ledger.WearCost}}, run, at)
	lost := ratioOf(cost.lost)
	if p.g.Records.Runs[run].Spoiled {
		return lost.Neg(), true
	}
	if _, waits := unpacked(p.g, &p.g.Runs[run].Items[at]); waits || !cost.packed() {
		return exact.Ratio{}, false
	}
	saving, ok := cost.saving.Get()
	if !ok {
		notes.addf("no fresh shelf price of %s is known: what it earns is left out", cost.item)
		return exact.Ratio{}, false
	}
	return saving.Sub(lost), true
}

// foodTable lists what a run of each food earns, the most first.
func (p *payback) foodTable() *Table {
	t := &Table{Columns: []Column{
		{Key: "item", Title: "food"}, {Key: "runs", Title: "runs"}, {Key: "earned", Title: "earned once used", Rank: 1}, {Key: "per_run", Title: "a run", Bar: true},
		{Key: "runs_to_pay", Title: "runs of it that pay what is left", Rank: 2},
	}, Empty: "No run is packed yet."}
	for _, s := range p.foods {
		more := None
		if left := p.left(); left.Sign() > 0 && s.perRun().Sign() > 0 {
			more = PlainOf(left.Quo(s.perRun()).Ceil()).Estimated()
		}
		t.Rows = append(t.Rows, Row{Cells: []Value{
			TextOf(p.g.Foods[s.food].ID), CountOf(s.runs), MoneyQuotient(s.earned), MoneyQuotient(s.perRun()), more,
		}})
	}
	return t
}
