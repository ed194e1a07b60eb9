package entry

import (
	"errors"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

func lines(t *testing.T, texts ...string) *Receipt {
	t.Helper()
	r := &Receipt{ID: "r1", Date: "2025-03-04", Shop: "Corner shop", Currency: exact.MustCurrency("EUR")}
	for _, text := range texts {
		kind, rest, ok := kindWord(text)
		if !ok {
			t.Fatalf("%q begins with no kind", text)
		}
		l, err := ParseLine(kind, rest)
		if err != nil {
			t.Fatal(err)
		}
		r.Lines = append(r.Lines, l)
	}
	return r
}

// A receipt by hand: 2 x 2.80 less 0.60 (2 for 5.00) is 5.00; 2.40; the card
// takes 1.00 off the first; a bottle's deposit is 0.25.
func TestReceiptSum(t *testing.T) {
	r := lines(t, "food 2 x 2 kg carrots at 2.80 offer 2 for 5.00", "other bus fare at 2.40", "discount 1.00 on 1", "deposit 0.25", "total 6.65")
	s, err := r.Sum()
	if err != nil {
		t.Fatal(err)
	}
	printed, _ := s.Printed.Get()
	if got := fmt.Sprint(s.Lines, s.Total, printed); got != "[5 2.4 -1 0.25 0] 6.65 6.65" {
		t.Error(got)
	}
	r.DropTotal()
	if s, err = r.Sum(); err != nil || s.Printed.Given() || len(r.Lines) != 4 {
		t.Errorf("without its total: %v, %v", s, err)
	}
}

func TestReceiptSumRefuses(t *testing.T) {
	for _, test := range []struct {
		texts []string
		want  error
		text  string
	}{
		{[]string{"discount 1.00"}, pricing.ErrNoLines, "line 1: there is no line"},
		{[]string{"other tea at 2", "discount 1.00 on 3"}, nil, `line 2: "3" is no line of a thing bought`},
		{[]string{"other tea at 2", "charge 1 on 2"}, nil, `line 2: "2" is no line of a thing bought`},
		{[]string{"charge 1.005", "other tea at 2"}, pricing.ErrMinorPlaces, "line 1: "},
		{[]string{"deposit 1", "other tea at 2 less 3", "tax 1"}, pricing.ErrNegativeBase, "line 2: "},
	} {
		_, err := lines(t, test.texts...).Sum()
		if err == nil || test.want != nil && !errors.Is(err, test.want) || len(err.Error()) < len(test.text) || err.Error()[:len(test.text)] != test.text {
			t.Errorf("%q: %v, want %s", test.texts, err, test.text)
		}
	}
}

func TestReceiptOffer(t *testing.T) {
	one := lines(t, "food 3 x 1 kg pears at 1.99", "total 5.00")
	if err := one.Offer("3 for 5.00"); err != nil {
		t.Error(err)
	}
	if s, err := one.Sum(); err != nil || s.Total.String() != "5" {
		t.Error(s.Total, err)
	}
	for _, r := range []*Receipt{one, lines(t, "food 1 kg pears at 2", "other tea at 2"), lines(t, "total 2")} {
		if err := r.Offer("10% off"); !errors.Is(err, errOffer) {
			t.Errorf("%v: %v", r.Lines, err)
		}
	}
	if err := one.Offer("cake"); !errors.Is(err, pricing.ErrOffer) {
		t.Error(err)
	}
}

// What a receipt comes to is what the ledger makes of its rows.
func TestSumIsTheLedgers(t *testing.T) {
	receipts := ledger.MustKind("receipt")
	foods := ledger.MustKind("food")
	rapid.Check(t, func(t *rapid.T) {
		r := &Receipt{ID: "r1", Date: "2025-03-04", Shop: "s", Currency: exact.MustCurrency(rapid.SampledFrom([]string{"EUR", "JPY", "KWD"}).Draw(t, "currency"))}
		minor := r.Currency.Minor()
		amount := func(name string) string {
			return exact.New(rapid.Int64Range(0, 9999).Draw(t, name), minor).String()
		}
		for i := range rapid.IntRange(1, 6).Draw(t, "bought") {
			text := fmt.Sprintf("%d x 1 kg pears at %s", rapid.IntRange(1, 9).Draw(t, "count"), amount("price"))
			if rapid.Bool().Draw(t, "offer") {
				text += " offer " + rapid.SampledFrom([]string{"3 for 2", "25% off", "every 2nd half price"}).Draw(t, "rule")
			}
			if i == 0 && rapid.Bool().Draw(t, "scale") {
				text = fmt.Sprintf("%d g pears at %s/kg", rapid.IntRange(1, 5000).Draw(t, "grams"), amount("price"))
			}
			add(t, r, ledger.FoodLine, text)
		}
		for range rapid.IntRange(0, 3).Draw(t, "wide") {
			kind := rapid.SampledFrom([]ledger.ReceiptKind{ledger.DiscountLine, ledger.TaxLine, ledger.ChargeLine, ledger.DepositLine}).Draw(t, "kind")
			text := amount("amount")
			if kind.Wide() && rapid.Bool().Draw(t, "on") {
				text += " on 1"
			}
			add(t, r, kind, text)
		}
		s, err := r.Sum()
		rec := &ledger.Records{Settings: ledger.Settings{Currency: r.Currency}}
		rec, faults := rec.With(foods, map[string]string{"food": "pears", "basis": "mass"})
		if faults != nil {
			t.Fatal(faults)
		}
		rows, rowsErr := r.Rows()
		if rowsErr != nil {
			t.Fatal(rowsErr)
		}
		for _, row := range rows {
			if rec, faults = rec.With(receipts, row.Cells); faults != nil {
				t.Fatal(faults)
			}
		}
		g, faults := ledger.Join(rec, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
		if (err != nil) != (faults != nil) {
			t.Fatalf("the receipt says %v, the ledger %v", err, faults)
		}
		if err != nil {
			return
		}
		var sum exact.Money
		for _, spend := range g.Spends {
			sum = sum.Add(spend)
		}
		if !sum.Equal(s.Total) {
			t.Fatalf("the receipt comes to %v, in the ledger to %v", s.Total, sum)
		}
	})
}

func add(t *rapid.T, r *Receipt, kind ledger.ReceiptKind, text string) {
	l, err := ParseLine(kind, text)
	if err != nil {
		t.Fatal(err)
	}
	r.Lines = append(r.Lines, l)
}
