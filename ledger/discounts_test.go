package ledger_test

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// A discount of 8.00 over 8,000 lines is a cent for each of the first 800.
//
// TestManyDiscounts: discounts that name every line of a long receipt one by one
// take about the time of those that mean all lines without naming them. (When
// each line was looked for among those before it, they took many times as long.)
func TestManyDiscounts(t *testing.T) {
	const lines, discounts = 8000, 50
	took := func(on string) (best time.Duration) {
		rec := &ledger.Records{}
		rec.Settings.Currency, _ = exact.ParseCurrency("EUR")
		rec.Settings.Zone = time.UTC
		date := exact.MustDate("2025-01-01")
		one := exact.MustNumber("1")
		var rows []ledger.ReceiptRow
		add := func(r ledger.ReceiptRow) {
			r.Line, r.Receipt, r.Date, r.Shop, r.Count = len(rows)+2, "r", date, "s", one
			rows = append(rows, r)
		}
		for i := range lines {
			add(ledger.ReceiptRow{Number: fmt.Sprint(i + 1), Kind: ledger.OtherLine, Item: "a", Price: exact.MustMoney("100")})
		}
		var named []string
		if on != "" {
			for i := range lines {
				named = append(named, fmt.Sprint(i+1))
			}
		}
		for range discounts {
			add(ledger.ReceiptRow{Kind: ledger.DiscountLine, Price: exact.MustMoney("8"), Rest: &ledger.ReceiptRest{Amounts: &ledger.ReceiptAmounts{On: slices.Clone(named)}}})
		}
		rec.Receipts = ledger.ReceiptList{}.With(rows...)
		for range 3 {
			begun := time.Now()
			g, faults := ledger.Join(rec, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
			if t := time.Since(begun); best == 0 || t < best {
				best = t
			}
			if len(faults) > 0 || g.Spends[0].String() != "99.5" {
				t.Fatalf("%v, and the first line costs %v", faults, g.Spends[0])
			}
		}
		return best
	}
	all, named := took(""), took("each")
	t.Logf("all lines %v, each named %v", all, named)
	if named > 5*all+100*time.Millisecond {
		t.Errorf("all lines take %v, each named %v", all, named)
	}
}
