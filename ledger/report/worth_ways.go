package report

import (
	"fmt"

	"putby/pricing"
	"putby/pricing/exact"
)

// waysTable sets other ways to the amount of the row shown side by side.
func (a *answer) waysTable() *Table {
	t := &Table{Columns: []Column{
		{Key: "way"}, {Title: "way"}, {Key: "cost", Title: "cost"}, {Key: "per_unit", Title: "per unit"},
	}}
	short := map[pricing.WayKind]string{
		pricing.BuyFresh: "fresh from the shelf", pricing.BuyPreserved: "the shop's preserved",
		pricing.BuyForFresh: "on offer for fresh use only", pricing.BuyAndDry: "on offer, dried",
	}
	var preserved exact.Opt[exact.Ratio]
	if p, ok := a.g.ShelfPrice(a.dried, a.day, pricing.Preserved); ok {
		preserved = exact.Some(p.PerUnit)
	}
	for _, w := range a.Ways(a.shown, preserved) {
		cost, perUnit := MoneyQuotient(w.Cost), PriceOf(w.PerUnit, a.unit())
		if w.Kind == pricing.BuyAndDry {
			cost, perUnit = a.guess(cost), a.guess(perUnit)
		}
		t.Rows = append(t.Rows, Row{Cells: []Value{TextOf(w.Kind.String()), TextOf(short[w.Kind]), cost, perUnit}})
	}
	return t
}

// A filling is the room in the last cycle and what would fill it.
type filling struct {
	pricing.PartLoad
	food  int          // in hand, or -1 for any
	takes exact.Number // of it
	saves exact.Money  // its own cycle, less the electricity that it adds
}

// fillRoom finds what filling the room in the last cycle with a second food
// saves. With food in hand that fits, it is that; else any that fills it.
func (a *answer) fillRoom() (filling, bool) {
	part, ok := a.PartLoad(a.shown)
	if !ok {
		return filling{}, false
	}
	food, takes, fills := a.second(part)
	var added exact.Money
	if charge := a.sale.Electricity; charge != nil {
		added = charge(part.Cycle, part.Load.Add(fills)).Sub(charge(part.Cycle, part.Load))
	}
	return filling{part, food, takes, a.CycleAlone(a.shown, fills).Sub(added)}, true
}

// partLoad lays it out for machines; people read it in words.
func (a *answer) partLoad() Field {
	f, ok := a.fillRoom()
	if !ok {
		return Field{"part_load", "", None}
	}
	with, takes := None, None
	if f.food >= 0 {
		food := &a.g.Foods[f.food]
		with, takes = TextOf(food.ID), AmountOf(f.takes, food.Basis)
	}
	return Field{"part_load", "", Object{
		{"cycle", "", CountOf(f.Cycle + 1)}, {"load", "", AmountOf(f.Load, a.unit())}, {"spare", "", AmountOf(f.Spare, a.unit())},
		{"with", "", with}, {"with_amount", "", takes}, {"saves", "", MoneyOf(f.saves)},
	}}
}

// roomWords say it, where the room is worth a second food.
func (a *answer) roomWords() string {
	f, ok := a.fillRoom()
	if !ok || a.Best.Packages == 0 || f.Spare.Mul(whole(10)).Less(a.sale.Load) {
		return ""
	}
	s, what := a.say(), "a second food"
	if f.food >= 0 {
		what = fmt.Sprintf("the %s of %s in hand", s.amount(f.takes, a.g.Foods[f.food].Basis), a.g.Foods[f.food].ID)
	}
	return fmt.Sprintf("The last cycle has room for %s more: filling it with %s, instead of a cycle of its own, saves %s.",
		s.amount(f.Spare, a.unit()), what, s.money(ratioOf(f.saves)))
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
