package pricing_test

import (
	"errors"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"putby/pricing"
	"putby/pricing/exact"
)

// OpenStax, Principles of Accounting 2: price 100, variable cost 20, fixed cost
// 18,000.
func TestBreakEvenUnits(t *testing.T) {
	margin := exact.RatioOf(num("100").Sub(num("20")))
	for _, test := range []struct {
		what, fixed, target string
		margin              exact.Ratio
		want                string
	}{
		{"OpenStax, breaks even", "18000", "0", margin, "225"},
		{"OpenStax, target of 40,000", "18000", "40000", margin, "725"},
		{"a part of a unit is a unit", "18001", "0", margin, "226"},
		{"thirds", "1", "0", ratio("1", "3"), "3"},
		{"nothing to recover", "0", "0", exact.Ratio{}, "0"},
	} {
		got, err := pricing.BreakEvenUnits(eur(test.fixed), eur(test.target), test.margin)
		if err != nil || !got.Equal(num(test.want)) {
			t.Errorf("%s: %v (%v), want %s", test.what, got, err, test.want)
		}
	}
	for _, margin := range []exact.Ratio{{}, ratio("-1", "3")} {
		if _, err := pricing.BreakEvenUnits(eur("1"), eur("0"), margin); !errors.Is(err, pricing.ErrNeverPays) {
			t.Errorf("margin %v: %v", margin, err)
		}
	}
}

func TestPayback(t *testing.T) {
	// OpenStax, Principles of Accounting 2: 150,000 at 20,000 a year.
	years, err := pricing.Payback(ratio("150000", "1"), ratio("20000", "1"))
	if err != nil {
		t.Fatal(err)
	}
	wantRatio(t, "OpenStax, payback in years", years, ratio("7.5", "1"))
	// An outlay that no decimal is: 10/3 at 10/9 each time is there with the third.
	times, err := pricing.Payback(ratio("10", "3"), ratio("10", "9"))
	if err != nil {
		t.Fatal(err)
	}
	wantRatio(t, "payback of a third", times, ratio("3", "1"))
	if years, err := pricing.Payback(exact.Ratio{}, exact.Ratio{}); err != nil || !years.IsZero() {
		t.Errorf("no outlay: %v (%v)", years, err)
	}
	if _, err := pricing.Payback(ratio("1", "1"), exact.Ratio{}); !errors.Is(err, pricing.ErrNeverPays) {
		t.Errorf("nothing a year: %v", err)
	}
}

// By hand: 2,400 less 400 over 800 cycles is 2.50 a cycle; at 6.50 a cycle it
// has paid with the 308th (307.69...), and saves 5,200 less 2,000.
func TestMachine(t *testing.T) {
	m := pricing.Machine{Price: eur("2400"), Residual: eur("400"), Cycles: 800, Saving: ratio("6.50", "1")}
	a, err := m.Decide()
	if err != nil || !a.Pays || !a.Cycles.Equal(num("308")) {
		t.Errorf("%+v (%v)", a, err)
	}
	wantRatio(t, "wear", a.Wear, ratio("2.50", "1"))
	wantRatio(t, "gain", a.Gain, ratio("3200", "1"))
	wantRatio(t, "highest price", a.Price, ratio("5600", "1"))

	m.Saving = ratio("2.49", "1")
	if a, err := m.Decide(); err != nil || a.Pays || !a.Cycles.Equal(num("804")) || a.Gain.Sign() >= 0 {
		t.Errorf("a saving below the wear: %+v (%v)", a, err)
	}
	m.Saving = exact.Ratio{}
	if a, err := m.Decide(); !errors.Is(err, pricing.ErrNeverPays) || a.Pays || !a.Gain.Equal(ratio("-2000", "1")) {
		t.Errorf("no saving: %+v (%v)", a, err)
	}
	m.Cycles = 0
	var wrong *pricing.SaleError
	if _, err := m.Decide(); !errors.As(err, &wrong) || wrong.Field != "Cycles" {
		t.Errorf("no life: %v", err)
	}
}

// Law: a machine pays within its life exactly when a cycle saves its wear, and
// at its highest price it gains exactly nothing.
func TestMachineLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := pricing.Machine{
			Price:    exact.MoneyOf(number(t, "price", 1, 500_000, 2)),
			Residual: exact.MoneyOf(number(t, "residual", 0, 100_000, 2)),
			Cycles:   rapid.IntRange(1, 2000).Draw(t, "life"),
			Saving:   number(t, "saving", 1, 2000, 2).Over(number(t, "over", 1, 30, 0)),
		}
		a, err := m.Decide()
		if err != nil {
			t.Fatal(err)
		}
		life := exact.Int(int64(m.Cycles))
		if a.Pays != (a.Wear.Cmp(m.Saving) <= 0) || a.Pays != !life.Less(a.Cycles) {
			t.Fatalf("pays: %v with cycle %v of %v, wear %v, saving %v", a.Pays, a.Cycles, life, a.Wear, m.Saving)
		}
		highest, ends := a.Price.Number()
		if !ends {
			return
		}
		m.Price = exact.MoneyOf(highest)
		if a, err := m.Decide(); err != nil || !a.Gain.IsZero() || !a.Pays {
			t.Fatalf("at its highest price %v: %+v (%v)", highest, a, err)
		}
	})
}

func ExampleMachine_Decide() {
	m := pricing.Machine{Price: eur("2400"), Residual: eur("400"), Cycles: 800, Saving: ratio("6.50", "1")}
	a, _ := m.Decide()
	fmt.Printf("paid after %v of 800 cycles, gains %v over its life\n", a.Cycles, a.Gain)
	// Output: paid after 308 of 800 cycles, gains 3200 over its life
}
