package pricing_test

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"putby/pricing"
	"putby/pricing/exact"
)

func TestBase(t *testing.T) {
	tests := []struct {
		what, count, price, discount string
		minor                        int
		want                         string
	}{
		{"whole", "3", "1.99", "0", 2, "5.97"},
		{"loose, down", "1.234", "2.99", "0", 2, "3.69"},                       // 3.68966
		{"loose, a tie goes up", "0.5", "0.01", "0", 2, "0.01"},                // 0.005
		{"price beyond minor digits", "7", "0.1429", "0", 2, "1.00"},           // 1.0003
		{"discount comes off after rounding", "1.5", "0.33", "0.1", 2, "0.40"}, // 0.495
		{"no minor digits (JPY)", "0.4", "298", "0", 0, "119"},                 // 119.2
		{"three minor digits (KWD)", "0.75", "1.25", "0.125", 3, "0.813"},      // 0.9375
	}
	for _, test := range tests {
		l := pricing.Line{Count: num(test.count), Price: num(test.price), Discount: eur(test.discount)}
		wantMoney(t, test.what, l.Base(test.minor), test.want)
	}
}

// IAS 2, paragraph 11: trade discounts and rebates are deducted from the costs
// of purchase. Whether a discount stands on the line or under the receipt, it
// makes the goods cheaper and is income of nobody.
func TestDiscountsAreDeductedFromCost(t *testing.T) {
	onLine := []pricing.Line{{Count: num("10"), Price: num("4"), Discount: eur("3")}}
	under := []pricing.Line{{Count: num("10"), Price: num("4")}}
	for _, test := range []struct {
		lines []pricing.Line
		wide  []pricing.Adjustment
	}{
		{onLine, nil},
		{under, []pricing.Adjustment{{Amount: eur("-3")}}},
	} {
		costs, err := pricing.Post(test.lines, test.wide, 2)
		if err != nil {
			t.Fatal(err)
		}
		wantMoney(t, "cost", costs[0], "37")
	}
}

func TestPost(t *testing.T) {
	flour := pricing.Line{Count: num("2"), Price: num("1.25")}                        // 2.50
	leeks := pricing.Line{Count: num("0.742"), Price: num("3.98"), Tax: eur("0.21")}  // 2.95 + tax
	jars := pricing.Line{Count: num("12"), Price: num("1.10"), Discount: eur("0.20")} // 13.00
	free := pricing.Line{Count: num("4"), Price: num("0")}                            // 0
	tests := []struct {
		what  string
		lines []pricing.Line
		wide  []pricing.Adjustment
		want  []string
	}{
		{"none", []pricing.Line{flour, leeks}, nil, []string{"2.50", "3.16"}},
		{
			// 2.00 by 2.50/2.95/13.00: 27.1, 31.9, 140.9 cents; the last cents go to
			// the largest fractions, .97 and .92. Line tax is no part of the base.
			"coupon on all", []pricing.Line{flour, leeks, jars},
			[]pricing.Adjustment{{Amount: eur("-2.00")}}, []string{"2.23", "2.84", "11.59"},
		},
		{
			"tax on two lines", []pricing.Line{flour, leeks, jars},
			[]pricing.Adjustment{{Amount: eur("1.00"), On: []int{0, 2}}}, []string{"2.66", "3.16", "13.84"},
		},
		{
			"each on the same base", []pricing.Line{flour, flour},
			[]pricing.Adjustment{{Amount: eur("-2.50"), On: []int{0}}, {Amount: eur("1.01")}}, []string{"0.51", "3.00"},
		},
		{
			"nothing to weigh by: equal shares", []pricing.Line{free, free, free},
			[]pricing.Adjustment{{Amount: eur("0.50")}}, []string{"0.17", "0.17", "0.16"},
		},
		{
			"a free line bears no share", []pricing.Line{flour, free},
			[]pricing.Adjustment{{Amount: eur("0.99")}}, []string{"3.49", "0"},
		},
	}
	for _, test := range tests {
		got, err := pricing.Post(test.lines, test.wide, 2)
		if err != nil {
			t.Fatalf("%s: %v", test.what, err)
		}
		if !slices.EqualFunc(got, monies(test.want...), exact.Money.Equal) {
			t.Errorf("%s: %v, want %v", test.what, got, test.want)
		}
	}
}

