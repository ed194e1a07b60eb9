package entry

import "putby/ledger"

// asked are the cells that a person is asked for, by kind of record: those
// that may not be blank, and those that make the record worth having. What a
// default hangs on comes before it.
var asked = map[string][]string{
	"food":    {"food", "name", "basis", "fresh_days", "keep_months", "caution"},
	"supply":  {"supply", "name", "kind", "uses", "capacity", "price"},
	"machine": {"machine", "name", "load_volume", "load_mass", "cycles", "residual", "with"},
	"wattage": {"machine", "phase", "watts"},
	"tariff":  {"tariff", "from", "months", "days", "start", "end", "rate", "tax"},
	"holiday": {"tariff", "date"},
	"price":   {"shop", "date", "item", "size", "price", "terms"},
	"batch":   {"item", "quantity", "from", "cost", "date", "batch"},
	"run":     {"machine", "start", "run", "kwh", "hands"},
	"phase":   {"run", "step", "phase", "duration"},
	"load":    {"run", "item", "quantity", "wet", "dry"},
	"pack":    {"run", "item", "date", "count", "each", "dry", "with", "place", "pack"},
	"draw":    {"quantity", "reason", "date"},
	"frozen":  {"item", "quantity", "date"},
	"count":   {"quantity", "date"},
}

// Asked returns the columns that a person is asked for, in order. A draw or a
// stocktake is first asked what it is of, which is either a pack or an item;
// that is the caller's.
func Asked(k ledger.Kind) []string { return asked[k.Name] }

// Sure reports whether an offer for a column is taken without asking anybody,
// where a record with the given cells lacks it: today, the next identifier of
// things that people seldom name themselves, the only machine; of a pack the
// run's only food and what the packs of it are like; one container.
func Sure(k ledger.Kind, rec *ledger.Records, cells map[string]string, column string) bool {
	switch k.Name + "." + column {
	case "run.run", "batch.batch", "pack.pack", "receipt.receipt", "phase.step", "draw.quantity":
		return true
	case "run.machine", "wattage.machine":
		return len(rec.Machines) == 1
	case "pack.item":
		return len(loadedIn(rec, cells["run"])) == 1
	case "pack.each", "pack.with":
		return cells["run"] != ""
	}
	return column == "date" && k.Name != "holiday"
}

// loadedIn lists the foods of a run, each once.
func loadedIn(rec *ledger.Records, run string) []string {
	return each(rec.Loads, func(l *ledger.Load) string {
		if run == "" || l.Run != run {
			return ""
		}
		return l.Item
	})
}
