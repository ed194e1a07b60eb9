package report

import (
	"fmt"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// OnHand lays out what is in the house; see [figures.OnHand], whose errors it
// returns.
func OnHand(g *ledger.Ledger, q figures.OnHandQuery, names Names) (Doc, error) {
	return laid(g, q, figures.OnHand, func(g *ledger.Ledger, q figures.OnHandQuery, r *figures.OnHandResult) Doc {
		return onHandDoc(g, q, r, names)
	})
}

// OnHandDoc lays out what is in the house, for [Tell].
func OnHandDoc(g *ledger.Ledger, q figures.OnHandQuery, r *figures.OnHandResult) Doc {
	return onHandDoc(g, q, r, nil)
}

func onHandDoc(g *ledger.Ledger, q figures.OnHandQuery, r *figures.OnHandResult, names Names) Doc {
	h := onHand{reportingOn(g), q, r}
	d := newDoc(g, h.heading())
	d.Words = []string{h.answer()}
	d.Share = onHandShare(g, r)
	d.Fields = []Field{{Key: "as_of", Node: DateOf(h.Day)}, h.packs(), h.fresh(), h.lots()}
	if !q.Due.Given() {
		d.Fields = append(d.Fields, h.foods(), h.running(), h.awaiting())
		if h.Food < 0 {
			d.Fields = append(d.Fields, h.supplies(), h.machines())
		}
	}
	var notes noteList
	notes.addFigures(g, h.Notes)
	if q.From != exact.NoDate || q.To != exact.NoDate {
		notes.addf("%s and %s change nothing: what is on hand is of one day, which %s says", names.of("from"), names.of("to"), names.of("as-of"))
	}
	d.Notes, d.Cautions = notes, cautions(g, h.Concerns)
	return d
}

// onHand is being laid out.
type onHand struct {
	reporting
	q figures.OnHandQuery
	*figures.OnHandResult
}

func (h *onHand) heading() string {
	title := "On hand" + h.dated(" on ", h.Day, "", "")
	if days, ok := h.q.Due.Get(); ok {
		title = fmt.Sprintf("To use within %d days of %s", days, h.day(h.Day))
	}
	return title + ofFood(h.g, h.Food)
}

// daysTo is how many days a last day is off.
func (h *onHand) daysTo(last exact.Date) Value {
	return optional(h.DaysTo(last), CountOf)
}

func (h *onHand) packs() Field {
	t := &Table{Columns: []Column{
		{Key: "pack", Title: "pack"}, {Key: "item", Title: "food"}, {Key: "count", Title: "packed", Rank: 6}, {Key: "left", Title: "left"},
		{Key: "each", Title: "each"}, {Key: "unit"}, {Key: "cost", Title: "cost", Rank: 1}, {Key: "best_by", Title: "best by"},
		{Key: "days_left", Title: "days left"}, {Key: "shelf_value", Title: "the shelf asks", Rank: 2}, {Key: "date", Title: "packed on", Rank: 4}, {Key: "place", Title: "place", Rank: 3},
		{Key: NotesKey, Title: "notes"},
	}, Empty: "No pack is in store."}
	if h.q.Due.Given() {
		t.Empty = "No pack is to be used by then."
	}
	for i := range h.Packs {
		t.Rows = append(t.Rows, h.packRow(&h.Packs[i]))
	}
	if len(t.Rows) > 0 {
		cost, shelf := h.InStore()
		t.Totals = []Row{{Cells: []Value{TextOf("in all"), None, None, None, None, None, MoneyOf(cost), None, None, MoneyQuotient(shelf), None, None}}}
	}
	return field("packs", "Packs in store", t)
}

func (h *onHand) packRow(p *figures.PackInStore) Row {
	pack, cost, food := h.g.Records.Packs.At(p.Pack), &h.g.Packs[p.Pack], &h.g.Foods[p.Food]
	notes := Stated(h.g, cost.Notes())
	if p.Past {
		notes = append(notes, "past its best-by date")
	}
	return Row{Notes: notes, Cells: []Value{
		TextOf(pack.ID), foodValue(food), CountOf(pack.Count), CountOf(p.Left), AmountOf(cost.Each, food.Basis).WithUnit(), UnitOf(food.Basis),
		MoneyOf(p.Cost), DateOf(p.BestBy), h.daysTo(p.BestBy), optMoney(p.Shelf), DateOf(p.Packed), textOrNone(pack.Place),
	}}
}

// foods are the sums of the packs in store.
func (h *onHand) foods() Field {
	t := &Table{Columns: []Column{
		{Key: "item", Title: "food"}, {Key: "unit", Title: "unit"}, {Key: "left", Title: "containers", Rank: 1}, {Key: "quantity", Title: "makes"},
		{Key: "cost", Title: "cost", Bar: true}, {Key: "shelf_value", Title: "the shelf asks", Rank: 1}, {Key: "best_by", Title: "first best-by", Rank: 2},
	}}
	for _, s := range h.Foods {
		food := &h.g.Foods[s.Food]
		t.add(foodValue(food), UnitOf(food.Basis), CountOf(s.Left), AmountOf(s.Amount, food.Basis), MoneyOf(s.Cost), optMoney(s.Shelf), DateOf(s.BestBy))
	}
	return field("foods", "By food", t)
}

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

// awaiting lists what has been dried and is in no pack yet.
func (h *onHand) awaiting() Field {
	t := &Table{Columns: []Column{
		{Key: "run", Title: "run"}, {Key: "date", Title: "date"}, {Key: "item", Title: "food"}, {Key: "unit", Title: "unit"},
		{Key: "loaded", Title: "loaded"}, {Key: "packed", Title: "packed"}, {Key: "about_left", Title: "to pack"}, {Key: "cost", Title: "cost"}, {Key: NotesKey, Title: "notes"},
	}}
	for _, a := range h.Awaiting {
		food, run := &h.g.Foods[a.Food], &h.g.Runs[a.Run]
		item, left := &run.Items[a.At], a.ToPack.Round(3, exact.HalfEven)
		t.Rows = append(t.Rows, Row{Notes: shortNotes(h.g, item), Cells: []Value{
			TextOf(h.g.Records.Runs[a.Run].ID), DateOf(run.Date), foodValue(food), UnitOf(food.Basis), AmountOf(item.Loaded, food.Basis),
			AmountOf(a.Packed, food.Basis), AmountOf(left, food.Basis).Estimated(), MoneyOf(a.Cost),
		}})
	}
	return field("awaiting", "Awaiting packing", t)
}