// Splitting cases from outside, as receipt-wide amounts over lines whose bases
// are the weights.
func TestPostSplits(t *testing.T) {
	tests := []struct {
		source, amount string
		weights, want  []string
	}{
		{"moneyphp documentation", "0.05", []string{"70", "30"}, []string{"0.04", "0.01"}},
		{"moneyphp documentation", "0.05", []string{"30", "70"}, []string{"0.02", "0.03"}},
		{"moneyphp documentation", "8.00", []string{"1", "1", "1"}, []string{"2.67", "2.67", "2.66"}},
		{"largest remainder", "0.10", []string{"1", "2", "4"}, []string{"0.01", "0.03", "0.06"}},
		{"largest remainder", "10.03", []string{"50", "50"}, []string{"5.02", "5.01"}},
		{"a negative amount splits as its absolute value", "-0.05", []string{"70", "30"}, []string{"-0.04", "-0.01"}},
	}
	for _, test := range tests {
		var lines []pricing.Line
		for _, w := range test.weights {
			lines = append(lines, pricing.Line{Count: num("1"), Price: num(w)})
		}
		costs, err := pricing.Post(lines, []pricing.Adjustment{{Amount: eur(test.amount)}}, 2)
		if err != nil {
			t.Fatal(err)
		}
		for i, c := range costs {
			wantMoney(t, fmt.Sprintf("%s: share %d of %s", test.source, i, test.amount),
				c.Sub(lines[i].Base(2)), test.want[i])
		}
	}
}

func TestPostErrors(t *testing.T) {
	good := pricing.Line{Count: num("1"), Price: num("1")}
	over := pricing.Line{Count: num("1"), Price: num("1"), Discount: eur("1.01")}
	fine := pricing.Line{Count: num("1"), Price: num("1"), Discount: eur("0.001")}
	taxed := pricing.Line{Count: num("1"), Price: num("1"), Tax: eur("0.001")}
	coupon := pricing.Adjustment{Amount: eur("-0.10")}
	tests := []struct {
		what  string
		lines []pricing.Line
		wide  []pricing.Adjustment
		want  pricing.PostError
		text  string
	}{
		{"negative base", []pricing.Line{good, over}, []pricing.Adjustment{coupon},
			pricing.PostError{Line: 1, Adjustment: 0, Err: pricing.ErrNegativeBase}, "receipt-wide amount 1 on line 2: "},
		{"discount places", []pricing.Line{good, fine}, nil,
			pricing.PostError{Line: 1, Adjustment: -1, Err: pricing.ErrMinorPlaces}, "line 2 of the receipt: "},
		{"tax places", []pricing.Line{taxed}, nil,
			pricing.PostError{Line: 0, Adjustment: -1, Err: pricing.ErrMinorPlaces}, "line 1 of the receipt: "},
		{"amount places", []pricing.Line{good}, []pricing.Adjustment{coupon, {Amount: eur("0.125")}},
			pricing.PostError{Line: -1, Adjustment: 1, Err: pricing.ErrMinorPlaces}, "receipt-wide amount 2: "},
		{"no lines", nil, []pricing.Adjustment{coupon},
			pricing.PostError{Line: -1, Adjustment: 0, Err: pricing.ErrNoLines}, "receipt-wide amount 1: "},
		{"on no lines", []pricing.Line{good}, []pricing.Adjustment{{Amount: eur("1"), On: []int{}}},
			pricing.PostError{Line: -1, Adjustment: 0, Err: pricing.ErrNoLines}, "receipt-wide amount 1: "},
		{"no such line", []pricing.Line{good}, []pricing.Adjustment{{Amount: eur("1"), On: []int{1}}},
			pricing.PostError{Line: 1, Adjustment: 0, Err: pricing.ErrNoSuchLine}, "receipt-wide amount 1 on line 2: "},
		{"a line twice", []pricing.Line{good}, []pricing.Adjustment{{Amount: eur("1"), On: []int{0, 0}}},
			pricing.PostError{Line: 0, Adjustment: 0, Err: pricing.ErrNoSuchLine}, "receipt-wide amount 1 on line 1: "},
	}
	for _, test := range tests {
		_, err := pricing.Post(test.lines, test.wide, 2)
		var got *pricing.PostError
		if !errors.As(err, &got) || *got != test.want || !errors.Is(err, test.want.Err) {
			t.Errorf("%s: error %#v, want %#v", test.what, err, test.want)
			continue
		}
		if want := test.text + test.want.Err.Error(); err.Error() != want {
			t.Errorf("%s: %q, want %q", test.what, err, want)
		}
	}
}

