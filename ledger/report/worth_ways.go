package report

import (
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
			cost, perUnit = a.guess(cost, a.shown), a.guess(perUnit, a.shown)
		}
		t.Rows = append(t.Rows, Row{Cells: []Value{TextOf(w.Kind.String()), TextOf(short[w.Kind]), cost, perUnit}})
	}
	return t
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
