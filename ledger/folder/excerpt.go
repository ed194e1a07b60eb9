package folder

import (
	"slices"

	"putby/ledger"
)

// A Scope is what an edit is about, as far as that is known before it is made.
type Scope struct {
	Foods, Packs []string // whose packs are moved; packs by their identifiers
	Lots         []string // foods and supplies that come into hand or leave it
	Bought       string   // the day of a receipt that is added; "": none is

	Machines   []string // on which a run is recorded
	Runs       []string // that are packed
	Packed     []string // foods that are packed of the last run that awaits it; "" is any
	Ends       []string // runs that end, or of which more is told; "" is the one that is running
	Containers bool     // how many containers are free is told
}

// Excerpt returns the records that an edit concerns, out of those that were kept or
// read from the files without reading the others, and makes them the Book's: [Book.Edit] then judges the edit
// by these, and by all records where it finds a fault. About is told the foods and
// supplies of the ledger. It returns nil where all records are needed: where About
// says so, the ledger is not known to have no fault, or what it has ties every
// record to every other.
//
// The records are those of the foods, of all foods that they were made of, and, where
// packs or supplies are moved, everything that moves supplies or wears machines; all
// are whole where they say what the foods' packs cost. Where a receipt is added there
// are besides all receipts of its day, and the first line of each other, which tells
// its identifier and its shop. Of machines there are all runs, with how they went.
func (b *Book) Excerpt(about func(*ledger.Records) (c Scope, ok bool)) *ledger.Records {
	from := b.material()
	if from == nil {
		return nil
	}
	few := from.few()
	if few == nil || hasBlocks(few) {
		return nil
	}
	p := &excerptBuilder{few: few, tables: map[string]table{}}
	for _, name := range picked {
		p.tables[name] = from.table(name)
	}
	if c, ok := about(few); !ok || !p.pick(c) {
		return nil
	}
	rec := from.excerpt(p)
	if rec == nil {
		return nil
	}
	rec.Excerpt = &ledger.Excerpt{
		Foods: p.foods, Lots: p.lots, Runs: p.runs, Machines: p.machines, Receipts: p.receipts, EachReceipt: p.bought != "", Containers: p.empties,
		EachRun: p.eachRun, EachPack: p.eachPack, RunRows: len(rec.Runs), PackRows: rec.Packs.Len(),
	}
	b.records, b.faults, b.excerptBuilder = rec, nil, p
	return rec
}

// hasBlocks reports whether a tariff has bands that begin above some use: then
// what a run's electricity costs hangs on all runs of its month.
func hasBlocks(rec *ledger.Records) bool {
	return slices.ContainsFunc(rec.Tariffs, func(b ledger.Band) bool { return b.Above.Sign() > 0 })
}
