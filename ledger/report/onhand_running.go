package report

// running lists what is in the machines, as far as its cost is recorded.
func (h *onHand) running() Field {
	t := &Table{Columns: []Column{
		{Key: "run", Title: "run"}, {Key: "machine", Title: "machine", Rank: 1}, {Key: "since", Title: "since"}, {Key: "usual_end", Title: "usually until", Rank: 2},
		{Key: "item", Title: "food"}, {Key: "unit", Title: "unit"}, {Key: "loaded", Title: "loaded"}, {Key: "cost", Title: "cost so far"},
	}}
	for _, m := range h.Running {
		run, food := &h.g.Records.Runs[m.Run], &h.g.Foods[m.Food]
		t.add(TextOf(run.ID), itemValue(h.g, run.Machine), MomentOf(run.Start), guessed(m.End, MomentOf),
			foodValue(food), UnitOf(food.Basis), AmountOf(h.g.Runs[m.Run].Items[m.At].Loaded, food.Basis), MoneyOf(m.Cost))
	}
	return field("running", "In the machine", t)
}
