package report

import (
	"cmp"
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// This file lists the food in hand that is not dried: for people lot by lot, the
// soonest to turn first, without crumbs; for machines a row a food as well.

// A freshFood is a food in hand and what is in hand of each of its lots.
type freshFood struct {
	food    int
	parts   []ledger.FreshPart
	soonest ledger.FreshPart
}

// inFridge lists the foods of which some is in hand, the soonest to turn
// first.
func (h *holdings) inFridge() []freshFood {
	var list []freshFood
	for i := range h.g.Foods {
		if !h.scope.Wants(i) {
			continue
		}
		f := freshFood{food: i, parts: h.g.FreshParts(i)}
		var any bool
		if f.soonest, any = ledger.SoonestToTurn(f.parts); any {
			list = append(list, f)
		}
	}
	slices.SortStableFunc(list, func(a, b freshFood) int { return byUseBy(a.soonest, b.soonest) })
	return list
}

// byUseBy puts what turns soonest first, and what nobody knows of last.
func byUseBy(a, b ledger.FreshPart) int {
	if a.UseBy == exact.NoDate || b.UseBy == exact.NoDate {
		return cmp.Compare(b.UseBy, a.UseBy)
	}
	return cmp.Compare(a.UseBy, b.UseBy)
}

// fresh are the fields about fresh food.
func (h *holdings) fresh() []Field {
	list := h.inFridge()
	for _, f := range list {
		if !f.soonest.Crumb && h.due(f.soonest.UseBy) {
			h.foods = append(h.foods, f.food)
		}
	}
	return []Field{
		field("fresh", "", h.freshByFood(list)),
		field("fresh_lots", "Fresh food in hand, and the days left to dry it", h.freshByLot(list)),
	}
}

// freshByFood has a row a food, for machines.
func (h *holdings) freshByFood(list []freshFood) *Table {
	t := &Table{Columns: []Column{
		{Key: "item"}, {Key: "unit"}, {Key: "quantity"}, {Key: "cost"}, {Key: "use_by"}, {Key: "days_left"}, {Key: "frozen_by"}, {Key: NotesKey},
	}}
	for _, f := range list {
		if !h.due(f.soonest.UseBy) {
			continue
		}
		food, stock := &h.g.Foods[f.food], h.g.FoodStock(f.food)
		t.Rows = append(t.Rows, Row{Notes: h.freshNotes(f.soonest), Cells: []Value{
			foodValue(food), UnitOf(food.Basis), AmountOf(stock.Left, food.Basis), MoneyOf(stock.Cost),
			DateOf(f.soonest.UseBy), h.daysTo(f.soonest.UseBy), h.ifFrozen(f.food, f.soonest),
		}})
	}
	return t
}

// A lotInHand is what is in hand of a lot of a food.
type lotInHand struct {
	food int
	ledger.FreshPart
}

// freshByLot has a row a lot, and two for one that is partly frozen.
func (h *holdings) freshByLot(list []freshFood) *Table {
	var lots []lotInHand
	kept := Column{} // said to people where some is frozen
	for _, f := range list {
		for _, p := range f.parts {
			if !h.due(p.UseBy) {
				continue
			}
			lots = append(lots, lotInHand{f.food, p})
			if p.Frozen && !p.Crumb {
				kept.Title = "kept"
			}
		}
	}
	slices.SortStableFunc(lots, func(a, b lotInHand) int { return byUseBy(a.FreshPart, b.FreshPart) })
	t := &Table{Columns: []Column{
		{Key: "item", Title: "item"}, {Key: "receipt"}, {Key: "line"}, {Key: "date", Title: "bought", Rank: 3},
		{Key: "unit", Title: "unit"}, {Key: "quantity", Title: "in hand"}, {Key: "cost", Title: "cost"},
		{Key: "use_by", Title: "use by", Rank: 1}, {Key: "days_left", Title: "days left"}, {Key: "frozen"}, kept,
		{Key: "frozen_by", Title: "if frozen", Rank: 2}, {Key: NotesKey, Title: "notes"},
	}, Empty: "No fresh food is in hand."}
	if h.q.Due.Given() {
		t.Empty = "No fresh food is due."
	}
	for _, l := range lots {
		t.Rows = append(t.Rows, h.lotRow(l))
	}
	return t
}

// lotRow is the row of what is in hand of a lot.
func (h *holdings) lotRow(l lotInHand) Row {
	f, lot, p, kept := &h.g.Foods[l.food], &h.g.Lots[l.Lot], l.FreshPart, None
	if p.Frozen {
		kept = TextOf("frozen")
	}
	return Row{Minor: p.Crumb, Notes: h.freshNotes(p), Cells: []Value{
		foodValue(f), TextOf(lot.Receipt()), textOrNone(lot.Number()), DateOf(lot.Date),
		UnitOf(f.Basis), AmountOf(p.Quantity, f.Basis), MoneyOf(p.Cost),
		DateOf(p.UseBy), h.daysTo(p.UseBy), YesNoOf(p.Frozen), kept, h.ifFrozen(l.food, p),
	}}
}

// ifFrozen is the last day of what is not frozen yet, if it were.
func (h *holdings) ifFrozen(food int, p ledger.FreshPart) Value {
	days, ok := h.g.Foods[food].FrozenDays.Get()
	if !ok || p.Frozen {
		return None
	}
	return DateOf(h.g.Lots[p.Lot].Date.AddDays(days))
}

// freshNotes warns of what has turned, unless it is a crumb.
func (h *holdings) freshNotes(p ledger.FreshPart) []string {
	if p.Crumb || p.UseBy == exact.NoDate || p.UseBy >= h.day {
		return nil
	}
	return []string{"past its time: if it was eaten, frozen or thrown away, record that by putby draw add, frozen add or count add"}
}
