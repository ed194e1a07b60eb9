package report

import (
	"fmt"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// purposeValues say what a supply is enough for.
var purposeValues = [...]Value{figures.ForContainers: TextOf("containers"), figures.ForCycles: nameValue("cycles", "runs")}

func (h *onHand) supplies() Field {
	t := &Table{Columns: []Column{
		{Key: "supply", Title: "supply"}, {Key: "kind", Title: "kind", Rank: 4}, {Key: "owned", Title: "owned", Rank: 2},
		{Key: "in_store", Title: "full in store", Rank: 3}, {Key: "free", Title: "free"}, {Key: "uses_left"}, {Title: "uses left", Rank: 4}, {Key: "lasts", Title: "enough for"}, {Key: "of", Title: "more"},
		{Key: "cost", Title: "cost", Rank: 3}, {Key: NotesKey, Title: "notes"},
	}}
	for i := range h.Supplies {
		t.Rows = append(t.Rows, h.supplyRow(&h.Supplies[i]))
	}
	return field("supplies", "Supplies left", t)
}

func (h *onHand) supplyRow(s *figures.SupplyLeft) Row {
	supply := &h.g.Supplies[s.Supply]
	return Row{Notes: h.supplyNotes(s), Cells: []Value{
		nameValue(supply.ID, supply.Name), TextOf(supply.Kind.String()), piecesOf(s.Owned), onlyIf(supply.ServesAgain(), PlainOf(s.InStore)), piecesOf(s.Free), PlainOf(s.UsesLeft),
		QuotientOf(exact.RatioOf(s.UsesLeft), 0), optional(s.Lasts, PlainOf), purposeOf(s), MoneyOf(s.Cost),
	}}
}

// purposeOf says of what the supplies left are enough for so many.
func purposeOf(s *figures.SupplyLeft) Value {
	v := purposeValues[s.For]
	if n, known := s.Lasts.Get(); known && n.Cmp(exact.Int(1)) == 0 && s.For == figures.ForContainers {
		v.name = "container"
	} else if known && n.Cmp(exact.Int(1)) == 0 {
		v.name = "run"
	}
	return v
}

// supplyNotes say what is odd.
func (h *onHand) supplyNotes(s *figures.SupplyLeft) (notes []string) {
	supply := &h.g.Supplies[s.Supply]
	if s.Over {
		notes = append(notes, "more stand full in store than receipts cover")
	}
	if s.Away.Sign() > 0 {
		notes = append(notes, fmt.Sprintf("counted as returned: %s given away with packs. Record those that are not: %s", h.number(s.Away),
			h.g.Settings.Say(advice.Do(advice.AddDraw).With("item", supply.ID).With("quantity", s.Away.String()).With("reason", ledger.Given.String()))))
	}
	switch {
	case s.UsesLeft.Sign() > 0:
	case supply.Price.Given():
		notes = append(notes, "none is left by the receipts: what is used is charged at its list price")
	default:
		notes = append(notes, "none is left by the receipts, and it has no list price: its next use needs a receipt first")
	}
	return notes
}

func (h *onHand) machines() Field {
	t := &Table{Columns: []Column{
		{Key: "machine", Title: "machine"}, {Key: "cycles_done", Title: "cycles done"}, {Key: "cycles_left", Title: "cycles left"},
		{Key: "cost_left", Title: "wear left", Rank: 1}, {Key: "residual", Title: "residual", Rank: 2}, {Key: NotesKey, Title: "notes"},
	}}
	for _, m := range h.Machines {
		machine := &h.g.Machines[m.Machine]
		row := Row{Cells: []Value{nameValue(machine.ID, machine.Name), CountOf(m.Done), None, None, None}}
		if m.Bought {
			row.Cells = append(row.Cells[:2], PlainOf(m.Left), MoneyOf(m.Wear), MoneyOf(m.Residual))
		}
		switch {
		case !m.Bought:
			row.Notes = []string{"no receipt has it, so no wear is counted"}
		case m.Left.Sign() <= 0:
			row.Notes = []string{"all expected cycles are used up: no wear is counted any more"}
		}
		t.Rows = append(t.Rows, row)
	}
	return field("machines", "Machines", t)
}
