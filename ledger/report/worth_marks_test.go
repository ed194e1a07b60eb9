package report_test

import (
	"fmt"
	"strings"
	"testing"

	"putby/ledger"
	"putby/ledger/report"
)

// kilnUsing is the household whose last run of peas used so much.
func kilnUsing(t *testing.T, kwh string) *ledger.Ledger {
	return kilnWith(t, strings.Replace(kiln[strings.Index(kiln, "-- runs.csv --"):strings.Index(kiln, "-- loads.csv --")], ",13,,,", ","+kwh+",,,", 1))
}

// What rests on the estimated electricity is marked wherever it stands, and
// nothing else is: what moves with the runs that it comes from has a "~".
func TestWorthMarksWhatRestsOnAnEstimate(t *testing.T) {
	peas := facts{"price": "2", "size": "1 kg", "limit": "9", "fresh": "2.5 kg", "use": "1.95 kg", "keep-months": "6", "stock": "0"} // 5 kg await packing
	for name, f := range map[string]facts{
		"worth it":       peas,
		"not worth it":   peas.with("price", "9"),
		"fresh alone":    peas.with("price", "7"),
		"offers":         peas.with("offer", "3 for 5.40", "visits", "2"),
		"last one loses": peas.with("load", "3 kg", "wear", "9"),
	} {
		t.Run(name, func(t *testing.T) {
			d, e := ask(t, kilnUsing(t, "13"), "peas", f), ask(t, kilnUsing(t, "13.02"), "peas", f)
			if figure(t, d, "buy") != figure(t, e, "buy") {
				t.Fatal("another answer: the reports cannot be held against each other")
			}
			marked := 0
			each(d.Fields, e.Fields, "", func(where string, a, b report.Value) {
				moves := a.Exact(euro) != b.Exact(euro)
				if marks := a.IsEstimate() || strings.HasPrefix(a.Text(), "~"); marks != moves && !a.IsNull() {
					t.Errorf("%s is %s and %s, marked as an estimate: %v", where, a.Exact(euro), b.Exact(euro), a.IsEstimate())
				}
				if a.IsEstimate() {
					marked++
				}
			})
			if marked < 10 {
				t.Errorf("%d estimates are few", marked)
			}
			if name == "last one loses" && !noted(d.Words, "Why not more than 8: one more would lose ~5.00 EUR.") {
				t.Error(d.Words)
			}
			// Sentences are rounded, so the runs differ by more.
			far := ask(t, kilnUsing(t, "15"), "peas", f)
			for i, sentence := range d.Words {
				a, b := strings.Fields(sentence), strings.Fields(far.Words[i])
				if len(a) != len(b) {
					t.Fatalf("%q and %q", sentence, far.Words[i])
				}
				for j := range a {
					if a[j] != b[j] && !strings.HasPrefix(a[j], "~") || a[j] == b[j] && strings.HasPrefix(a[j], "~") {
						t.Errorf("%q: %s, and %s where a run used more", sentence, a[j], b[j])
					}
				}
			}
		})
	}
}

// each visits the values of two reports of one shape side by side.
func each(d, e []report.Field, where string, visit func(where string, a, b report.Value)) {
	for i := range d {
		at := where + d[i].Key + d[i].Title
		switch n := d[i].Node.(type) {
		case report.Value:
			visit(at, n, e[i].Node.(report.Value))
		case report.Object:
			each(n, e[i].Node.(report.Object), at+".", visit)
		case *report.Table:
			for j, r := range n.Rows {
				for k := range r.Cells {
					visit(fmt.Sprintf("%s row %d, %s", at, j, n.ValueColumns()[k].Key+n.ValueColumns()[k].Title), r.Cells[k], e[i].Node.(*report.Table).Rows[j].Cells[k])
				}
			}
		}
	}
}
