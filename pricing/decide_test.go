package pricing_test

import (
	"errors"
	"fmt"
	"slices"
	"testing"
	"time"

	"putby/pricing"
	"putby/pricing/exact"
)

// broth is worked by hand: cartons of 1 L at 0.90, at most 12; 2.00 a litre on
// the shelf. Two litres are eaten fresh. A cycle takes 4 L; two cycles end
// before the broth turns. A cycle costs 1.50 of electricity and 0.125 for each
// litre in it, 1.00 of wear and 0.30 of oil; a jar of one litre 0.25.
func broth() pricing.Sale {
	return pricing.Sale{
		Price: num("0.90"), Size: num("1"), Limit: exact.Some(12),
		Shelf: ratio("2.00", "1"), FreshUse: num("2"),
		Load: num("4"), MaxCycles: exact.Some(2), Yield: ratio("1", "1"), Each: num("1"),
		Electricity: func(_ int, load exact.Number) (exact.Money, error) {
			return exact.MoneyOf(num("1.50").Add(num("0.125").Mul(load))), nil
		},
		Supplies: eur("0.30"), Wear: eur("1.00"),
		Containers: func(n int) exact.Money { return eur("0.25").Times(exact.Int(int64(n))) },
	}
}

func decideOn(t testing.TB, s pricing.Sale) pricing.Decision {
	t.Helper()
	d, err := pricing.Decide(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestDecideByHand(t *testing.T) {
	d := decideOn(t, broth())
	best := d.Best
	if best.Packages != 10 || best.Cycles != 2 || best.Containers != 8 || !best.Dried.Equal(num("8")) {
		t.Errorf("best: %+v", best)
	}
	wantMoney(t, "food", best.Cost.Food, "9.00")
	wantMoney(t, "electricity", best.Cost.Electricity, "4.00")
	wantMoney(t, "supplies", best.Cost.Supplies, "0.60")
	wantMoney(t, "wear", best.Cost.Wear, "2.00")
	wantMoney(t, "packing", best.Cost.Packing, "2.00")
	wantMoney(t, "cost", best.Cost.Total(), "17.60")
	wantRatio(t, "value", best.Value, ratio("20", "1"))
	wantRatio(t, "saving", best.Saving, ratio("2.40", "1"))

	// The third carton needs a cycle for its one litre: 6.00 - 5.875, where two
	// cartons saved 2.20. The fourth only electricity and a jar.
	wantRatio(t, "marginal of the third", d.Row(3).Marginal, ratio("-2.075", "1"))
	wantRatio(t, "marginal of the fourth", d.Row(4).Marginal, ratio("0.725", "1"))

	if d.WithoutDrying.Packages != 2 {
		t.Errorf("without drying: %+v", d.WithoutDrying)
	}
	wantRatio(t, "saving without drying", d.WithoutDrying.Saving, ratio("2.20", "1"))
	price, n, ok := breakEven(d)
	if !ok || n != 10 {
		t.Errorf("break-even of %d packages (%v)", n, ok)
	}
	wantRatio(t, "break-even price", price, ratio("1.14", "1"))
	drying, _ := d.DryingBreakEven(best)
	wantRatio(t, "drying break-even price", drying, ratio("0.925", "1"))
	if want := []pricing.Limit{pricing.MachineLimit}; d.Most != 10 || !slices.Equal(d.Binding(), want) {
		t.Errorf("at most %d, bound by %v, want %v", d.Most, d.Binding(), want)
	}
}

func TestUnitCostByHand(t *testing.T) {
	best := decideOn(t, broth()).Best
	all, _ := best.PerUnit()
	for _, test := range []struct {
		what       string
		got, price exact.Ratio
	}{
		{"food", all.Food, ratio("0.90", "1")},
		{"electricity", all.Electricity, ratio("0.40", "1")},
		{"supplies", all.Supplies, ratio("0.06", "1")},
		{"wear", all.Wear, ratio("0.20", "1")},
		{"labour", all.Labour, exact.Ratio{}},
		{"packing", all.Packing, ratio("0.20", "1")},
		{"total", all.Total, ratio("1.76", "1")},
	} {
		wantRatio(t, test.what+" a litre", test.got, test.price)
	}
	if _, ok := (pricing.Row{}).PerUnit(); ok {
		t.Error("no packages have a cost per unit")
	}
}

// A price above the break-even of every number: buy none, and say below what
// price it would be worth it.
func TestNothingSaves(t *testing.T) {
	s := broth()
	s.Price = num("2.10")
	d := decideOn(t, s)
	if d.Best.Packages != 0 || !d.Best.Saving.IsZero() || len(d.Binding()) != 0 {
		t.Errorf("best %+v, bound by %v", d.Best, d.Binding())
	}
	// Cartons for fresh use save below the shelf price itself.
	price, n, ok := breakEven(d)
	if !ok || n != 1 || !price.Equal(ratio("2.00", "1")) {
		t.Errorf("highest break-even price %v for %d packages (%v)", price, n, ok)
	}
	if _, ok := d.DryingBreakEven(d.Best); ok {
		t.Error("a drying break-even price with nothing dried")
	}
}

func TestLimits(t *testing.T) {
	shop, machine, use := pricing.ShopLimit, pricing.MachineLimit, pricing.UseLimit
	tests := []struct {
		what   string
		change func(*pricing.Sale)
		most   int
		limits []pricing.Limit
	}{
		{"shop", func(s *pricing.Sale) { s.Limit = exact.Some(7) }, 7, []pricing.Limit{shop}},
		{"machine", func(*pricing.Sale) {}, 10, []pricing.Limit{machine}},
		{"use", func(s *pricing.Sale) { s.MaxMade = exact.Some(num("3.9")) }, 5, []pricing.Limit{use}},
		{"shop and machine", func(s *pricing.Sale) { s.Limit = exact.Some(10) }, 10, []pricing.Limit{shop, machine}},
		{
			"all", func(s *pricing.Sale) { s.Limit, s.MaxMade = exact.Some(10), exact.Some(num("8")) },
			10, []pricing.Limit{shop, machine, use},
		},
		{"no more is used", func(s *pricing.Sale) { s.MaxMade = exact.Some(num("0")) }, 2, []pricing.Limit{use}},
		{
			"no machine at all", func(s *pricing.Sale) {
				*s = pricing.Sale{Price: num("0.9"), Size: num("1"), Shelf: s.Shelf, FreshUse: num("2"),
					MaxCycles: exact.Some(0), MaxMade: exact.Some(num("0"))}
			}, 2, []pricing.Limit{machine},
		},
		{"without a shop's limit", func(s *pricing.Sale) { s.Limit = exact.Opt[int]{} }, 10, []pricing.Limit{machine}},
		{"none for sale", func(s *pricing.Sale) { s.Limit = exact.Some(0) }, 0, []pricing.Limit{shop}},
	}
	for _, test := range tests {
		s := broth()
		test.change(&s)
		d := decideOn(t, s)
		if d.Most != test.most || !slices.Equal(d.Limits, test.limits) {
			t.Errorf("%s: at most %d by %v, want %d by %v", test.what, d.Most, d.Limits, test.most, test.limits)
		}
	}
}

func TestNonePossible(t *testing.T) {
	s := broth()
	s.Limit = exact.Some(0)
	d := decideOn(t, s)
	if _, _, ok := breakEven(d); ok {
		t.Error("a break-even price with nothing for sale")
	}
	if rows := d.Worth(10); len(rows) != 1 || rows[0].Packages != 0 {
		t.Errorf("rows worth seeing: %+v", rows)
	}
}

func TestDecideErrors(t *testing.T) {
	s := broth()
	s.Limit, s.MaxCycles = exact.Opt[int]{}, exact.Opt[int]{}
	if _, err := pricing.Decide(s); !errors.Is(err, pricing.ErrUnbounded) {
		t.Errorf("without any limit: %v", err)
	}
	for what, change := range map[string]func(*pricing.Sale){
		"packages":   func(s *pricing.Sale) { s.Limit, s.MaxCycles = exact.Some(1_000_001), exact.Opt[int]{} },
		"cycles":     func(s *pricing.Sale) { s.Load, s.MaxCycles = num("0.000001"), exact.Some(2_000_000_000) },
		"containers": func(s *pricing.Sale) { s.Each = num("0.000000001") },
		"all":        func(s *pricing.Sale) { s.Limit, s.Size = exact.Opt[int]{}, num("0.000000001") },
	} {
		s := broth()
		change(&s)
		if _, err := pricing.Decide(s); !errors.Is(err, pricing.ErrTooMany) {
			t.Errorf("too many %s: %v", what, err)
		}
	}
}

// Every wrong field is named at once.
func TestSaleErrors(t *testing.T) {
	tests := []struct {
		field  pricing.SaleField
		change func(*pricing.Sale)
	}{
		{"Price", func(s *pricing.Sale) { s.Price = num("-1") }},
		{"Size", func(s *pricing.Sale) { s.Size = exact.Number{} }},
		{"Limit", func(s *pricing.Sale) { s.Limit = exact.Some(-1) }},
		{"Shelf", func(s *pricing.Sale) { s.Shelf = ratio("-1", "3") }},
		{"FreshUse", func(s *pricing.Sale) { s.FreshUse = num("-1") }},
		{"Load", func(s *pricing.Sale) { s.Load = exact.Number{} }},
		{"MaxMade", func(s *pricing.Sale) { s.MaxMade = exact.Some(num("-1")) }},
		{"Yield", func(s *pricing.Sale) { s.Yield = exact.Ratio{} }},
		{"Each", func(s *pricing.Sale) { s.Each = exact.Number{} }},
	}
	all := broth()
	for _, test := range tests {
		s := broth()
		test.change(&s)
		test.change(&all)
		_, err := pricing.Decide(s)
		var wrong *pricing.SaleError
		if !errors.As(err, &wrong) || wrong.Field != test.field {
			t.Errorf("%s: error %v", test.field, err)
		}
	}
	_, err := pricing.Decide(all)
	joined, ok := errors.Unwrap(err).(interface{ Unwrap() []error })
	if !ok || len(joined.Unwrap()) != len(tests) {
		t.Errorf("all wrong at once: %v", err)
	}
	s := broth()
	s.MaxCycles = exact.Some(-1)
	if _, err := pricing.Decide(s); err == nil {
		t.Error("a negative number of runs is accepted")
	}
}

// Under "6 for 4.50" the cheapest number is not a matter of the price alone.
func TestDecideUnderAnOffer(t *testing.T) {
	s := broth()
	six := offer("6 for 4.50")
	s.Paid = func(n int) exact.Money {
		pay, err := six.Pay(exact.Int(int64(n)), s.Price, 2)
		if err != nil {
			t.Fatal(err)
		}
		return pay
	}
	d := decideOn(t, s)
	wantMoney(t, "food of six", d.Row(6).Cost.Food, "4.50")
	wantMoney(t, "food of ten", d.Row(10).Cost.Food, "8.10")
	// Six cost less than five and one more cost 0.90 each; ten still save most.
	if d.Best.Packages != 10 {
		t.Errorf("best: %+v", d.Best)
	}
	wantRatio(t, "saving", d.Best.Saving, ratio("3.30", "1"))
	price, _, _ := breakEven(d)
	wantRatio(t, "mean break-even price", price, ratio("1.14", "1"))
}

func TestCyclesBefore(t *testing.T) {
	tests := []struct{ left, cycle, turnaround, want int }{
		{200, 30, 3, 6}, // 203 / 33: six cycles end after 6*30 + 5*3 = 195 h
		{195, 30, 3, 6},
		{194, 30, 3, 5},
		{30, 30, 3, 1},
		{29, 30, 3, 0},
		{0, 30, 40, 0},
		{-50, 30, 3, 0},
		{60, 30, 0, 2},
	}
	for _, test := range tests {
		h := func(n int) time.Duration { return time.Duration(n) * time.Hour }
		got, err := pricing.CyclesBefore(h(test.left), h(test.cycle), h(test.turnaround))
		if err != nil || got != test.want {
			t.Errorf("%+v: %d (%v)", test, got, err)
		}
	}
	if _, err := pricing.CyclesBefore(time.Hour, 0, time.Hour); err == nil {
		t.Error("a run of no length is accepted")
	}
	if _, err := pricing.CyclesBefore(time.Hour, time.Hour, -time.Hour); err == nil {
		t.Error("a negative turnaround is accepted")
	}
}

func ExampleDecide() {
	d, err := pricing.Decide(broth())
	if err != nil {
		fmt.Println(err)
		return
	}
	b := d.Best
	fmt.Printf("buy %d, dry %v L in %d runs, save %s\n",
		b.Packages, b.Dried, b.Cycles, b.Saving.Round(2, exact.HalfAway).Fixed(2))
	price, _ := b.BreakEven()
	fmt.Printf("worth it below %s; limited by %v\n", price.Round(4, exact.HalfAway), d.Binding())
	// Output:
	// buy 10, dry 8 L in 2 runs, save 2.40
	// worth it below 1.14; limited by [the machine before the food turns]
}

// A hundred thousand packages, each worked out exactly.
func BenchmarkDecide(b *testing.B) {
	for _, n := range []int{12, 100_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			s := broth()
			s.Limit, s.MaxCycles = exact.Some(n), exact.Opt[int]{}
			s.Yield = ratio("0.95", "0.97")
			b.ReportAllocs()
			for b.Loop() {
				decideOn(b, s)
			}
		})
	}
}
