package folder

import (
	"slices"
	"sync/atomic"

	"putby/ledger"
)

// A Concern is what an edit is about, as far as that is known before it is made:
// foods, and the identifiers of packs.
type Concern struct{ Foods, Packs []string }

// Excerpt returns the records that an edit concerns, read from the files without
// reading the others, and makes them the Book's: [Book.Edit] then judges the edit
// by these, and by all records where it finds a fault. About is told the foods and
// supplies of the ledger. It returns nil where all records are needed: where About
// says so, the ledger is not known to have no fault, or what it has ties every
// record to every other.
//
// The records are those of the foods, and of all foods that they were made of, and
// everything that moves supplies or wears machines; all are whole where they say
// what the foods' packs cost.
func (b *Book) Excerpt(about func(*ledger.Records) (c Concern, ok bool)) *ledger.Records {
	if b.flawless = b.flawless || b.isSound(); !b.flawless {
		return nil
	}
	small := map[string]string{}
	for _, name := range []string{ledger.SettingsFile, ledger.FoodsFile, ledger.SuppliesFile, ledger.MachinesFile, ledger.TariffsFile, ledger.BatchesFile} {
		if text, there := b.files.texts[name]; there {
			small[name] = text
		}
	}
	few, faults := parse(&snapshot{texts: small}, keepTexts)
	if len(faults) > 0 || hasBlocks(few) {
		return nil
	}
	p := &picking{texts: b.files.texts, few: few}
	c, ok := about(few)
	if !ok {
		return nil
	}
	texts := p.pick(c.Foods, c.Packs)
	if texts == nil {
		return nil
	}
	rec, faults := parse(&snapshot{texts: texts}, letGo)
	if len(faults) > 0 {
		return nil
	}
	rec.Excerpt = &ledger.Excerpt{Foods: p.foods, Lots: p.lots, Runs: p.runs, Receipts: p.receipts}
	b.records, b.faults = rec, nil
	return rec
}

// excerpts counts the edits that were judged by an excerpt.
var excerpts atomic.Int64

// Excerpts is how many edits were judged by an excerpt, for tests that hold those
// to what all records would have said.
func Excerpts() int { return int(excerpts.Load()) }

// hasBlocks reports whether a tariff has bands that begin above some use: then
// what a run's electricity costs hangs on all runs of its month.
func hasBlocks(rec *ledger.Records) bool {
	return slices.ContainsFunc(rec.Tariffs, func(b ledger.Band) bool { return b.Above.Sign() > 0 })
}
