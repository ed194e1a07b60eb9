package report

import (
	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// fields are the parts of a trace: forward, what it is, back. People are not
// shown parts without rows.
func (t trace) fields() []Field {
	list := []Field{
		field("packs", "Packs that hold it", t.packTable()),
		field("draws", "Where it went", t.drawTable()),
		field("in_hand", "Still in hand", t.handTable()),
		field("lines", "The receipt", t.lineTable()),
		field("batches", "Batches", t.batchTable()),
		field("runs", "Runs", t.runTable()),
		field("sources", "What it came from", t.sourceTable()),
		field("electricity", "Electricity", t.bandTable()),
	}
	for i := range list {
		if tab := list[i].Node.(*Table); len(tab.Rows) == 0 && tab.Empty == "" {
			list[i].Title = ""
		}
	}
	return list
}

func (t trace) lineTable() *Table {
	tab := &Table{Columns: []Column{
		{Key: "receipt", Title: "receipt"}, {Key: "line", Title: "line"}, {Key: "date", Title: "date", Rank: 1}, {Key: "shop", Title: "shop", Rank: 2},
		{Key: "kind", Title: "kind", Rank: 2}, {Key: "item", Title: "what"}, {Key: "cost", Title: "cost"}, {Key: "where", Title: "where", Rank: 3}, {Key: NotesKey},
	}}
	for _, i := range t.Lines {
		r := t.g.Receipts.At(i)
		row := Row{Notes: Stated(t.g, t.g.SpendNotes(i)), Cells: []Value{
			TextOf(r.Receipt), textOrNone(r.Number), DateOf(r.Date), textOrNone(r.Shop), TextOf(r.Kind.String()), itemValue(t.g, r.Item),
			MoneyOf(t.g.Spends[i]), where(ledger.ReceiptsFile, r.Line),
		}}
		switch _, machine := t.g.FindMachine(r.Item); {
		case r.Kind == ledger.ServiceLine && machine && len(row.Notes) == 0:
			row.Notes = append(row.Notes, "a repair: it is in the wear of the runs after it, and is not followed")
		case r.Kind >= ledger.ServiceLine:
			row.Notes = append(row.Notes, "spending only: it is in no pack")
		}
		tab.Rows = append(tab.Rows, row)
	}
	return tab
}

func (t trace) packTable() *Table {
	tab := &Table{Columns: []Column{
		{Key: "pack", Title: "pack"}, {Key: "item", Title: "food"}, {Key: "run", Title: "run", Rank: 2}, {Key: "date", Title: "packed on", Rank: 3},
		{Key: "count", Title: "count", Rank: 4}, {Key: "in_store", Title: "in store"}, {Key: "used", Title: "used"}, {Key: "given", Title: "given"},
		{Key: "spoiled", Title: "spoiled", Rank: 1}, {Key: "missing", Title: "missing", Rank: 1}, {Key: "place", Title: "place"},
		{Key: "best_by", Title: "best by", Rank: 3}, {Key: "where", Title: "where", Rank: 5},
	}, Empty: "None."}
	for _, p := range t.Packs {
		pack, cost, gone := t.g.Records.Packs.At(p.Pack), &t.g.Packs[p.Pack], p.Gone
		tab.add(TextOf(pack.ID), itemValue(t.g, pack.Item), textOrNone(pack.Run), DateOf(pack.Date), CountOf(pack.Count), CountOf(cost.Left()),
			CountOf(gone[ledger.Used]), CountOf(gone[ledger.Given]), CountOf(gone[ledger.Spoiled]), CountOf(gone[ledger.Missing]),
			textOrNone(pack.Place), DateOf(cost.BestBy), where(ledger.PacksFile, pack.Line))
	}
	return tab
}

// drawTable lists every draw from the packs, and of food and supplies from the
// lots, that are traced.
func (t trace) drawTable() *Table {
	tab := &Table{Columns: []Column{
		{Key: "date", Title: "date"}, {Key: "pack", Title: "pack"}, {Key: "item", Title: "food", Rank: 1}, {Key: "quantity", Title: "amount"},
		{Key: "unit", Title: "unit"}, {Key: "reason", Title: "reason"}, {Key: "note", Title: "note"}, {Key: "where", Title: "where", Rank: 2},
	}}
	for _, m := range t.Moves {
		tab.Rows = append(tab.Rows, t.drawRow(&t.g.Moves[m.Move], m.Quantity))
	}
	return tab
}

func (t trace) drawRow(m *ledger.Move, n exact.Number) Row {
	pack, item, basis, uses := None, "", exact.NoUnit, "uses"
	switch {
	case m.Pack >= 0:
		record := t.g.Records.Packs.At(m.Pack)
		pack, item, uses = TextOf(record.ID), record.Item, "containers"
	case m.Food >= 0:
		item, basis = t.g.Foods[m.Food].ID, t.g.Foods[m.Food].Basis
	default:
		item = t.g.Supplies[m.Supply].ID
	}
	amount, unit := countedIn(n, basis, uses)
	note, place := t.recordOf(m)
	return Row{Cells: []Value{DateOf(m.Date), pack, itemValue(t.g, item), amount, unit, TextOf(m.Reason.String()), note, place}}
}

// recordOf returns the note and the place of the record behind a move.
func (t trace) recordOf(m *ledger.Move) (note, place Value) {
	if m.Draw >= 0 {
		d := t.g.Draws.At(m.Draw)
		return textOrNone(d.Note), where(ledger.DrawsFile, d.Line)
	}
	if m.Row >= 0 {
		r := t.g.Receipts.At(m.Row)
		return textOrNone(r.Note()), where(ledger.ReceiptsFile, r.Line)
	}
	c := &t.g.Counts[m.Count]
	return textOrNone(c.Note), where(ledger.CountsFile, c.Line)
}

// handTable lists what is left of the lots that are traced.
func (t trace) handTable() *Table {
	tab := &Table{Columns: []Column{
		{Key: "item", Title: "what"}, {Key: "quantity", Title: "left"}, {Key: "unit", Title: "unit"}, {Key: "lot", Title: "of"},
	}}
	for _, i := range t.InHand {
		lot := &t.g.Lots[i]
		basis, uses := exact.NoUnit, "uses"
		if f, ok := t.g.FindFood(lot.Item()); ok {
			basis = t.g.Foods[f].Basis
		} else if _, ok := t.g.FindMachine(lot.Item()); ok {
			uses = "cycles"
		}
		left, unit := countedIn(lot.Left, basis, uses)
		tab.add(itemValue(t.g, lot.Item()), left, unit, TextOf(lotPlace(t.g, lot)))
	}
	return tab
}

func (t trace) batchTable() *Table {
	tab := &Table{Columns: []Column{
		{Key: "batch", Title: "batch"}, {Key: "date", Title: "date"}, {Key: "item", Title: "food"}, {Key: "made", Title: "made"}, {Key: "unit", Title: "unit"},
		{Key: "where", Title: "where", Rank: 1},
	}}
	for _, i := range t.Batches {
		b := &t.g.Batches[i]
		f, _ := t.g.FindFood(b.Item)
		unit := t.g.Foods[f].Basis
		tab.add(TextOf(b.ID), DateOf(b.Date), itemValue(t.g, b.Item), AmountOf(t.g.Batch[i].Made, unit), UnitOf(unit), where(ledger.BatchesFile, b.Line))
	}
	return tab
}

func (t trace) runTable() *Table {
	tab := &Table{Columns: []Column{
		{Key: "run", Title: "run"}, {Key: "date", Title: "date"}, {Key: "machine", Title: "machine", Rank: 2}, {Key: "item", Title: "food"},
		{Key: "loaded", Title: "loaded"}, {Key: "of_it", Title: "of it", Rank: 1}, {Key: "unit", Title: "unit"}, {Key: "where", Title: "where", Rank: 3}, {Key: NotesKey},
	}}
	for _, p := range t.Passages {
		run, cost := &t.g.Records.Runs[p.Run], &t.g.Runs[p.Run]
		item := &cost.Items[p.Item]
		food := &t.g.Foods[item.Food]
		amount := optional(p.Amount, func(n exact.Number) Value { return AmountOf(n, food.Basis) })
		tab.Rows = append(tab.Rows, Row{Notes: t.runNotes(p), Cells: []Value{
			TextOf(run.ID), DateOf(cost.Date), itemValue(t.g, run.Machine), foodValue(food), AmountOf(item.Loaded, food.Basis), amount, UnitOf(food.Basis), where(ledger.RunsFile, run.Line),
		}})
	}
	return tab
}

func (t trace) runNotes(p figures.Passage) (notes []string) {
	switch {
	case t.g.Records.Runs[p.Run].Spoiled:
		notes = append(notes, "the run spoiled: all of it is lost")
	case t.g.Records.Runs[p.Run].Running:
		notes = append(notes, "the run is not finished: it is in the machine")
	case p.Waits:
		notes = append(notes, "some of it, or all, is in no pack yet")
	}
	if p.As > figures.InFood {
		notes = append(notes, "not in the food: "+roleWords[p.As])
	}
	return notes
}

// roleWords say what something was drawn for.
var roleWords = [...]string{
	figures.InFood: "food", figures.OnPack: "on the pack", figures.OfTheMachine: "a cycle of the machine's life", figures.InCycle: "in the run",
}

func (t trace) sourceTable() *Table {
	tab := &Table{Columns: []Column{
		{Key: "for", Title: "for", Rank: 2}, {Key: "item", Title: "what"}, {Key: "quantity", Title: "amount"}, {Key: "unit", Title: "unit", Rank: 1},
		{Key: "source", Title: "from"}, {Key: "line", Title: "line"}, {Key: "date", Title: "of", Rank: 1}, {Key: "shop", Title: "shop", Rank: 2},
		{Key: "via", Title: "by way of", Rank: 1}, {Key: "where", Title: "where", Rank: 3},
	}}
	for i := range t.Sources {
		tab.add(t.sourceCells(&t.Sources[i])...)
	}
	return tab
}

func (t trace) sourceCells(s *figures.Source) []Value {
	head := []Value{TextOf(roleWords[s.For]), itemValue(t.g, s.Item), AmountOf(s.Quantity, s.Unit), onlyIf(s.Unit != exact.NoUnit, UnitOf(s.Unit))}
	if s.Lot == ledger.ListPrice {
		return append(head, TextOf("list price"), None, None, None, textOrNone(s.Via), None)
	}
	lot := &t.g.Lots[s.Lot]
	if lot.Batch >= 0 {
		return append(head, TextOf("batch "+lot.Receipt()), None, DateOf(lot.Date), None, textOrNone(s.Via), where(ledger.BatchesFile, t.g.Batches[lot.Batch].Line))
	}
	r := t.g.Receipts.At(int(lot.Row))
	return append(head, TextOf(lot.Receipt()), textOrNone(lot.Number()), DateOf(lot.Date), textOrNone(r.Shop), textOrNone(s.Via), where(ledger.ReceiptsFile, r.Line))
}

// bandTable lists the tariff bands that the electricity fell in.
func (t trace) bandTable() *Table {
	tab := &Table{Columns: []Column{
		{Key: "run", Title: "run"}, {Key: "tariff", Title: "tariff"}, {Key: "kwh", Title: "kWh"}, {Key: "rate", Title: "rate"}, {Key: "tax", Title: "tax %"},
		{Key: "where", Title: "where"},
	}}
	for _, b := range t.Bands {
		rate := PlainOf(b.Band.Rate)
		if mean, ok := b.MeanRate().Get(); ok {
			rate = QuotientOf(mean, 6)
		}
		tab.add(TextOf(t.g.Records.Runs[b.Run].ID), TextOf(b.Tariff), QuotientOf(b.Energy, 3), rate, PlainOf(b.Band.Tax), where(ledger.TariffsFile, b.Band.Line))
	}
	return tab
}
