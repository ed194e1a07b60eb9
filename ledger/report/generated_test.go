package report_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/ledgertest"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// records makes up so many household-decades.
func records(t testing.TB, seed uint64, times int) *ledger.Records {
	t.Helper()
	rec, faults, err := ledgertest.Read(ledgertest.Files(seed, times))
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	return rec
}

// On a made-up ledger, at any date: the months open and close with what is on
// hand, they sum to the years, and what is earned back is their net and wear.
func TestReportsOfMadeUpLedger(t *testing.T) {
	rec := records(t, 3, 1)
	first, last := date("2014-01-01"), ledger.LastDate(rec)
	rng := rand.New(rand.NewPCG(3, 7))
	for range 8 {
		asOf := first.AddDays(rng.IntN(int(last - first)))
		g, faults := ledger.Join(rec, ledger.Options{Through: asOf, PricesThrough: asOf})
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		holdsTogether(t, g)
	}
}

func holdsTogether(t *testing.T, g *ledger.Ledger) {
	t.Helper()
	month := monthly(t, g, nil)
	rows := table(t, month, "rows")
	sum := exact.Ratio{}
	for i, packs := 0, table(t, onHand(t, g, nil), "packs"); i < len(packs.Rows); i++ {
		sum = sum.Add(cell(t, packs, i, "cost").Ratio())
	}
	if closing := cell(t, rows, len(rows.Rows)-1, "closing").Ratio(); !closing.Equal(sum) {
		t.Errorf("as of %v the months close with %v, on hand is %v", g.AsOf, closing, sum)
	}
	years := monthly(t, g, func(q *figures.MonthQuery) { q.Each = figures.EachYear })
	for _, key := range []string{"food_spent", "put_by", "used", "lost", "saved", "net", "closing"} {
		have, want := value(t, part[report.Object](t, years, "totals"), key), value(t, part[report.Object](t, month, "totals"), key)
		if !have.Ratio().Equal(want.Ratio()) {
			t.Errorf("as of %v %s is %v by years, %v by months", g.AsOf, key, have.Ratio(), want.Ratio())
		}
	}
	earned, net := table(t, payback(t, g, nil), "rows"), exact.Ratio{}
	for i := range earned.Rows {
		net = net.Add(cell(t, rows, i, "net").Ratio()).Add(cell(t, earned, i, "wear").Ratio())
	}
	if have := cell(t, earned, len(earned.Rows)-1, "so_far").Ratio(); !have.Equal(net) {
		t.Errorf("as of %v %v is earned, want %v", g.AsOf, have, net)
	}
}

// BenchmarkReports measures each report on ledgers that are joined already, of
// one household-decade and of eight.
func BenchmarkReports(b *testing.B) {
	for _, times := range []int{1, 8} {
		rec := records(b, 1, times)
		g, faults := ledger.Join(rec, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate, Itemize: true})
		if len(faults) > 0 {
			b.Fatal(faults)
		}
		q := figures.Query{}
		for name, make := range map[string]func() (report.Doc, error){
			"month":   func() (report.Doc, error) { return report.Month(g, figures.MonthQuery{Query: q}) },
			"compare": func() (report.Doc, error) { return report.Compare(g, figures.CompareQuery{Query: q}) },
			"onhand":  func() (report.Doc, error) { return question.OnHand(g, figures.OnHandQuery{Query: q}) },
			"payback": func() (report.Doc, error) { return report.Payback(g, figures.PaybackQuery{Query: q}) },
			"trace": func() (report.Doc, error) {
				return question.Trace(g, figures.TraceQuery{Name: g.Receipts.At(g.Receipts.Len() / 2).Receipt})
			},
			"cost": func() (report.Doc, error) { return report.Cost(g, figures.CostQuery{Query: q}, false) },
		} {
			b.Run(fmt.Sprintf("%s/%d", name, times), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if _, err := make(); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
		b.Run(fmt.Sprintf("join/%d", times), func(b *testing.B) {
			for b.Loop() {
				ledger.Join(rec, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
			}
		})
	}
}
