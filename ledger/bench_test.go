package ledger_test

import (
	"testing"

	"putby/ledger"
	"putby/ledger/ledgertest"
	"putby/pricing/exact"
)

// sizes of the benchmarks, in household-decades.
var sizes = []struct {
	name  string
	times int
}{{"decade", 1}, {"hundred", 100}}

// whole is a join of everything.
var whole = ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate}

func BenchmarkJoin(b *testing.B) {
	for _, size := range sizes {
		b.Run(size.name, func(b *testing.B) {
			rec, faults, err := ledgertest.Read(ledgertest.Files(1, size.times))
			if err != nil || len(faults) > 0 {
				b.Fatal(err, faults)
			}
			b.ReportAllocs()
			for b.Loop() {
				if _, faults := ledger.Join(rec, whole); len(faults) > 0 {
					b.Fatal(faults)
				}
			}
		})
	}
}

// BenchmarkList looks at each pack, by its position and in order.
func BenchmarkList(b *testing.B) {
	rec, faults, err := ledgertest.Read(ledgertest.Files(1, 1))
	if err != nil || len(faults) > 0 {
		b.Fatal(err, faults)
	}
	n := rec.Packs.Len()
	b.Run("At", func(b *testing.B) {
		for b.Loop() {
			count := 0
			for i := range n {
				count += rec.Packs.At(i).Count
			}
			if count < n {
				b.Fatal(count)
			}
		}
		b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*n), "ns/row")
	})
	b.Run("All", func(b *testing.B) {
		for b.Loop() {
			count := 0
			for _, p := range rec.Packs.All() {
				count += p.Count
			}
			if count < n {
				b.Fatal(count)
			}
		}
		b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*n), "ns/row")
	})
}
