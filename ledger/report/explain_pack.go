package report

import (
	"fmt"

	"putby/ledger"
	"putby/pricing/exact"
)

// explainPack takes a pack's cost apart: its part of its run, its supplies,
// its containers; then the run.
func explainPack(g *ledger.Ledger, i int) Doc {
	pack, cost := &g.Records.Packs[i], &g.Packs[i]
	food := &g.Foods[cost.Food]
	d := newDoc(g, "How the cost of pack "+pack.ID+" comes about")
	d.Fields = append(d.Fields,
		Field{Key: "pack", Title: "pack", Node: TextOf(pack.ID)},
		Field{Key: "where", Title: "where", Node: where(ledger.PacksFile, pack.Line)},
		Field{Key: "item", Title: "food", Node: foodValue(food)},
		Field{Key: "makes", Title: "makes", Node: AmountOf(cost.Made(), food.Basis)},
	)
	d.Fields = append(d.Fields,
		field("pack_share", "Its part of the run's good cost", shareOfPack(g, i)),
		field("pack_supplies", "Its own supplies", suppliesOfPack(g, i)),
		field("containers", "Its containers, in the order in which they leave", containersOf(g, i)),
	)
	if run, ok := g.FindRun(pack.Run); ok {
		d.Fields = append(d.Fields, Field{Key: "run", Title: "its run", Node: TextOf(pack.Run)})
		d.Fields = append(d.Fields, runSections(g, run)...)
		d.Notes = append(d.Notes, g.Runs[run].Notes...)
	}
	d.Notes = append(append(d.Notes, cost.Notes...), cautions(g, func(f int) bool { return f == cost.Food })...)
	return d
}

func shareOfPack(g *ledger.Ledger, i int) *Table {
	cost := &g.Packs[i]
	t := &Table{Columns: []Column{{Key: "element", Title: "element"}, {Key: "share", Title: "share"}}}
	for _, e := range ledger.Elements() {
		t.Rows = append(t.Rows, Row{Cells: []Value{TextOf(e.String()), PostedOf(cost.Share[e])}})
	}
	t.Totals = []Row{{Cells: []Value{TextOf("share in all"), PostedOf(cost.Share.Total())}}}
	return t
}

func suppliesOfPack(g *ledger.Ledger, i int) *Table {
	cost := &g.Packs[i]
	t := &Table{Columns: takeColumns("supply"), Empty: "None."}
	pack := &g.Records.Packs[i]
	supplyTakes(g, t, pack.With, exact.Int(int64(pack.Count)), cost.Takes)
	return t
}

// containersOf shows the equal split over containers: those that got one step
// more come first.
func containersOf(g *ledger.Ledger, i int) *Table {
	cost, n := &g.Packs[i], g.Records.Packs[i].Count
	t := &Table{Columns: []Column{{Key: "containers", Title: "containers"}, {Key: "each", Title: "cost of each"}, {Key: "state", Title: "state"}}}
	each := func(k int) exact.Money { return cost.First(k + 1).Sub(cost.First(k)) }
	for from := 0; from < n; {
		to := from + 1
		for to < n && each(to).Equal(each(from)) && (to < cost.Taken) == (from < cost.Taken) {
			to++
		}
		state := "in store"
		if from < cost.Taken {
			state = "drawn"
		}
		t.Rows = append(t.Rows, Row{Cells: []Value{TextOf(fmt.Sprintf("%d to %d", from+1, to)), PostedOf(each(from)), TextOf(state)}})
		from = to
	}
	t.Totals = []Row{{Cells: []Value{TextOf("in all"), PostedOf(cost.Total), None}}}
	return t
}
