package figures_test

import (
	"testing"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/ledgertest"
)

// BenchmarkCost works out what a made-up decade cost, of records that are joined.
func BenchmarkCost(b *testing.B) {
	rec, faults, err := ledgertest.Read(ledgertest.Files(1, 1))
	if err != nil || len(faults) > 0 {
		b.Fatal(err, faults)
	}
	g, faults := ledger.Join(rec, ledger.Options{})
	if len(faults) > 0 {
		b.Fatal(faults)
	}
	for name, by := range map[string]figures.By{"run": figures.ByRun, "month": figures.ByMonth} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if r, err := figures.Cost(g, figures.CostQuery{By: by}); err != nil || len(r.Rows) == 0 {
					b.Fatal(len(r.Rows), err)
				}
			}
		})
	}
}
