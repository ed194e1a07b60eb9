package report

import (
	"putby/ledger/figures"
)

// running lists what is in the machines, as far as its cost is recorded.
func (h *holdings) running() Field {
	t := &Table{Columns: []Column{
		{Key: "run", Title: "run"}, {Key: "machine", Title: "machine", Rank: 1}, {Key: "since", Title: "since"}, {Key: "usual_end", Title: "usually until", Rank: 2},
		{Key: "item", Title: "item"}, {Key: "unit", Title: "unit"}, {Key: "loaded", Title: "loaded"}, {Key: "cost", Title: "cost so far"},
	}}
	for _, i := range figures.Running(h.g) {
		run, end := &h.g.Records.Runs[i], None
		if at, ok := figures.UsualEnd(h.g, i); ok {
			end = MomentOf(at).Estimated()
		}
		for j := range h.g.Runs[i].Items {
			item := &h.g.Runs[i].Items[j]
			food := &h.g.Foods[item.Food]
			if !h.scope.Wants(item.Food) {
				continue
			}
			h.foods = append(h.foods, item.Food)
			t.Rows = append(t.Rows, Row{Cells: []Value{
				TextOf(run.ID), itemValue(h.g, run.Machine), MomentOf(run.Start), end,
				foodValue(food), UnitOf(food.Basis), AmountOf(item.Loaded, food.Basis), MoneyOf(item.Good.Total()),
			}})
		}
	}
	return field("running", "In the machine", t)
}
