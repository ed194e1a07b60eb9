package ledger

import (
	"cmp"
	"slices"
	"time"

	"putby/pricing/exact"
)

// checkOverlaps refuses two runs of one machine at once, at the later one. A
// run of unknown length has none.
func (g *Ledger) checkOverlaps() {
	ends := make([]time.Time, len(g.Records.Runs))
	for i := range ends {
		ends[i] = g.endOf(i)
	}
	order := positions(len(ends))
	slices.SortStableFunc(order, func(a, b int32) int {
		x, y := &g.Records.Runs[a], &g.Records.Runs[b]
		return cmp.Or(cmp.Compare(x.Machine, y.Machine), x.Start.Compare(y.Start), ends[a].Compare(ends[b]))
	})
	last := int32(-1) // the run of the machine that ends latest so far
	for _, i := range order {
		run := &g.Records.Runs[i]
		if last < 0 || g.Records.Runs[last].Machine != run.Machine {
			last = i
			continue
		}
		if run.Start.Before(ends[last]) {
			g.overlap(last, i, ends)
		}
		if ends[i].After(ends[last]) {
			last = i
		}
	}
}

// overlap notes that one run begins while another is on.
func (g *Ledger) overlap(first, second int32, ends []time.Time) {
	a, b := &g.Records.Runs[first], &g.Records.Runs[second]
	if a.Start.Equal(b.Start) && first > second {
		first, a, b = second, b, a
	}
	if a.Machine == "" || g.x.doubts.run(a.ID) || g.x.doubts.run(b.ID) {
		return
	}
	g.x.fail(place{RunsFile, b.Line}, "start", "back to back is fine: correct a start, an end or a duration",
		"run %s starts on %s at %s while run %s is on until %s", b.ID, b.Machine,
		b.Start.Format(momentForm), a.ID, ends[first].In(b.Start.Location()).Format(momentForm))
}

const momentForm = "2006-01-02 15:04"

// endOf returns when a run ends, as far as the records tell; a run of unknown
// length ends as it starts.
func (g *Ledger) endOf(i int) time.Time {
	run := &g.Records.Runs[i]
	rows := g.x.phasesOf.of(i)
	end, given := run.End.Get()
	if given && len(rows) > 0 {
		g.x.fail(place{RunsFile, run.Line}, "end", "leave it blank: the phases say how long it took", "run %s has an end beside phases", run.ID)
	}
	if given && len(rows) == 0 {
		return end
	}
	end = run.Start
	for _, row := range rows {
		end = end.Add(g.Records.Phases[row].Length)
	}
	return end
}

// LastDate returns the date of the last record that has one, or NoDate.
func LastDate(rec *Records) exact.Date {
	last := exact.NoDate
	eachDate(rec, func(d exact.Date) { last = max(last, d) })
	return last
}

// FirstDate returns the date of the first record that has one, or LastDate of
// package exact when there is none.
func FirstDate(rec *Records) exact.Date {
	first := exact.LastDate
	eachDate(rec, func(d exact.Date) { first = min(first, d) })
	return first
}

// eachDate goes through the dates of all records that have one.
func eachDate(rec *Records, do func(exact.Date)) {
	for i := range rec.Receipts {
		do(rec.Receipts[i].Date)
	}
	for i := range rec.Shelf {
		do(rec.Shelf[i].Date)
	}
	for i := range rec.Batches {
		do(rec.Batches[i].Date)
	}
	for i := range rec.Runs {
		do(exact.DateIn(rec.Runs[i].Start))
	}
	for i := range rec.Packs {
		do(rec.Packs[i].Date)
	}
	for i := range rec.Draws {
		do(rec.Draws[i].Date)
	}
	for i := range rec.Counts {
		do(rec.Counts[i].Date)
	}
}
