package report

import (
	"fmt"

	"putby/ledger"
)

// packDoc takes a pack's cost apart: its part of its run, its supplies, its
// containers; then the run.
func (e explained) packDoc() Doc {
	pack, cost := e.g.Records.Packs.At(e.Pack), &e.g.Packs[e.Pack]
	food := &e.g.Foods[cost.Food]
	d := newDoc(e.g, "What the cost of pack "+pack.ID+" is made of")
	say := reportingOn(e.g)
	d.Words = []string{fmt.Sprintf("Pack %s: %s of %s cost %s.", pack.ID, say.counted(pack.Count, "container"), food.Title(), say.money(cost.Total().Ratio()))}
	supplies := e.takenTable("supply", e.Supplies)
	supplies.Empty = "None."
	d.Fields = append(d.Fields,
		Field{Key: "pack", Title: "pack", Node: TextOf(pack.ID)},
		Field{Key: "where", Title: "where", Node: where(ledger.PacksFile, pack.Line)},
		Field{Key: "item", Title: "food", Node: foodValue(food)},
		Field{Key: "makes", Title: "makes", Node: AmountOf(cost.Made(), food.Basis)},
		field("pack_share", "Its part of the run's good cost", shareOfPack(cost)),
		field("pack_supplies", "Its own supplies", supplies),
		field("containers", "Its containers, in the order in which they leave", e.containers()),
	)
	if e.Run >= 0 { // stock from before the ledger has none
		d.Fields = append(d.Fields, Field{Key: "run", Title: "its run", Node: TextOf(pack.Run)})
		d.Fields = append(d.Fields, e.runSections()...)
		d.Notes = append(d.Notes, Stated(e.g, e.g.Runs[e.Run].Notes)...)
	}
	d.Notes = append(d.Notes, Stated(e.g, cost.Notes())...)
	d.Cautions = cautions(e.g, func(f int) bool { return f == cost.Food })
	return d
}

func shareOfPack(cost *ledger.PackCost) *Table {
	t := &Table{Columns: []Column{{Key: "element", Title: "element"}, {Key: "share", Title: "share"}}}
	for _, e := range ledger.Elements() {
		t.add(TextOf(e.String()), PostedOf(cost.Share[e]))
	}
	t.Totals = []Row{{Cells: []Value{TextOf("share in all"), PostedOf(cost.Share.Total())}}}
	return t
}

// containers shows the equal split over containers.
func (e explained) containers() *Table {
	t := &Table{Columns: []Column{{Key: "containers", Title: "containers"}, {Key: "each", Title: "cost of each"}, {Key: "state", Title: "state"}}}
	for _, c := range e.Containers {
		state := "in store"
		if c.Drawn {
			state = "drawn"
		}
		t.add(TextOf(fmt.Sprintf("%d to %d", c.First, c.Last)), PostedOf(c.Each), TextOf(state))
	}
	t.Totals = []Row{{Cells: []Value{TextOf("in all"), PostedOf(e.g.Packs[e.Pack].Total()), None}}}
	return t
}
