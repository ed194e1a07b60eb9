package ledger_test

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// manyDiscounts is a receipt of 8,000 lines of 100.00 with 50 discounts of 8.00 on
// all of them, which are named one by one or not at all.
func manyDiscounts(named bool) *ledger.Records {
	const lines, discounts = 8000, 50
	rec := &ledger.Records{}
	rec.Settings.Currency = exact.MustCurrency("EUR")
	rec.Settings.Zone = time.UTC
	var rows []ledger.ReceiptRow
	add := func(r ledger.ReceiptRow) {
		r.Line, r.Receipt, r.Date, r.Shop, r.Count = len(rows)+2, "r", exact.MustDate("2025-01-01"), "s", exact.MustNumber("1")
		rows = append(rows, r)
	}
	var on []string
	for i := range lines {
		number := fmt.Sprint(i + 1)
		add(ledger.ReceiptRow{Number: number, Kind: ledger.OtherLine, Item: "a", Price: exact.MustMoney("100")})
		if named {
			on = append(on, number)
		}
	}
	for range discounts {
		add(ledger.ReceiptRow{Kind: ledger.DiscountLine, Price: exact.MustMoney("8"), Rest: &ledger.ReceiptRest{Amounts: &ledger.ReceiptAmounts{On: slices.Clone(on)}}})
	}
	rec.Receipts = ledger.ReceiptList{}.With(rows...)
	return rec
}

// A discount of 8.00 over 8,000 lines is a cent for each of the first 800, whether
// they are named or not.
func TestManyDiscounts(t *testing.T) {
	for _, named := range []bool{false, true} {
		g, faults := ledger.Join(manyDiscounts(named), ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		for i, spent := range g.Spends[:8000] {
			want := "100"
			if i < 800 {
				want = "99.5"
			}
			if spent.String() != want {
				t.Fatalf("named %v: line %d costs %v, want %s", named, i+1, spent, want)
			}
		}
	}
}

// Discounts that name every line of a long receipt take about the time of those that
// mean all lines without naming them. When each line was looked for among those before
// it, they took many times as long.
func BenchmarkDiscounts(b *testing.B) {
	for _, named := range []bool{false, true} {
		b.Run(fmt.Sprintf("named=%v", named), func(b *testing.B) {
			rec := manyDiscounts(named)
			for b.Loop() {
				if _, faults := ledger.Join(rec, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate}); len(faults) > 0 {
					b.Fatal(faults)
				}
			}
		})
	}
}
