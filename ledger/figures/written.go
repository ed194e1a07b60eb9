package figures

import (
	"putby/ledger"
	"putby/pricing/exact"
)

// SpentBy is what rows of receipts come to, by their positions.
func SpentBy(g *ledger.Ledger, rows []int) (sum exact.Money) {
	for _, row := range rows {
		sum = sum.Add(g.Spends[row])
	}
	return sum
}

// PieceCost is what one piece cost of a supply of which a row of a receipt bought
// several, in all; not given of any other row.
func PieceCost(g *ledger.Ledger, row int) (each exact.Opt[exact.Ratio]) {
	r := g.Receipts.At(row)
	if n := r.Pieces(); r.Kind == ledger.SupplyLine && exact.Int(1).Less(n) {
		each = exact.Some(g.Spends[row].Per(n))
	}
	return each
}

// MoveOf is what the draw at a position in Records.Draws took out; false where it took
// nothing.
func MoveOf(g *ledger.Ledger, draw int) (*ledger.Move, bool) {
	return lastMove(g, func(m *ledger.Move) bool { return m.Draw == draw })
}

// lastMove finds a move; the newest are looked at first.
func lastMove(g *ledger.Ledger, is func(*ledger.Move) bool) (*ledger.Move, bool) {
	for i := len(g.Moves) - 1; i >= 0; i-- {
		if is(&g.Moves[i]) {
			return &g.Moves[i], true
		}
	}
	return nil, false
}

// RunCosts are what a run cost, and what of it was lost.
func RunCosts(cost *ledger.RunCost) (all, lost ledger.Costs) {
	for i := range cost.Items {
		item := &cost.Items[i]
		all, lost = all.Add(item.Good).Add(*item.Lost), lost.Add(*item.Lost)
	}
	return all, lost
}
