package report

import (
	"fmt"
	"testing"

	"putby/ledger"
	"putby/pricing/exact"
)

// Records are told apart by what they hold, not by their lines; what stands
// between two that differ and is the same is left out.
func TestDiffering(t *testing.T) {
	draw := func(line int, pack string, n int64) ledger.Draw {
		return ledger.Draw{Line: line, Pack: pack, Quantity: exact.Ea.Of(exact.Int(n))}
	}
	before := &ledger.Records{Draws: ledger.DrawList{}.With(draw(2, "a", 1), draw(3, "b", 1), draw(4, "c", 1), draw(5, "d", 1))}
	after := &ledger.Records{Draws: ledger.DrawList{}.With(draw(7, "a", 1), draw(8, "b", 2), draw(9, "c", 1), draw(10, "e", 1), draw(11, "d", 1))}
	gone, come, ok := Differing("draw", before, after)
	if got := fmt.Sprint(gone, come, ok); got != "[{draw 1 0}] [{draw 1 0} {draw 3 0}] true" {
		t.Error(got)
	}
	if gone, come, _ := Differing("draw", before, before); gone != nil || come != nil {
		t.Error("nothing differs:", gone, come)
	}
	bands := func(rate int64) *ledger.Records {
		r := &ledger.Records{Tariffs: make([]ledger.Band, 1)}
		r.Tariffs[0].Rate = exact.Int(rate)
		return r
	}
	if gone, come, _ := Differing("tariff", bands(1), bands(2)); len(gone) != 1 || len(come) != 1 {
		t.Error("a band's own fields count:", gone, come)
	}
	if _, _, ok := Differing("setting", before, after); ok {
		t.Error("there are no sentences for settings")
	}
}
