package entry

import (
	"slices"

	"putby/ledger"
)

// AtLine is the position of the record of a kind that begins at a line of its
// file; -1 where there is none.
func AtLine(rec *ledger.Records, kind string, line int) int {
	switch kind {
	case "food":
		return slices.IndexFunc(rec.Foods, func(r ledger.Food) bool { return r.Line == line })
	case "supply":
		return slices.IndexFunc(rec.Supplies, func(r ledger.Supply) bool { return r.Line == line })
	case "machine":
		return slices.IndexFunc(rec.Machines, func(r ledger.Machine) bool { return r.Line == line })
	case "wattage":
		return slices.IndexFunc(rec.Wattage, func(r ledger.Wattage) bool { return r.Line == line })
	case "tariff":
		return slices.IndexFunc(rec.Tariffs, func(r ledger.Band) bool { return r.Line == line })
	case "holiday":
		return slices.IndexFunc(rec.Holidays, func(r ledger.Holiday) bool { return r.Line == line })
	case "receipt":
		return rec.Receipts.Index(func(r *ledger.ReceiptRow) bool { return r.Line == line })
	case "price":
		return slices.IndexFunc(rec.Shelf, func(r ledger.ShelfRow) bool { return r.Line == line })
	case "batch":
		return slices.IndexFunc(rec.Batches, func(r ledger.Batch) bool { return r.Line == line })
	case "run":
		return slices.IndexFunc(rec.Runs, func(r ledger.Run) bool { return r.Line == line })
	case "phase":
		return rec.Phases.Index(func(r *ledger.Phase) bool { return int(r.Line) == line })
	case "load":
		return rec.Loads.Index(func(r *ledger.Load) bool { return r.Line == line })
	case "pack":
		return rec.Packs.Index(func(r *ledger.Pack) bool { return r.Line == line })
	case "draw":
		return rec.Draws.Index(func(r *ledger.Draw) bool { return r.Line == line })
	case "frozen":
		return slices.IndexFunc(rec.Freezes, func(r ledger.Freeze) bool { return r.Line == line })
	case "count":
		return slices.IndexFunc(rec.Counts, func(r ledger.Count) bool { return r.Line == line })
	}
	return -1
}