// A negative base is a fault only where something is apportioned on it.
func TestPostNegativeBaseAlone(t *testing.T) {
	over := pricing.Line{Count: num("1"), Price: num("1"), Discount: eur("1.50")}
	good := pricing.Line{Count: num("1"), Price: num("1")}
	costs, err := pricing.Post([]pricing.Line{over, good}, []pricing.Adjustment{{Amount: eur("1"), On: []int{1}}}, 2)
	if err != nil {
		t.Fatal(err)
	}
	wantMoney(t, "cost below nothing", costs[0], "-0.50")
	wantMoney(t, "cost of the other", costs[1], "2")
}

// Law: the costs add up to what was paid, to the last digit, and each cost has
// at most minor digits.
func TestPostAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		minor := rapid.IntRange(0, 3).Draw(t, "minor")
		lines := make([]pricing.Line, rapid.IntRange(1, 9).Draw(t, "lines"))
		var paid exact.Money
		for i := range lines {
			l := &lines[i]
			l.Count = number(t, "count", 0, 20_000, 3)
			l.Price = number(t, "price", 0, 90_000, rapid.IntRange(0, 4).Draw(t, "places"))
			part := number(t, "part", 0, 100, 2)
			l.Discount = exact.MoneyOf(l.Count.Mul(l.Price).Mul(part).Round(minor, exact.Down))
			l.Tax = exact.MoneyOf(number(t, "tax", 0, 500, minor))
			paid = paid.Add(l.Base(minor)).Add(l.Tax)
		}
		wide := make([]pricing.Adjustment, rapid.IntRange(0, 4).Draw(t, "amounts"))
		for i := range wide {
			wide[i].Amount = exact.MoneyOf(number(t, "amount", -5000, 5000, minor))
			wide[i].On = rapid.SampledFrom([][]int{nil, {0}, {len(lines) - 1}}).Draw(t, "on")
			paid = paid.Add(wide[i].Amount)
		}
		costs, err := pricing.Post(lines, wide, minor)
		if err != nil {
			t.Fatal(err)
		}
		var sum exact.Money
		for i, c := range costs {
			sum = sum.Add(c)
			if c.Number().Places() > minor {
				t.Fatalf("cost %d is %v: more than %d digits", i, c, minor)
			}
		}
		if !sum.Equal(paid) {
			t.Fatalf("the costs come to %v, and %v was paid", sum, paid)
		}
	})
}

// A receipt with goods sold loose, a discount on one line, a tax on the
// packaging and a coupon on everything.
func ExamplePost() {
	lines := []pricing.Line{
		{Count: num("1.234"), Price: num("2.99")},                    // leeks
		{Count: num("6"), Price: num("0.99"), Discount: eur("0.95")}, // six boxes, 5.00 for all
		{Count: num("24"), Price: num("0.55"), Tax: eur("2.64")},     // jars, taxed apart
	}
	coupon := pricing.Adjustment{Amount: eur("-5.00")}
	costs, err := pricing.Post(lines, []pricing.Adjustment{coupon}, 2)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, c := range costs {
		fmt.Println(lines[i].Base(2).Fixed(2), c.Fixed(2))
	}
	// Output:
	// 3.69 2.85
	// 4.99 3.85
	// 13.20 12.82
}

// A till of the ledger's size: what a decade of receipts takes.
func BenchmarkPost(b *testing.B) {
	lines := make([]pricing.Line, 12)
	for i := range lines {
		lines[i] = pricing.Line{Count: exact.New(int64(1000+37*i), 3), Price: exact.New(int64(199+i), 2)}
	}
	wide := []pricing.Adjustment{{Amount: eur("-2.50")}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := pricing.Post(lines, wide, 2); err != nil {
			b.Fatal(err)
		}
	}
}
