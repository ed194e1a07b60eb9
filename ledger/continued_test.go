package ledger_test

import (
	"fmt"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"putby/ledger"
	"putby/pricing/exact"
)

// A ledger whose shelf prices alone were changed is what is joined of all its records;
// where they are wrong, or anything else was changed, there is none.
func TestContinuedPrices(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rec := madeRecords(t)
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
		got, ok := all.Continued(now)
		want, faults := ledger.Join(now, whole)
		if !ok || len(faults) > 0 {
			t.Fatalf("it cannot be gone on with: %v %v", ok, faults)
		}
		sameLedger(t, got, want)
		samePrices(t, got, want)
		if got, ok := all.Continued(rec); !ok || got.Day() != all.Day() {
			t.Error("the same prices are refused")
		}
		if _, ok := all.Continued(withRow(t, now, "price", map[string]string{"date": last.String(), "shop": "Stall", "item": "nothing", "size": "1 kg", "price": "1"})); ok {
			t.Error("a price of an unknown food is taken")
		}
		if _, ok := all.Continued(withRow(t, now, "count", map[string]string{"date": last.String(), "item": rec.Foods[0].ID, "quantity": "0 " + rec.Foods[0].Basis.String()})); ok {
			t.Error("a count is passed over")
		}
		if _, ok := all.Continued(withRow(t, now, "holiday", map[string]string{"tariff": "t", "date": last.String()})); ok {
			t.Error("a holiday is passed over")
		}
		other := *now
		other.Settings.Costing = ledger.Average - other.Settings.Costing
		if _, ok := all.Continued(&other); ok {
			t.Error("another setting is passed over")
		}
		if early, _ := ledger.Join(rec, ledger.Options{Through: last.AddDays(-1), PricesThrough: last.AddDays(-1)}); early != nil {
			if _, ok := early.Continued(now); ok {
				t.Error("a ledger that leaves out records is gone on with")
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

func samePrices(t *rapid.T, got, want *ledger.Ledger) {
	t.Helper()
	for i := range got.Foods {
		if !reflect.DeepEqual(got.ShelfOf(i), want.ShelfOf(i)) {
			t.Errorf("it has other prices of %s than when it is joined", got.Foods[i].ID)
		}
	}
}

// A ledger that is gone on with is what is joined of all its records, to the last lot and
// move; where it cannot be gone on with, or anything is wrong, there is none.
func TestContinued(t *testing.T) {
	went, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		now := madeRecords(t)
		g, _ := ledger.Join(now, whole)
		last := ledger.LastDate(now)
		if last == exact.NoDate || len(now.Foods) == 0 {
			return
		}
		for n := range rapid.IntRange(1, 6).Draw(t, "saves") {
			for range rapid.IntRange(1, 2).Draw(t, "records") {
				now = withMore(t, now, g, last, n)
			}
			want, faults := ledger.Join(now, whole)
			got, ok := g.Continued(now)
			if len(faults) > 0 {
				if ok {
					t.Fatalf("what is wrong is passed over: %v", faults)
				}
				return
			}
			if ok {
				went++
				sameLedger(t, got, want)
				samePrices(t, got, want)
				for i := range now.Supplies {
					if !reflect.DeepEqual(got.SupplyStock(i), want.SupplyStock(i)) || got.Pieces(i) != want.Pieces(i) {
						t.Errorf("there is other stock of %s than when it is joined", now.Supplies[i].ID)
					}
				}
				g = got
			} else {
				refused++
				g = want
			}
		}
	})
	t.Logf("%d went on, %d did not", went, refused)
	if went < refused/4 || refused == 0 {
		t.Errorf("%d went on, %d did not", went, refused)
	}
}

// What was bought before a meal of the same food would have been eaten in place of what is
// frozen: that is joined anew, even where nothing of it can be seen in money.
func TestContinuedKeepsFrozen(t *testing.T) {
	g := book(t, berries+"-- frozen.csv --\ndate,item,quantity\n2025-06-03,berry,7 kg\n-- draws.csv --\ndate,item,quantity\n2025-06-06,berry,1 kg\n")
	for day, want := range map[string]bool{"2025-06-05": false, "2025-06-06": false, "2025-06-07": true} {
		rec, faults := g.Records.With(ledger.MustKind("receipt"), map[string]string{
			"receipt": "more", "date": day, "shop": "Stall", "line": "1", "kind": "food", "item": "berry", "count": "1", "size": "2 kg", "price": "4.00"})
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		if _, ok := g.Continued(rec); ok != want {
			t.Errorf("bought on %s: gone on with is %t", day, ok)
		}
	}
}

// withMore is records with one more, on one of the last days or after them.
func withMore(t *rapid.T, rec *ledger.Records, g *ledger.Ledger, last exact.Date, n int) *ledger.Records {
	day := last.AddDays(rapid.SampledFrom([]int{-3, -1, 0, 0, 0, 1, 2}).Draw(t, "day")).String()
	food := rec.Foods[rapid.IntRange(0, len(rec.Foods)-1).Draw(t, "food")]
	amount := rapid.SampledFrom([]string{"0.01 ", "1 ", "3 "}).Draw(t, "amount") + food.Basis.String()
	switch rapid.SampledFrom([]string{"receipt", "receipt", "pack", "pack", "food", "supply", "frozen", "price", "box"}).Draw(t, "what") {
	case "receipt":
		id := fmt.Sprintf("more-%d-%d", n, rec.Receipts.Len())
		rec = withRow(t, rec, "receipt", map[string]string{"receipt": id, "date": day, "shop": "Stall", "line": "1", "kind": "food", "item": food.ID, "count": "2", "size": "1 " + food.Basis.String(), "price": "1.25"})
		return withRow(t, rec, "receipt", map[string]string{"receipt": id, "date": day, "shop": "Stall", "line": "2", "kind": "discount", "price": "0.33"})
	case "box":
		if len(rec.Supplies) > 0 {
			return withRow(t, rec, "receipt", map[string]string{"receipt": fmt.Sprintf("box-%d", n), "date": day, "shop": "Stall", "kind": "supply", "item": rec.Supplies[0].ID, "count": "2", "price": "1.25"})
		}
	case "pack":
		for i := range g.Packs {
			if g.Packs[i].Done && g.Packs[i].Left() > 0 {
				return withRow(t, rec, "draw", map[string]string{"date": day, "pack": rec.Packs.At(i).ID, "quantity": "1", "reason": "used"})
			}
		}
	case "supply":
		if len(rec.Supplies) > 0 {
			s := rec.Supplies[rapid.IntRange(0, len(rec.Supplies)-1).Draw(t, "supply")]
			return withRow(t, rec, "draw", map[string]string{"date": day, "item": s.ID, "quantity": "1", "reason": "spoiled"})
		}
	case "food":
		return withRow(t, rec, "draw", map[string]string{"date": day, "item": food.ID, "quantity": amount, "reason": "used"})
	case "frozen":
		return withRow(t, rec, "frozen", map[string]string{"date": day, "item": food.ID, "quantity": amount})
	}
	return withRow(t, rec, "price", map[string]string{"date": day, "shop": "Stall", "item": food.ID, "size": "2 " + food.Basis.String(), "price": "3.10"})
}
