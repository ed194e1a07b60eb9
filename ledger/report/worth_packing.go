package report

import (
	"fmt"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// piecesOf is a number of them: jars whole, a label of a roll a part of one.
func piecesOf(n exact.Ratio) Value {
	if number, ends := n.Number(); ends && number.Places() <= 3 {
		return PlainOf(number)
	}
	return QuotientOf(n, 2)
}

// packingField lists what is needed beside what is free.
func packingField(g *ledger.Ledger, needs []figures.SupplyNeed) Field {
	t := &Table{Columns: []Column{{Key: "supply"}, {Title: "supply"}, {Key: "need", Title: "needed"}, {Key: "free", Title: "free now"}, {Key: "buy", Title: "buy"}}}
	for _, n := range needs {
		s := &g.Supplies[n.Supply]
		t.add(TextOf(s.ID), TextOf(s.Title()), piecesOf(n.Needed), piecesOf(n.Free), CountOf(n.Short()))
	}
	return field("packing", titleOf(len(needs), "To pack it"), t)
}

// shortWords say what must be bought to pack it all, or nothing.
func (r reporting) shortWords(needs []figures.SupplyNeed) string {
	number := func(n exact.Ratio) string { return piecesOf(n).Shown(r.currency, r.show) }
	var words []string
	for _, n := range needs {
		if short := n.Short(); short > 0 {
			s := &r.g.Supplies[n.Supply]
			words = append(words, fmt.Sprintf("%d × %s (%s needed, %s free)", short, s.Title(), number(n.Needed), number(n.Free)))
		}
	}
	if words == nil {
		return ""
	}
	return fmt.Sprintf(" To pack it all, buy %s.", Listed(words))
}
