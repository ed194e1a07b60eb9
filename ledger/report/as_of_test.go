package report_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"putby/energy"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// withoutLaterRuns is the records as if no run had begun, no price been seen and
// no food been cooked after a day. Later packs of the runs before stay, and what
// was bought for them.
func withoutLaterRuns(rec *ledger.Records, day exact.Date) *ledger.Records {
	cut, later := *rec, map[string]bool{}
	cut.Runs = slices.DeleteFunc(slices.Clone(rec.Runs), func(r ledger.Run) bool {
		later[r.ID] = exact.DateIn(r.Start) > day
		return later[r.ID]
	})
	cut.Loads = rec.Loads.Only(func(l *ledger.Load) bool { return !later[l.Run] })
	cut.Phases = rec.Phases.Only(func(p *ledger.Phase) bool { return !later[p.Run] })
	cut.Meters = maps.Clone(rec.Meters)
	maps.DeleteFunc(cut.Meters, func(run string, _ *energy.Log) bool { return later[run] })
	gone := map[string]bool{}
	cut.Packs = rec.Packs.Only(func(p *ledger.Pack) bool {
		gone[p.ID] = later[p.Run]
		return !gone[p.ID]
	})
	cut.Draws = rec.Draws.Only(func(d *ledger.Draw) bool { return d.Date <= day && !gone[d.Pack] })
	cut.Counts = slices.DeleteFunc(slices.Clone(rec.Counts), func(c ledger.Count) bool { return c.Date > day || gone[c.Pack] })
	cut.Shelf = slices.DeleteFunc(slices.Clone(rec.Shelf), func(s ledger.ShelfRow) bool { return s.Date > day })
	cut.Batches = slices.DeleteFunc(slices.Clone(rec.Batches), func(b ledger.Batch) bool { return b.Date > day })
	return &cut
}

// What cost says as of a day, notes and all, is what it says of the records as
// they stood then: nothing of it knows of later runs or prices.
func TestCostKnowsNothingLater(t *testing.T) {
	said := func(g *ledger.Ledger, day exact.Date) string {
		q := figures.Query{}
		q.AsOf = day
		d, err := report.Cost(g, figures.CostQuery{Query: q}, false)
		if err != nil {
			t.Fatal(err)
		}
		var b strings.Builder
		for _, key := range []string{"rows", "totals"} {
			for _, row := range table(t, d, key).Rows {
				for _, cell := range row.Cells {
					fmt.Fprint(&b, cell.Exact(d.Currency), " ")
				}
				fmt.Fprintln(&b, row.Notes)
			}
		}
		return b.String() + strings.Join(d.Foot(), "\n")
	}
	for _, day := range monthEnds(t) {
		g := whole(t, sample, day)
		cut, faults := ledger.Join(withoutLaterRuns(g.Records, day), ledger.Options{Through: exact.NoDate, PricesThrough: day})
		if faults != nil {
			t.Fatal(day, faults[0])
		}
		if have, want := said(g, day), said(cut, day); have != want {
			t.Errorf("as of %v cost says\n%s\nof the records as they stood\n%s", day, have, want)
		}
	}
}
