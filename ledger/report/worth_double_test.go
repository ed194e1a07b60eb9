package report_test

import (
	"math/big"
	"slices"
	"testing"

	"putby/ledger"
	"putby/ledger/folder"
	"putby/pricing/exact"
)

// plain takes out of a ledger's receipts what is rounded, or split, at minor
// digits: that does not double to a ledger step.
func plain(rec *ledger.Records) {
	rows := slices.DeleteFunc(rec.Receipts.Slice(), func(r ledger.ReceiptRow) bool { return !r.Kind.Bought() })
	for i := range rows {
		if r := &rows[i]; !r.Count.IsInt() {
			r.Size = r.Size.Unit().Of(r.Size.Number().Mul(r.Count))
			r.Price = exact.MoneyOf(r.Price.Number().Mul(r.Count).Round(2, exact.HalfAway))
			r.Count = exact.Int(1)
		}
	}
	rec.Receipts = ledger.ReceiptList{}.With(rows...)
}

// twice doubles every amount of money in a ledger's records.
func twice(rec *ledger.Records) {
	two := exact.Int(2)
	m := func(v *exact.Money) { *v = v.Times(two) }
	m(&rec.Settings.HourValue)
	for i := range rec.Supplies {
		if p, ok := rec.Supplies[i].Price.Get(); ok {
			rec.Supplies[i].Price = exact.Some(p.Times(two))
		}
	}
	for i := range rec.Machines {
		m(&rec.Machines[i].Residual)
	}
	for i := range rec.Tariffs {
		rec.Tariffs[i].Rate = rec.Tariffs[i].Rate.Mul(two)
	}
	rows := rec.Receipts.Slice()
	for i := range rows {
		r := &rows[i]
		m(&r.Price)
		if r.Rest != nil && r.Rest.Amounts != nil {
			m(&r.Rest.Amounts.Discount)
			m(&r.Rest.Amounts.Tax)
		}
	}
	rec.Receipts = ledger.ReceiptList{}.With(rows...)
	for i := range rec.Shelf {
		m(&rec.Shelf[i].Price)
	}
	for i := range rec.Batches {
		m(&rec.Batches[i].Cost)
	}
	packs := rec.Packs.Slice()
	for i := range packs {
		m(&packs[i].Cost)
	}
	rec.Packs = ledger.PackList{}.With(packs...)
}

// Money has no scale: when every price doubles, the answer stays and every
// figure doubles, within one ledger step for each posting in it.
func TestWorthDoublesWithEveryPrice(t *testing.T) {
	rec, faults, err := folder.Read(sample)
	if err != nil || faults != nil {
		t.Fatal(err, faults)
	}
	o := ledger.Options{Through: date("2025-06-30"), PricesThrough: exact.NoDate}
	plain(rec)
	g, faults := ledger.Join(rec, o)
	dear, _, _ := folder.Read(sample)
	plain(dear)
	twice(dear)
	h, more := ledger.Join(dear, o)
	if faults != nil || more != nil {
		t.Fatal(faults, more)
	}
	for _, c := range []struct {
		item, price, double string
		f                   facts
	}{
		{"strawberries", "2.49", "4.98", facts{"size": "454g", "limit": "30", "start": "2025-06-30 00:00"}},
		{"eggs", "1.20", "2.40", facts{"size": "12 ea", "limit": "40", "as": "beaten-egg"}},
		{"chicken-backs", "3.90", "7.80", facts{"size": "10 lb", "limit": "3", "as": "chicken-broth", "start": "2025-06-30 00:00"}},
	} {
		d := ask(t, g, c.item, c.f.with("price", c.price))
		e := ask(t, h, c.item, c.f.with("price", c.double))
		for _, key := range []string{"buy", "dried", "cycles"} {
			if a, b := figure(t, d, key), figure(t, e, key); a != b {
				t.Errorf("%s: %s is %s, and %s at double prices", c.item, key, a, b)
			}
		}
		if figure(t, d, "buy") == "0" {
			t.Errorf("%s: nothing is bought, so nothing is tested", c.item)
		}
		// A posting for the packages' rest, each element of each cycle and the containers.
		steps := new(big.Rat).Add(mul(rat(figure(t, d, "cycles")), count(4)), count(6))
		for _, key := range []string{"cost", "value", "saving", "break_even_price", "drying_break_even_price", "shelf_per_unit"} {
			off := sub(rat(figure(t, e, key)), mul(count(2), rat(figure(t, d, key))))
			if off.Abs(off).Cmp(mul(steps, big.NewRat(1, 1_000_000))) > 0 {
				t.Errorf("%s: %s is off by %s when prices double", c.item, key, off.FloatString(9))
			}
		}
	}
}
