package entry

import (
	"slices"

	"putby/ledger"
)

// words are the closed lists of cells, by kind of record and column.
var words = map[[2]string][]string{
	{"food", "basis"}:    {"volume", "mass", "count"},
	{"supply", "kind"}:   {"jar", "bag", "lid", "absorber", "label", "oil", "filter", "other"},
	{"wattage", "phase"}: phaseWords,
	{"phase", "phase"}:   phaseWords,
	{"price", "terms"}:   {"regular", "offer"},
	{"price", "form"}:    {"fresh", "preserved"},
	{"run", "outcome"}:   {"good", "spoiled"},
	{"draw", "reason"}:   {"used", "given", "spoiled"},
	{"receipt", "kind"}:  {"food", "supply", "machine", "service", "other", "discount", "tax", "charge", "deposit", "total"},
}

var phaseWords = []string{"freezing", "evacuation", "primary", "secondary", "hold", "defrost"}

// Names returns what the cells of a column may hold: a closed list of words,
// or names of the ledger. Closed says that nothing else is right; a shop, say,
// may be a new one. There is nothing for a column of free text or amounts, nor
// for a record's own identifier.
func Names(rec *ledger.Records, kind, column string) (names []string, closed bool) {
	if list, ok := words[[2]string{kind, column}]; ok {
		return list, true
	}
	if column == kind && kind != "tariff" { // of which there may be more bands
		return nil, false
	}
	switch column {
	case "item":
		switch kind {
		case "receipt":
			return slices.Concat(Foods(rec), Supplies(rec), Machines(rec)), false
		case "draw", "count":
			return slices.Concat(Foods(rec), Supplies(rec)), true
		}
		return Foods(rec), true
	case "machine":
		return Machines(rec), true
	case "run":
		return Runs(rec), true
	case "pack":
		return Packs(rec), true
	case "tariff":
		return Tariffs(rec), kind != "tariff"
	case "receipt":
		return slices.Concat(Receipts(rec), Batches(rec)), true
	case "shop":
		return Shops(rec), false
	}
	return nil, false
}

// Meant returns the identifier that a cell should hold where a person wrote
// what they call the thing: its name, or its identifier in another case. What
// names nothing, or more than one thing, is returned as it is.
func Meant(rec *ledger.Records, kind, column, text string) string {
	names, _ := Names(rec, kind, column)
	if text == "" || len(names) == 0 || slices.Contains(names, text) {
		return text
	}
	id, _ := ledger.Meant(text, titled(rec, names))
	return id
}

// titled gives identifiers the names that foods, supplies and machines have.
func titled(rec *ledger.Records, ids []string) []ledger.Named {
	titles := map[string]string{}
	for _, list := range [][]ledger.Named{rec.NamedFoods(), rec.NamedSupplies(), rec.NamedMachines()} {
		for _, n := range list {
			titles[n.ID] = n.Name
		}
	}
	named := make([]ledger.Named, len(ids))
	for i, id := range ids {
		named[i] = ledger.Named{ID: id, Name: titles[id]}
	}
	return named
}

// Refers reports whether the cells of a column name other records, and not one
// of a closed list of words.
func Refers(kind, column string) bool {
	_, listed := words[[2]string{kind, column}]
	return !listed
}

// Unknown says that a cell should name something that the ledger has, and does
// not; near is what was probably meant, or "". A blank cell names nothing.
func Unknown(rec *ledger.Records, kind, column, text string) (near string, unknown bool) {
	names, closed := Names(rec, kind, column)
	if text == "" || !closed || slices.Contains(names, text) {
		return "", false
	}
	return ledger.Nearest(text, names), true
}

// Own returns the identifiers of all records of a kind, by which they can be
// shown or amended.
func Own(rec *ledger.Records, kind string) []string {
	switch kind {
	case "food":
		return Foods(rec)
	case "supply":
		return Supplies(rec)
	case "machine":
		return Machines(rec)
	case "run":
		return Runs(rec)
	case "pack":
		return Packs(rec)
	case "batch":
		return Batches(rec)
	case "receipt":
		return Receipts(rec)
	case "setting":
		var names []string
		for _, s := range ledger.SettingColumns() {
			names = append(names, s.Name)
		}
		return names
	}
	return nil
}

// Foods returns the identifiers of all foods, in file order.
func Foods(rec *ledger.Records) []string {
	return each(rec.Foods, func(f *ledger.Food) string { return f.ID })
}

// Supplies returns those of all supplies.
func Supplies(rec *ledger.Records) []string {
	return each(rec.Supplies, func(s *ledger.Supply) string { return s.ID })
}

// Machines returns those of all machines.
func Machines(rec *ledger.Records) []string {
	return each(rec.Machines, func(m *ledger.Machine) string { return m.ID })
}

// Runs returns those of all runs.
func Runs(rec *ledger.Records) []string {
	return each(rec.Runs, func(r *ledger.Run) string { return r.ID })
}

// Packs returns those of all packs.
func Packs(rec *ledger.Records) []string {
	return each(rec.Packs, func(p *ledger.Pack) string { return p.ID })
}

// Batches returns those of all batches.
func Batches(rec *ledger.Records) []string {
	return each(rec.Batches, func(b *ledger.Batch) string { return b.ID })
}

// Receipts returns those of all receipts.
func Receipts(rec *ledger.Records) []string {
	return each(rec.Receipts, func(r *ledger.ReceiptRow) string { return r.Receipt })
}

// Tariffs returns those of all tariffs.
func Tariffs(rec *ledger.Records) []string {
	return each(rec.Tariffs, func(b *ledger.Band) string { return b.Tariff })
}

// Shops returns the names of all shops, of receipts and shelves.
func Shops(rec *ledger.Records) []string {
	shops := append(each(rec.Receipts, func(r *ledger.ReceiptRow) string { return r.Shop }),
		each(rec.Shelf, func(s *ledger.ShelfRow) string { return s.Shop })...)
	return each(shops, func(s *string) string { return *s })
}

// each gathers names, each once, in the order in which they are met first.
func each[R any](list []R, name func(*R) string) []string {
	var names []string
	seen := map[string]bool{}
	for i := range list {
		if n := name(&list[i]); n != "" && !seen[n] {
			seen[n] = true
			names = append(names, n)
		}
	}
	return names
}
