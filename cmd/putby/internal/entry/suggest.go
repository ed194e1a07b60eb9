package entry

import (
	"slices"

	"putby/ledger"
)

// Suggest returns what a new record of a kind is likely to hold, by column:
// today, the last shop, the next identifier, the machine's usual phases.
func Suggest(k ledger.Kind, rec *ledger.Records, given map[string]string, today string) map[string]string {
	s := map[string]string{"date": today}
	switch k.Name {
	case "receipt":
		if n := len(rec.Receipts); n > 0 {
			s["shop"] = rec.Receipts[n-1].Shop
		}
		s["receipt"] = NextID(idsOf(rec.Receipts, func(r *ledger.ReceiptRow) string { return r.Receipt }), "r")
	case "price":
		if n := len(rec.Shelf); n > 0 {
			s["shop"], s["item"], s["size"] = rec.Shelf[n-1].Shop, rec.Shelf[n-1].Item, rec.Shelf[n-1].Size.String()
		}
	case "run":
		s["run"] = NextID(idsOf(rec.Runs, func(r *ledger.Run) string { return r.ID }), "run-")
		s["machine"] = lastMachine(rec)
	case "batch":
		s["batch"] = NextID(idsOf(rec.Batches, func(b *ledger.Batch) string { return b.ID }), "batch-")
	case "pack":
		ids := idsOf(rec.Packs, func(p *ledger.Pack) string { return p.ID })
		if s["pack"] = NextID(ids, "pack-"); given["run"] != "" {
			s["pack"] = lettered(given["run"], ids)
		}
	case "wattage":
		s["machine"] = lastMachine(rec)
	case "tariff", "holiday":
		s["tariff"] = rec.Settings.Tariff
	}
	return s
}

// Sure reports whether a suggestion is taken without asking anybody: today's
// date and the next identifier of things that people seldom name themselves.
func Sure(column string, k ledger.Kind) bool {
	switch column {
	case "date":
		return k.Name != "holiday"
	case "receipt", "run", "batch", "pack":
		return column == k.Name
	}
	return false
}

func idsOf[R any](list []R, id func(*R) string) []string {
	ids := make([]string, len(list))
	for i := range list {
		ids[i] = id(&list[i])
	}
	return ids
}

func lastMachine(rec *ledger.Records) string {
	if n := len(rec.Runs); n > 0 {
		return rec.Runs[n-1].Machine
	}
	if len(rec.Machines) == 1 {
		return rec.Machines[0].ID
	}
	return ""
}

// lettered names a pack after its run: c47-a, and c47-b when that is taken.
func lettered(run string, ids []string) string {
	for letter := 'a'; letter <= 'z'; letter++ {
		if id := run + "-" + string(letter); !slices.Contains(ids, id) {
			return id
		}
	}
	return NextID(ids, run+"-")
}
