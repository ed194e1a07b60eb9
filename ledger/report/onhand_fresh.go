package report

import (
	"fmt"
	"slices"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/figures"
)

// This file lays out the food in hand that is not dried: for people lot by lot,
// without crumbs; for machines a row a food as well.

// fresh has a row a food, for machines.
func (h *onHand) fresh() Field {
	t := &Table{Columns: []Column{
		{Key: "item"}, {Key: "unit"}, {Key: "quantity"}, {Key: "cost"}, {Key: "use_by"}, {Key: "days_left"}, {Key: "frozen_by"}, {Key: NotesKey},
	}}
	for i := range h.Fresh {
		f := &h.Fresh[i]
		food := &h.g.Foods[f.Food]
		t.Rows = append(t.Rows, Row{Notes: h.pastNotes(&f.Soonest), Cells: []Value{
			foodValue(food), UnitOf(food.Basis), AmountOf(f.Quantity, food.Basis), MoneyOf(f.Cost),
			DateOf(f.Soonest.UseBy), h.daysTo(f.Soonest.UseBy), DateOf(f.Soonest.FrozenBy),
		}})
	}
	return field("fresh", "", t)
}

// lots has a row a lot.
func (h *onHand) lots() Field {
	kept := Column{} // said to people where some is frozen
	if slices.ContainsFunc(h.Lots, func(l figures.FreshLot) bool { return l.Frozen && !l.Crumb }) {
		kept.Title = "kept"
	}
	t := &Table{Columns: []Column{
		{Key: "item", Title: "food"}, {Key: "receipt"}, {Key: "line"}, {Key: "date", Title: "bought", Rank: 3},
		{Key: "unit", Title: "unit"}, {Key: "quantity", Title: "in hand"}, {Key: "cost", Title: "cost", Rank: 1},
		{Key: "use_by", Title: "use by"}, {Key: "days_left", Title: "days left"}, {Key: "frozen"}, kept,
		{Key: "frozen_by", Title: "if frozen", Rank: 2}, {Key: NotesKey, Title: "notes"},
	}, Empty: "No fresh food is in hand."}
	if h.q.Due.Given() {
		t.Empty = "No fresh food is to be used by then."
	}
	for i := range h.Lots {
		t.Rows = append(t.Rows, h.lotRow(&h.Lots[i]))
	}
	return field("fresh_lots", "Fresh food in hand, and the days left to dry it", t)
}

func (h *onHand) lotRow(l *figures.FreshLot) Row {
	f, lot := &h.g.Foods[l.Food], &h.g.Lots[l.Lot]
	return Row{Minor: l.Crumb, Notes: h.pastNotes(l), Cells: []Value{
		foodValue(f), TextOf(lot.Receipt()), textOrNone(lot.Number()), DateOf(lot.Date),
		UnitOf(f.Basis), AmountOf(l.Quantity, f.Basis), MoneyOf(l.Cost),
		DateOf(l.UseBy), h.daysTo(l.UseBy), YesNoOf(l.Frozen), onlyIf(l.Frozen, TextOf("frozen")), DateOf(l.FrozenBy),
	}}
}

// pastNotes asks what became of food that has turned.
func (h *onHand) pastNotes(l *figures.FreshLot) []string {
	if !l.Past {
		return nil
	}
	food := &h.g.Foods[l.Food]
	thing := h.g.Settings.Show().Typeable(l.Quantity, food.Basis) + " " + food.ID
	return []string{fmt.Sprintf("past its time: if it was thrown away, %s; if it was eaten, the same without %s",
		h.g.Settings.Say(advice.Do(advice.Take, thing).With("reason", ledger.Spoiled.String())), h.g.Settings.Say(advice.Only("spoiled")))}
}
