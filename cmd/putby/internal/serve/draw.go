package serve

import (
	"errors"
	"fmt"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/report"
	"putby/pricing/exact"
)

var drawForm = recording{
	path: "draw", link: "Take out", title: "Take something out",
	intro:  "Containers of a food come from the packs that are due soonest. Fresh food, supplies or one pack of your choice are below.",
	groups: drawGroups, draft: drawDraft,
}

func drawGroups(f *filling) []page.Group {
	k := ledger.MustKind("draw")
	fields := f.fieldsOf(k, "", map[string]string{"date": f.At.Today.String(), "quantity": "1", "reason": "used"}, "pack", "item")
	food := page.Field{Kind: "select", Name: "food", Label: "food", Value: f.text("food", ""), Options: f.inStore()}
	other := []page.Field{f.field(k.Column("pack"), "pack", ""), f.field(k.Column("item"), "item", "")}
	return []page.Group{
		{Title: "Out of store", Fields: append([]page.Field{food}, fields...)},
		{Title: "One pack, fresh food or supplies instead", Folded: true, Fields: other},
	}
}

// inStore are the foods that packs are left of.
func (f *filling) inStore() []page.Option {
	list := []page.Option{{Value: "", Label: "choose"}}
	g := f.join()
	if g == nil {
		return append(list, f.things(ledger.Foods)...)
	}
	left := make([]int, len(g.Foods))
	for i := range g.Packs {
		if p := &g.Packs[i]; p.Done {
			left[p.Food] += p.Left()
		}
	}
	for i, n := range left {
		if n > 0 {
			list = append(list, page.Option{Value: g.Foods[i].ID, Label: fmt.Sprintf("%s, %d left", g.Foods[i].ID, n)})
		}
	}
	return list
}

func drawDraft(f *filling) (*entry.Draft, error) {
	rows, err := drawRows(f)
	if err != nil {
		return nil, err
	}
	d := &entry.Draft{Rows: rows}
	drawAdvice(f, d)
	return d, nil
}

func drawRows(f *filling) ([]entry.Row, error) {
	k := ledger.MustKind("draw")
	cells, food := f.cells(k, ""), f.text("food", "")
	switch {
	case food == "":
		return []entry.Row{{Kind: k, Cells: cells}}, nil
	case cells["pack"] != "" || cells["item"] != "":
		return nil, errors.New("choose a food, or name a pack or an item, not both")
	}
	g := f.join()
	if g == nil {
		return nil, errors.New("the ledger has faults: putby prove lists them")
	}
	takings, err := report.SoonestDue(g, food, cells["quantity"], f.At.Day(cells["date"]))
	if err != nil {
		return nil, err
	}
	var rows []entry.Row
	for _, t := range takings {
		rows = append(rows, entry.DrawRow(k, cells, t.Pack, t.Count))
	}
	return rows, nil
}

// drawAdvice says from where to take, and what to heed when it is opened.
func drawAdvice(f *filling, d *entry.Draft) {
	g := f.join()
	if g == nil {
		return
	}
	for _, row := range d.Rows {
		i, ok := g.FindPack(row.Cells["pack"])
		if !ok {
			continue
		}
		pack, words := &g.Records.Packs[i], row.Cells["quantity"]+" from pack "+row.Cells["pack"]
		if by := g.Packs[i].BestBy; by != exact.NoDate {
			words += ", best by " + by.String()
		}
		if pack.Place != "" {
			words += ", " + pack.Place
		}
		d.After = append(d.After, words)
	}
	if d.Rows[0].Cells["reason"] == ledger.Spoiled.String() {
		return
	}
	names := entry.Drawn(d.Rows)
	d.After = append(d.After, report.PastDue(g, f.At.Day(d.Rows[0].Cells["date"]), names...)...)
	d.After = append(d.After, report.Opened(g, names...)...)
}
