package ledger_test

import (
	"fmt"
	"testing"

	"putby/ledger"
	"putby/ledger/ledgertest"
	"putby/pricing/exact"
)

// A join that keeps neither moves nor costs of loads, packs and draws comes to the
// same costs of runs, at the end and in the middle.
func TestBareCostsTheSame(t *testing.T) {
	rec, faults, err := ledgertest.Read(ledgertest.Files(5, 1))
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	for _, day := range []exact.Date{exact.NoDate, exact.DateOf(2019, 6, 15)} {
		o := ledger.Options{Through: day, PricesThrough: day}
		g, faults := ledger.Join(rec, o)
		o.Bare = true
		bare, more := ledger.Join(rec, o)
		if len(faults)+len(more) > 0 {
			t.Fatal(faults, more)
		}
		if len(bare.Takes)+len(bare.Moves) > 0 {
			t.Errorf("a bare join keeps %d takes and %d moves", len(bare.Takes), len(bare.Moves))
		}
		have, want := bare.Flows, g.Flows
		if want.Opening, want.Out = have.Opening, have.Out; fmt.Sprint(have) != fmt.Sprint(want) {
			t.Errorf("have %v, want %v", have, want)
		}
		for i := range g.Runs {
			if bare.Runs[i].Loads != nil || len(bare.Runs[i].Items) != len(g.Runs[i].Items) {
				t.Fatalf("run %d has %d loads and %d foods", i, len(bare.Runs[i].Loads), len(bare.Runs[i].Items))
			}
			for j := range g.Runs[i].Items {
				have, want := &bare.Runs[i].Items[j], &g.Runs[i].Items[j]
				if fmt.Sprint(have.Good, *have.Lost, have.Energy, have.Made, have.Short) != fmt.Sprint(want.Good, *want.Lost, want.Energy, want.Made, want.Short) {
					t.Errorf("food %d of run %d: have %v, want %v", j, i, have, want)
				}
			}
		}
		for i := range g.Packs {
			if have, want := &bare.Packs[i], &g.Packs[i]; have.Taken != want.Taken || !have.Own.Equal(want.Own) || fmt.Sprint(have.Notes()) != fmt.Sprint(want.Notes()) {
				t.Errorf("pack %d: have %v, want %v", i, have, want)
			}
		}
	}
}
