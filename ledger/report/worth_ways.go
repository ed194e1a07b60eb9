package report

import (
	"putby/pricing"
	"putby/pricing/exact"
)

// waysTable sets other ways to the amount of the row shown side by side.
func (a *answer) waysTable() *Table {
	t := &Table{Columns: []Column{
		{Key: "way", Title: "way"}, {Key: "cost", Title: "cost"}, {Key: "per_unit", Title: "per unit"},
	}}
	var preserved exact.Opt[exact.Ratio]
	if p, ok := a.g.ShelfPrice(a.dried, a.day, pricing.Preserved); ok {
		preserved = exact.Some(p.PerUnit)
	}
	for _, w := range a.Ways(a.shown, preserved) {
		cost, perUnit := MoneyQuotient(w.Cost), PriceOf(w.PerUnit, a.unit())
		if w.Kind == pricing.BuyAndDry {
			cost, perUnit = a.guess(cost), a.guess(perUnit)
		}
		t.Rows = append(t.Rows, Row{Cells: []Value{TextOf(w.Kind.String()), cost, perUnit}})
	}
	return t
}

// partLoad is the room in the last cycle, and what filling it with a second
// food saves: that food's own cycle, less the electricity that it adds. With
// food in hand that fits, it is that; else any food that fills the room.
func (a *answer) partLoad() Field {
	part, ok := a.PartLoad(a.shown)
	if !ok {
		return Field{"part_load", "", None}
	}
	second, takes, fills := a.second(part)
	var added exact.Money
	if charge := a.sale.Electricity; charge != nil {
		added = charge(part.Cycle, part.Load.Add(fills)).Sub(charge(part.Cycle, part.Load))
	}
	saves := a.CycleAlone(a.shown, fills).Sub(added)
	o := Object{
		{"cycle", "cycle", CountOf(part.Cycle + 1)},
		{"load", "load", AmountOf(part.Load, a.unit())},
		{"spare", "room left", AmountOf(part.Spare, a.unit())},
	}
	if second >= 0 {
		food := &a.g.Foods[second]
		o = append(o, Field{"with", "food in hand", TextOf(food.ID)}, Field{"with_amount", "of it", AmountOf(takes, food.Basis)})
	}
	o = append(o, Field{"saves", "filling it saves", a.guess(MoneyOf(saves))})
	return Field{"part_load", "Room in the last cycle for a second food", o}
}

// second is the food in hand that fills most of the room, how much of it, and
// how much of this food's load that stands for. Without one it is -1, and the
// whole room.
func (a *answer) second(part pricing.PartLoad) (food int, takes, fills exact.Number) {
	food, fills = -1, exact.Number{}
	for _, w := range a.waits {
		if w.food == a.dried {
			continue
		}
		// The last, part-filled cycle of the food waiting moves in, if it fits.
		rest := w.amount.Sub(w.load.Mul(whole(w.cycles - 1)))
		stands := rounded(rest.Over(w.load).Times(a.sale.Load))
		if !part.Spare.Less(stands) && fills.Less(stands) {
			food, takes, fills = w.food, rest, stands
		}
	}
	if food < 0 {
		fills = part.Spare
	}
	return food, takes, fills
}

// visitsTable says what to buy at each visit.
func (a *answer) visitsTable() *Table {
	t := &Table{Columns: []Column{{Key: "visit", Title: "visit"}, {Key: "price", Title: "price"},
		{Key: "limit", Title: "at most"}, {Key: "buy", Title: "buy"}}}
	if a.purchase.round == nil {
		return t
	}
	for i, n := range a.purchase.round.Take(a.Best.Packages) {
		v, limit := a.purchase.visits[i], None
		if most, ok := v.Limit.Get(); ok {
			limit = CountOf(most)
		}
		t.Rows = append(t.Rows, Row{Cells: []Value{CountOf(i + 1), MoneyOf(exact.MoneyOf(v.Price)), limit, CountOf(n)}})
	}
	return t
}
