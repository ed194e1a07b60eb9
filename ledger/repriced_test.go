package ledger_test

import (
	"fmt"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"putby/ledger"
	"putby/ledger/ledgertest"
	"putby/pricing/exact"
)

// A ledger whose shelf prices alone were changed is what is joined of all its records;
// where they are wrong, or anything else was changed, there is none.
func TestRepriced(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		files := map[string][]byte{}
		for name, text := range madeLedgers().Draw(t, "ledger") {
			files[name] = []byte(text)
		}
		rec, faults, err := ledgertest.Read(files)
		if err != nil || len(faults) > 0 {
			t.Fatal(err, faults)
		}
		all, _ := ledger.Join(rec, whole)
		last := ledger.LastDate(rec)
		if last == exact.NoDate || len(rec.Foods) == 0 {
			return
		}
		now := rec
		for range rapid.IntRange(0, 3).Draw(t, "prices") {
			food := rec.Foods[rapid.IntRange(0, len(rec.Foods)-1).Draw(t, "food")]
			day := last.AddDays(rapid.IntRange(-100, 100).Draw(t, "days"))
			now = withRow(t, now, "price", map[string]string{
				"date": day.String(), "shop": "Stall", "item": food.ID, "size": "2 " + food.Basis.String(),
				"price": fmt.Sprint(rapid.IntRange(0, 9).Draw(t, "price")), "terms": rapid.SampledFrom([]string{"regular", "offer"}).Draw(t, "terms"),
			})
		}
		got, ok := all.Repriced(now)
		want, faults := ledger.Join(now, whole)
		if !ok || len(faults) > 0 {
			t.Fatalf("it cannot be repriced: %v %v", ok, faults)
		}
		sameLedger(t, got, want, "Lots") // which know the records that they are of
		if !reflect.DeepEqual(lotsOf(got), lotsOf(want)) {
			t.Error("it has other lots than when it is joined")
		}
		for i := range now.Foods {
			if !reflect.DeepEqual(got.ShelfOf(i), want.ShelfOf(i)) {
				t.Errorf("it has other prices of %s than when it is joined", now.Foods[i].ID)
			}
		}
		if got, ok := all.Repriced(rec); !ok || got.Day() != all.Day() {
			t.Error("the same prices are refused")
		}
		if _, ok := all.Repriced(withRow(t, now, "price", map[string]string{"date": last.String(), "shop": "Stall", "item": "nothing", "size": "1 kg", "price": "1"})); ok {
			t.Error("a price of an unknown food is taken")
		}
		if _, ok := all.Repriced(withRow(t, now, "count", map[string]string{"date": last.String(), "item": rec.Foods[0].ID, "quantity": "0 " + rec.Foods[0].Basis.String()})); ok {
			t.Error("a count is passed over")
		}
		if _, ok := all.Repriced(withRow(t, now, "holiday", map[string]string{"tariff": "t", "date": last.String()})); ok {
			t.Error("a holiday is passed over")
		}
		other := *now
		other.Settings.Costing = ledger.Average - other.Settings.Costing
		if _, ok := all.Repriced(&other); ok {
			t.Error("another setting is passed over")
		}
		if early, _ := ledger.Join(rec, ledger.Options{Through: last.AddDays(-1), PricesThrough: last.AddDays(-1)}); early != nil {
			if _, ok := early.Repriced(now); ok {
				t.Error("a ledger that leaves out records is repriced")
			}
		}
	})
}

// withRow is records with one more.
func withRow(t *rapid.T, rec *ledger.Records, kind string, cells map[string]string) *ledger.Records {
	t.Helper()
	more, faults := rec.With(ledger.MustKind(kind), cells)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return more
}

// lotsOf is all that is known of a ledger's lots.
func lotsOf(g *ledger.Ledger) (list []any) {
	for i := range g.Lots {
		l := g.Lots[i]
		list = append(list, l.Item(), l.Receipt(), l.Number(), l.Residual, l.Frozen, l.FrozenOn, l.Row, l.Batch, l.Date, l.Quantity, l.Cost, l.Left, l.CostLeft)
	}
	return list
}
