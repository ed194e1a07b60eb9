package ledger

import (
	"iter"
	"slices"
)

// A Thing is what records name: most by an identifier, shops and places by what
// a person calls them.
type Thing uint8

// The things.
const (
	Foods Thing = iota
	Supplies
	Machines
	Tariffs
	Receipts
	Batches
	Runs
	Packs
	Shops
	Places
)

// String returns what one of them is called, and the column of its identifier.
func (t Thing) String() string {
	return [...]string{"food", "supply", MachineColumn, "tariff", ReceiptColumn, "batch", RunColumn, PackColumn, "shop", "place"}[t]
}

// In returns the names of all such things that the records have, each once, in
// the order in which they are met first.
func (t Thing) In(rec *Records) []string {
	switch t {
	case Foods:
		return Distinct(rec.Foods, func(f *Food) string { return f.ID })
	case Supplies:
		return Distinct(rec.Supplies, func(s *Supply) string { return s.ID })
	case Machines:
		return Distinct(rec.Machines, func(m *Machine) string { return m.ID })
	case Tariffs:
		return Distinct(rec.Tariffs, func(b *Band) string { return b.Tariff })
	case Receipts:
		return distinctTexts(&rec.Receipts, func(r *packedReceipt) textAt { return r.receipt })
	case Batches:
		return Distinct(rec.Batches, func(b *Batch) string { return b.ID })
	case Runs:
		return Distinct(rec.Runs, func(r *Run) string { return r.ID })
	case Packs:
		return distinctTexts(&rec.Packs, func(p *packedPack) textAt { return p.id })
	case Places:
		return distinctTexts(&rec.Packs, func(p *packedPack) textAt { return p.place })
	}
	shops := append(distinctTexts(&rec.Receipts, func(r *packedReceipt) textAt { return r.shop }),
		Distinct(rec.Shelf, func(s *ShelfRow) string { return s.Shop })...)
	return Distinct(shops, func(s *string) string { return *s })
}

// Distinct gathers names, each once, in the order in which they are met first;
// empty ones it leaves out.
func Distinct[R any](list []R, name func(*R) string) []string {
	return distinct(slices.All(list), name)
}

func distinct[R any](all iter.Seq2[int, R], name func(*R) string) []string {
	var names []string
	seen := map[string]bool{}
	for _, r := range all {
		if n := name(&r); n != "" && !seen[n] {
			seen[n] = true
			names = append(names, n)
		}
	}
	return names
}
