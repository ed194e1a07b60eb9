package report

import (
	"fmt"

	"putby/ledger"
	"putby/pricing/exact"
)

// A Gap is what the books had beyond a stocktake.
type Gap struct {
	move *ledger.Move
	g    *ledger.Ledger
}

// GapOf returns what the stocktake at a position in Records.Counts writes off,
// and false when it agrees with the books.
func GapOf(g *ledger.Ledger, count int) (Gap, bool) {
	for i := range g.Moves {
		if m := &g.Moves[i]; m.Count == count {
			return Gap{m, g}, true
		}
	}
	return Gap{}, false
}

// Fresh reports whether it is fresh food, which may well have been eaten.
func (w Gap) Fresh() bool { return w.move.Pack < 0 && w.move.Food >= 0 }

// Quantity is how much fresh food it is, cut to the places that a record may
// have.
func (w Gap) Quantity() exact.Quantity {
	return w.g.Foods[w.move.Food].Basis.Of(w.move.Quantity.Round(9, exact.Down))
}

// What says how much of what is gone, and what it cost: "4 of jar-1l, 7.92 CAD".
func (w Gap) What() string {
	p := phrasingOf(&w.g.Settings)
	what := ""
	switch m := w.move; {
	case m.Pack >= 0:
		n, _ := m.Quantity.Int64()
		what = counted(int(n), "container") + " of pack " + w.g.Records.Packs.At(m.Pack).ID
	case m.Food >= 0:
		what = p.amount(m.Quantity, w.g.Foods[m.Food].Basis) + " of " + ItemTitle(w.g, w.g.Foods[m.Food].ID)
	default:
		what = p.number(m.Quantity.Round(3, exact.HalfAway)) + " of " + ItemTitle(w.g, w.g.Supplies[m.Supply].ID)
	}
	return what + ", " + p.money(exact.RatioOf(w.move.Cost.Number()))
}

// Off says what is written off, and where that stands.
func (w Gap) Off() string {
	return "Missing and written off: " + w.What() + under(w.move) + "."
}

// IfEaten says, of fresh food, how to say that it is not missing.
func (w Gap) IfEaten(names Names) string {
	return fmt.Sprintf("If it was eaten or given away, say so: %[1]s eaten, or %[1]s given.", names.of("gone"))
}

// under says where in a month what is written off stands.
func under(m *ledger.Move) string {
	switch {
	case m.Pack >= 0:
		return " (in month under missing)"
	case m.Food < 0:
		return " (in month under supplies gone)"
	}
	return " (in month under fresh spoiled)"
}
