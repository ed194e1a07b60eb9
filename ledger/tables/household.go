package tables

import (
	"slices"

	"putby/ledger"
	"putby/ledger/figures"
)

// A Household is a ledger to be laid out. What moved by a day is as the ledger
// stood then; a run begun by then counts whole, with packs of later days.
type Household struct {
	Name   string
	day    *ledger.Ledger // through the day
	runs   *ledger.Ledger // through the last record
	months []figures.Stretch
}

// Of takes a ledger joined through a day, and the same joined through its last
// record; where there is no later record both may be one. The error is
// [ErrDigits] or [figures.ErrUnbalanced].
func Of(name string, byDay, wholeRuns *ledger.Ledger) (*Household, error) {
	m, err := figures.Month(byDay, figures.MonthQuery{Query: figures.Query{AsOf: byDay.Day()}})
	if err != nil {
		return nil, err
	}
	h := &Household{Name: name, day: byDay, runs: wholeRuns, months: m.Rows}
	// Every number is looked at here, so that it fails before a row of the household is written.
	for _, t := range All() {
		for row := range t.Rows(h) {
			if err := t.fit(row); err != nil {
				return nil, err
			}
		}
	}
	return h, nil
}

// All lists the tables, each after those that its rows name.
func All() []Table {
	return []Table{
		households(), foods(), supplies(), machines(),
		purchases(), batches(), lots(), prices(),
		runs(), loads(), runCosts(), packs(), draws(), months(),
	}
}

// A row is a record by its position in one of a ledger's lists.
type row struct {
	*ledger.Ledger
	i int // from 0, in the list that its table goes through
}

// all goes through the rows of a list that count; nil: all do. They share one row,
// which is good until the next.
func all(g *ledger.Ledger, n int, counts func(i int) bool, yield func(*row) bool) {
	r := row{Ledger: g}
	for r.i = range n {
		if (counts == nil || counts(r.i)) && !yield(&r) {
			return
		}
	}
}

// begun returns the positions of the runs that had begun by the day, in order
// of their start.
func (h *Household) begun() []int {
	var list []int
	for i := range h.runs.Runs {
		if h.hasBegun(i) {
			list = append(list, i)
		}
	}
	runs := h.runs.Records.Runs
	slices.SortStableFunc(list, func(a, b int) int { return runs[a].Start.Compare(runs[b].Start) })
	return list
}

func (h *Household) hasBegun(run int) bool {
	return h.runs.Runs[run].Done && h.runs.Runs[run].Date <= h.day.Day()
}

// counts reports whether a pack is of a run that counts, or was in store.
func (h *Household) counts(pack int) bool {
	p := h.runs.Records.Packs.At(pack)
	if run, ok := h.runs.FindRun(p.Run); ok {
		return h.hasBegun(run)
	}
	return p.Date <= h.day.Day() // opening stock
}
