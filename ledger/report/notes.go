package report

import (
	"fmt"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/figures"
	"putby/pricing"
	"putby/pricing/exact"
)

// addFigures adds notes of figures in sentences.
func (d *noteList) addFigures(g *ledger.Ledger, notes figures.Notes) {
	for _, n := range notes {
		d.add(noteWords(g, n))
	}
}

// noteWords says a note of figures in a sentence that stands below a report.
func noteWords(g *ledger.Ledger, n figures.Note) string {
	title, say := func() string { return g.Foods[n.Food].Title() }, phrasingOf(&g.Settings)
	switch n.Kind {
	case figures.NoShelfPrice:
		return fmt.Sprintf("no %v shelf price of %s is known", n.Form, title())
	case figures.PriceOfBatch:
		return noShopsPrice(g, n.Food) + ": it is valued at what its latest batch took, at the shelf prices of that"
	case figures.PriceOfLaterDay:
		return fmt.Sprintf("%s is valued at a shelf price of a later day, %s, where none is earlier", title(), say.day(n.Date))
	case figures.UsedUnpriced:
		return fmt.Sprintf("no fresh shelf price of %s is known: what was used of it counts neither as saved nor as dearer", title())
	case figures.EarningUnpriced:
		return fmt.Sprintf("no fresh shelf price of %s is known: what it earns is left out", title())
	case figures.PackedInPart:
		return shortNote(g, g.Runs[n.Run].Item(n.Food))
	case figures.StillRunning:
		run := &g.Records.Runs[n.Run]
		return fmt.Sprintf("run %s is running since %s: what is recorded so far counts", run.ID, say.moment(run.Start))
	case figures.AwaitsPacking:
		return fmt.Sprintf("%s of run %s awaits packing and is left out", title(), g.Records.Runs[n.Run].ID)
	case figures.RecordsEnd:
		return fmt.Sprintf("records count up to %s; later days stand empty", say.day(n.Date))
	case figures.RunsEarnNothing:
		return "an average run earns nothing: more of the same do not pay sooner, other foods may"
	case figures.OnlyLosses:
		return title() + " has no pack, only losses, and is left out"
	}
	return statedWords(g, n.Of)
}

// noShopsPrice says that no shop's price of a fresh food is known, and which is of
// its preserved form.
func noShopsPrice(g *ledger.Ledger, food int) string {
	title := g.Foods[food].Title()
	if ask, ok := g.ShelfOf(food).At(g.AsOf, pricing.Regular, pricing.Preserved); ok {
		return fmt.Sprintf("no shop's price of fresh %s is known (preserved: %s)", title, phrasingOf(&g.Settings).price(ask.PerUnit, g.Foods[food].Basis))
	}
	return "no shop's price of " + title + " is known"
}

// statedWords says what the ledger notes.
func statedWords(g *ledger.Ledger, n ledger.Note) string {
	say := phrasingOf(&g.Settings)
	switch n.Kind {
	case ledger.NoReceiptOf:
		return "no receipt has the machine " + g.Machines[n.At].ID + " by then: no wear is counted"
	case ledger.CyclesUsedUp:
		return "all expected cycles of " + g.Machines[n.At].ID + " are used up: no wear is counted"
	case ledger.AtListPrice:
		return "supplies: " + g.Supplies[n.At].ID + " is charged at its list price, where no receipt covers it"
	case ledger.NotDry:
		w, _ := g.WeighingOf(n.At)
		return fmt.Sprintf("pack %s was not dry: by its weights %s was still water, and %s is the most for food that is sealed without oxygen",
			g.Records.Packs.At(n.At).ID, say.waterIn(w, "it"), say.percents(ledger.MostWater))
	case ledger.RepairOfNoCycle:
		return "the repair of " + g.Machines[n.At].ID + " is spending only: no cycle of it is left in the books"
	case ledger.TakenBackFor:
		off, word := n.Less, "less"
		if off.Sign() < 0 {
			off, word = off.Neg(), "more"
		}
		minor := g.Settings.Currency.Minor()
		return fmt.Sprintf("for %s taken back, %s %s was given than it still cost in the books", g.Supplies[n.At].ID, say.show.Locale.Amount(off.Round(minor, exact.HalfAway).Fixed(minor)), word)
	}
	return powerWords(n.Power)
}

// Stated says all that the ledger notes of something.
func Stated(g *ledger.Ledger, notes []ledger.Note) []string {
	return worded(notes, func(n ledger.Note) string { return statedWords(g, n) })
}

// rowNoteWords says a note at the row of what it is about.
func rowNoteWords(g *ledger.Ledger, n figures.Note) string {
	switch n.Kind {
	case figures.PriceOfBatch:
		return "the shelf price is that of what its latest batch took"
	case figures.PriceOfLaterDay:
		return "the shelf price is of a later day, " + phrasingOf(&g.Settings).day(n.Date)
	}
	return noteWords(g, n)
}

// rowNotes are the notes of a row in sentences.
func rowNotes(g *ledger.Ledger, notes figures.Notes) []string {
	var d noteList
	for _, n := range notes {
		d.add(rowNoteWords(g, n))
	}
	return d
}

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
