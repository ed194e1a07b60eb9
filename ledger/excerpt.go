package ledger

import (
	"maps"
	"slices"

	"putby/pricing/exact"
)

// An Excerpt says what there is of a ledger, where not all of its records were
// read. The ledger as a whole is known to have no fault. [Join] works out what the
// excerpt is about as it would of the whole, and notes no fault that only follows
// from what was left out.
type Excerpt struct {
	// Foods are those of which everything is there, with all that was drawn of their
	// packs.
	Foods map[string]bool
	// Lots are the foods, supplies and machines of which all is there that was
	// bought, made and taken.
	Lots map[string]bool
	// Runs are those that are there with their phases, loads and meter logs; of the
	// others there is the row alone.
	Runs map[string]bool
	// Receipts are those that are there, with all their lines.
	Receipts map[string]bool
	// EachReceipt says that there is of every other receipt its first line.
	EachReceipt bool
	// Machines are those of which all runs are there, among Runs.
	Machines map[string]bool
	// Containers says that of all packs there is what was drawn of them and counted
	// that take supplies, and so how many containers stand full.
	Containers bool
	// EachRun and EachPack go through the names of all that the ledger has, in order
	// of its files: an excerpt leaves most of them out. Starts and dates are as cells
	// have them.
	EachRun  func(do func(id, start string))
	EachPack func(do func(id, run, date string))

	// How many are there of those, before any is added.
	RunRows, PackRows int
}

// leavesOut reports whether what a file tells of id is not there, or not all of
// it. A nil Excerpt leaves out nothing.
func (e *Excerpt) leavesOut(file, id string) bool {
	if e == nil {
		return false
	}
	switch file {
	case RunsFile:
		return !e.Runs[id]
	case lotsOf:
		return !e.Lots[id]
	case ReceiptsFile:
		return !e.Receipts[id]
	}
	return false
}

// Covers reports whether an edit that makes now, an excerpt too, of an excerpt can
// be judged by it, and by what it then is: it adds nothing but draws, counts and
// freezes of what is all there, prices, and receipts, runs and packs of such things.
// Of containers that serve again how many are empty takes all packs to tell.
func (rec *Records) Covers(now *Records) (*Excerpt, bool) {
	e := *rec.Excerpt
	return &e, e.coversReceipts(rec, now) && rec.coversMoves(now) && e.coversRuns(rec, now) && e.coversPacks(rec, now)
}

// coversMoves is Covers for what is taken out, counted and frozen.
func (rec *Records) coversMoves(now *Records) bool {
	pack := func(id string) bool {
		i := rec.Packs.Index(func(p *Pack) bool { return p.ID == id })
		return i >= 0 && rec.Excerpt.Foods[rec.Packs.At(i).Item]
	}
	added := now.Draws.From(rec.Draws.Len())
	for _, d := range added.All() {
		if d.Pack != "" && !pack(d.Pack) || d.Pack == "" && !rec.Excerpt.Lots[d.Item] {
			return false
		}
	}
	for _, f := range now.Freezes[len(rec.Freezes):] {
		if !rec.Excerpt.Lots[f.Item] {
			return false
		}
	}
	for _, c := range now.Counts[len(rec.Counts):] {
		again := slices.ContainsFunc(rec.Supplies, func(s Supply) bool { return s.ID == c.Item && s.ServesAgain() })
		if again && !rec.Excerpt.Containers || c.Pack != "" && !pack(c.Pack) || c.Pack == "" && !rec.Excerpt.Lots[c.Item] {
			return false
		}
	}
	return true
}

// coversReceipts is Covers for lines of receipts, which must be of new ones. A
// machine that nothing was paid for has runs that are not there.
func (e *Excerpt) coversReceipts(rec, now *Records) bool {
	added := now.Receipts.From(rec.Receipts.Len())
	if added.Len() == 0 {
		return true
	}
	e.Receipts = maps.Clone(e.Receipts)
	for _, r := range added.All() {
		switch {
		case r.Kind == MachineLine || r.Kind == ServiceLine,
			(r.Kind == FoodLine || r.Kind == SupplyLine) && !e.Lots[r.Item]:
			return false
		}
		e.Receipts[r.Receipt] = true
	}
	// More of a receipt of which only the first line is there: whether it adds up takes all of them.
	there := rec.Receipts.Index(func(r *ReceiptRow) bool { return e.Receipts[r.Receipt] && !rec.Excerpt.Receipts[r.Receipt] })
	return e.EachReceipt && there < 0
}

// coversRuns is Covers for new runs with what went into them, and for phases of those
// that are there, on machines whose other runs are.
func (e *Excerpt) coversRuns(rec, now *Records) bool {
	loads, phases := now.Loads.From(rec.Loads.Len()), now.Phases.From(rec.Phases.Len())
	for _, p := range phases.All() {
		on := slices.IndexFunc(now.Runs, func(r Run) bool { return r.ID == p.Run })
		if on < 0 || !e.Machines[now.Runs[on].Machine] {
			return false
		}
	}
	fresh := map[string]bool{}
	for _, r := range now.Runs[len(rec.Runs):] {
		if !e.Machines[r.Machine] || fresh[r.ID] {
			return false
		}
		fresh[r.ID] = true
	}
	for _, l := range loads.All() {
		named := l.Receipt == "" || e.Receipts[l.Receipt] || slices.ContainsFunc(rec.Batches, func(b Batch) bool { return b.ID == l.Receipt })
		if !fresh[l.Run] || !e.Lots[l.Item] || !named {
			return false
		}
	}
	if len(fresh) == 0 {
		return true
	}
	e.Runs = maps.Clone(e.Runs)
	maps.Copy(e.Runs, fresh)
	there := false
	// Most runs were not read, and a new one may have the name of one of those.
	e.EachRun(func(id, _ string) { there = there || fresh[id] })
	return !there
}

// coversPacks is Covers for new packs.
func (e *Excerpt) coversPacks(rec, now *Records) bool {
	added, fresh := now.Packs.From(rec.Packs.Len()), map[string]bool{}
	for _, p := range added.All() {
		if !e.Foods[p.Item] || p.Run != "" && !e.Runs[p.Run] || fresh[p.ID] {
			return false
		}
		fresh[p.ID] = true
	}
	there := false
	if len(fresh) > 0 {
		e.EachPack(func(id, _, _ string) { there = there || fresh[id] })
	}
	return !there
}

// EachRun goes through the names of all runs with the days on which they began, in
// order of the file; those too that an excerpt leaves out.
func (rec *Records) EachRun(do func(id string, day exact.Date)) {
	first := 0
	if e := rec.Excerpt; e != nil {
		first = e.RunRows
		e.EachRun(func(id, start string) {
			at, _ := exact.ParseMoment(start, rec.Settings.Zone) // which was read before without a fault
			do(id, exact.DateIn(at))
		})
	}
	for i := range rec.Runs[first:] {
		r := &rec.Runs[first+i]
		do(r.ID, exact.DateIn(r.Start))
	}
}

// EachPack is [Records.EachRun] for packs, with the runs that they are of.
func (rec *Records) EachPack(do func(id, run string, day exact.Date)) {
	first := 0
	if e := rec.Excerpt; e != nil {
		first = e.PackRows
		e.EachPack(func(id, run, date string) {
			day, _ := exact.ParseDate(date)
			do(id, run, day)
		})
	}
	added := rec.Packs.From(first)
	for i := range added.rows {
		p := &added.rows[i]
		do(added.store.text(p.id), added.store.text(p.run), p.date)
	}
}
