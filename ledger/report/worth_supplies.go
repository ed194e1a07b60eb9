package report

import (
	"cmp"
	"fmt"
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// A supplyNeed is how many pieces of a supply are needed to pack.
type supplyNeed struct {
	supply int
	pieces exact.Ratio
}

// needs are what so many containers take, by the piece.
func (f *facts) needs(containers int) (list []supplyNeed) {
	for _, u := range f.with {
		i, _ := f.g.FindSupply(u.Supply)
		pieces := exact.RatioOf(u.Number.Mul(whole(containers)))
		if s := &f.g.Supplies[i]; !s.ServesAgain() {
			pieces = pieces.Quo(wholeRatio(s.Uses))
		}
		list = addNeed(list, supplyNeed{i, pieces})
	}
	return list
}

// piecesOf is a number of them: jars whole, a label of a roll a part of one.
func piecesOf(n exact.Ratio) Value {
	if number, ends := n.Number(); ends && number.Places() <= 3 {
		return PlainOf(number)
	}
	return QuotientOf(n, 2)
}

// addNeed adds what is needed of a supply to what is needed already.
func addNeed(list []supplyNeed, n supplyNeed) []supplyNeed {
	if n.pieces.IsZero() {
		return list
	}
	at := slices.IndexFunc(list, func(have supplyNeed) bool { return have.supply == n.supply })
	if at < 0 {
		return append(list, n)
	}
	list[at].pieces = list[at].pieces.Add(n.pieces)
	return list
}

// short is how many whole pieces must be bought beside those free now.
func (n supplyNeed) short(g *ledger.Ledger) int {
	more, _ := n.pieces.Sub(g.Pieces(n.supply).Free).Ceil().Int64()
	return max(int(more), 0)
}

// packingField lists what is needed beside what is free.
func packingField(g *ledger.Ledger, needs []supplyNeed) Field {
	t := &Table{Columns: []Column{{Key: "supply"}, {Title: "supply"}, {Key: "need", Title: "needed"}, {Key: "free", Title: "free now"}, {Key: "buy", Title: "buy"}}}
	for _, n := range needs {
		s := &g.Supplies[n.supply]
		t.Rows = append(t.Rows, Row{Cells: []Value{
			TextOf(s.ID), TextOf(cmp.Or(s.Name, s.ID)), piecesOf(n.pieces), piecesOf(g.Pieces(n.supply).Free), CountOf(n.short(g)),
		}})
	}
	title := ""
	if len(needs) > 0 {
		title = "To pack it"
	}
	return field("packing", title, t)
}

// shortWords say what must be bought to pack it all, or nothing.
func shortWords(g *ledger.Ledger, needs []supplyNeed) string {
	say := phrasing{g.Settings.Currency, newDoc(g, "").Show}
	number := func(r exact.Ratio) string { return piecesOf(r).Shown(say.currency, say.show) }
	var words []string
	for _, n := range needs {
		if short := n.short(g); short > 0 {
			s := &g.Supplies[n.supply]
			words = append(words, fmt.Sprintf("%d × %s (%s needed, %s free)", short, cmp.Or(s.Name, s.ID), number(n.pieces), number(g.Pieces(n.supply).Free)))
		}
	}
	if words == nil {
		return ""
	}
	return fmt.Sprintf(" To pack it all, buy %s.", listed(words))
}
