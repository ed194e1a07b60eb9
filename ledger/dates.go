package ledger

import (
	"cmp"
	"slices"

	"putby/pricing/exact"
)

// A Dated is a record that has a date: a receipt with all its lines is one.
type Dated struct {
	Date exact.Date // of a run, that of its start in the ledger's zone
	Kind string     // as in "receipt", "price", "run"
	Name string     // its identifier, or what it is of
	File string
	Line int // of a receipt, that of its first line
}

// LastDate returns the date of the last record that has one, or NoDate.
func LastDate(rec *Records) exact.Date {
	last := exact.NoDate
	rec.EachDate(func(d exact.Date) { last = max(last, d) })
	return last
}

// After lists the records of days after one, the earliest first; those of one
// day as the files have them.
func (rec *Records) After(day exact.Date) []Dated {
	var list []Dated
	receipts := map[string]bool{}
	rec.eachDated(func(d Dated) {
		if d.Date <= day || d.Kind == "receipt" && receipts[d.Name] {
			return
		}
		if d.Kind == "receipt" {
			receipts[d.Name] = true
		}
		list = append(list, d)
	})
	slices.SortStableFunc(list, func(a, b Dated) int { return cmp.Compare(a.Date, b.Date) })
	return list
}

// Day is the day at which the ledger stands for a report: as far as prices, and
// what is usual, are known.
func (g *Ledger) Day() exact.Date { return g.day }

// On returns the ledger as it stands on a day, with the prices known then: what [Join]
// would make of it. It is told of all records alone, of which none is of a later day.
func (g *Ledger) On(day exact.Date) (*Ledger, bool) {
	if g.last > day || g.AsOf != g.last {
		return nil, false
	}
	on := *g
	on.AsOf, on.day, on.ahead = day, day, newOutlooks()
	return &on, true
}

// LeftOut lists the records that the ledger leaves out since they are of days
// after the one at which it stands. A pack of a run that counts whole is not
// among them.
func (g *Ledger) LeftOut() []Dated {
	day := g.day
	if g.last <= day {
		return nil
	}
	list := g.Records.After(day)
	if g.AsOf <= day {
		return list
	}
	return slices.DeleteFunc(list, func(d Dated) bool {
		if d.Kind != "pack" {
			return false
		}
		i, _ := g.FindPack(d.Name)
		run, ok := g.FindRun(g.Records.Packs.At(i).Run)
		return ok && g.Runs[run].Date <= day
	})
}

// EachDate is eachDated for the dates alone, which takes a fraction of the time.
func (rec *Records) EachDate(do func(exact.Date)) {
	for i := range rec.Receipts.rows {
		do(rec.Receipts.rows[i].date)
	}
	for i := range rec.Packs.rows {
		do(rec.Packs.rows[i].date)
	}
	for i := range rec.Draws.rows {
		do(rec.Draws.rows[i].date)
	}
	few := *rec
	few.Receipts, few.Packs, few.Draws = ReceiptList{}, PackList{}, DrawList{}
	few.eachDated(func(d Dated) { do(d.Date) })
}

// eachDated goes through all records that have a date, a receipt line by line.
func (rec *Records) eachDated(do func(Dated)) {
	for _, r := range rec.Receipts.All() {
		do(Dated{r.Date, "receipt", r.Receipt, ReceiptsFile, r.Line})
	}
	for i := range rec.Shelf {
		s := &rec.Shelf[i]
		do(Dated{s.Date, "price", s.Item, ShelfFile, s.Line})
	}
	for i := range rec.Batches {
		b := &rec.Batches[i]
		do(Dated{b.Date, "batch", b.ID, BatchesFile, b.Line})
	}
	for i := range rec.Runs {
		r := &rec.Runs[i]
		do(Dated{exact.DateIn(r.Start), "run", r.ID, RunsFile, r.Line})
	}
	for _, p := range rec.Packs.All() {
		do(Dated{p.Date, "pack", p.ID, PacksFile, p.Line})
	}
	for _, d := range rec.Draws.All() {
		do(Dated{d.Date, "draw", cmp.Or(d.Pack, d.Item), DrawsFile, d.Line})
	}
	for i := range rec.Freezes {
		f := &rec.Freezes[i]
		do(Dated{f.Date, "frozen", f.Item, FrozenFile, f.Line})
	}
	for i := range rec.Counts {
		c := &rec.Counts[i]
		do(Dated{c.Date, "count", cmp.Or(c.Pack, c.Item), CountsFile, c.Line})
	}
}
