package page

import (
	"io"
	"testing"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/ledgertest"
)

// BenchmarkPage makes the page of a made-up household with five machines, as serve does
// anew after each save.
func BenchmarkPage(b *testing.B) {
	rec, faults, err := ledgertest.Read(ledgertest.Files(1, 5))
	if err != nil || len(faults) > 0 {
		b.Fatal(err, faults)
	}
	g, faults := ledger.Join(rec, ledger.Options{})
	if len(faults) > 0 {
		b.Fatal(faults)
	}
	b.ReportAllocs()
	for b.Loop() {
		r, err := ReportsOf(g, g, figures.Query{})
		if err != nil {
			b.Fatal(err)
		}
		p, err := Make(r, true)
		if err != nil {
			b.Fatal(err)
		}
		if err := p.Write(io.Discard, g.AsOf.Midnight(g.Settings.Zone)); err != nil {
			b.Fatal(err)
		}
	}
}
