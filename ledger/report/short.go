package report

import (
	"fmt"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/pricing/exact"
)

// shortNotes says of a run's food that is packed in part how far, and what that
// does to its figures.
func shortNotes(g *ledger.Ledger, item *ledger.ItemCost) []string {
	if !item.Short {
		return nil
	}
	return []string{shortNote(g, item)}
}

func shortNote(g *ledger.Ledger, item *ledger.ItemCost) string {
	s, unit := phrasingOf(&g.Settings), g.Foods[item.Food].Basis
	return fmt.Sprintf("%s of about %s packed so far, and its whole cost is on that: pack the rest, or say that it is all (%s)",
		s.amount(item.Made, unit), s.amount(item.Usual.Round(exact.QuantityPlaces, exact.HalfEven), unit), s.show.Say(advice.Do(advice.Edit, "pack", g.Records.Packs.At(int(item.Packs[len(item.Packs)-1])).ID).With("packed", "all")))
}
