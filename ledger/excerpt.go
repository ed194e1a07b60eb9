package ledger

import (
	"maps"
	"slices"
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
// freezes of what is all there, prices, and receipts of such things. Containers that
// serve again are counted empty, and how many stand full takes all packs to tell.
func (rec *Records) Covers(now *Records) (*Excerpt, bool) {
	e, bought := rec.coversReceipts(now.Receipts.From(rec.Receipts.Len()))
	return e, bought && rec.coversMoves(now)
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
		if again || c.Pack != "" && !pack(c.Pack) || c.Pack == "" && !rec.Excerpt.Lots[c.Item] {
			return false
		}
	}
	return true
}

// coversReceipts is Covers for lines of receipts, which must be of new ones. A
// machine that nothing was paid for has runs that are not there.
func (rec *Records) coversReceipts(added ReceiptList) (*Excerpt, bool) {
	if added.Len() == 0 {
		return rec.Excerpt, true
	}
	e := *rec.Excerpt
	e.Receipts = maps.Clone(e.Receipts)
	for _, r := range added.All() {
		switch {
		case r.Kind == MachineLine || r.Kind == ServiceLine,
			(r.Kind == FoodLine || r.Kind == SupplyLine) && !e.Lots[r.Item]:
			return nil, false
		}
		e.Receipts[r.Receipt] = true
	}
	there := rec.Receipts.Index(func(r *ReceiptRow) bool { return e.Receipts[r.Receipt] && !rec.Excerpt.Receipts[r.Receipt] })
	return &e, e.EachReceipt && there < 0
}
