package report

import (
	"fmt"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// GapWords says how much of what is gone, and what it cost: "4 of jar-1l, 7.92 CAD".
func GapWords(g *ledger.Ledger, m figures.Gap) string {
	p := phrasingOf(&g.Settings)
	what := ""
	switch {
	case m.Pack >= 0:
		n, _ := m.Quantity.Int64()
		what = counted(int(n), "container") + " of pack " + g.Records.Packs.At(m.Pack).ID
	case m.Food >= 0:
		what = p.amount(m.Quantity, g.Foods[m.Food].Basis) + " of " + ItemTitle(g, g.Foods[m.Food].ID)
	default:
		what = p.number(m.Quantity.Round(3, exact.HalfAway)) + " of " + ItemTitle(g, g.Supplies[m.Supply].ID)
	}
	return what + ", " + p.money(m.Cost.Ratio())
}

// WrittenOff says what is written off, and where that stands.
func WrittenOff(g *ledger.Ledger, m figures.Gap) string {
	return "Missing and written off: " + GapWords(g, m) + under(m.Move) + "."
}

// IfEaten says of fresh food that is gone how to say that it is not missing.
func IfEaten(names Names) string {
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
