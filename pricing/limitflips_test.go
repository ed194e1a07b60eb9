package pricing_test

import (
	"errors"
	"testing"

	"pgregory.net/rapid"

	"putby/pricing"
	"putby/pricing/exact"
)

// By hand, from broth: ten cartons save most of what the shop sells, and eleven
// would open a third cycle. Two need no cycle, six need one.
func TestLimitFlipsByHand(t *testing.T) {
	s := broth()
	s.MaxCycles = exact.Some(1)
	d := decideOn(t, s) // six cartons save 5.30 in one cycle, two 4.20 in none, ten 7.40 in two
	for _, c := range []struct {
		limit        pricing.Limit
		below, above string
		left, more   int
	}{
		{pricing.MachineLimit, "1", "2", 2, 10},
		{pricing.ShopLimit, "6", "", 2, 0}, // the machine forbids the seventh
		{pricing.UseLimit, "4", "", 2, 0},
	} {
		flips, sought := d.LimitFlips(c.limit, 100)
		below, _ := flips.Below.Get()
		if !below.At.Equal(ratio(c.below, "1")) || below.Packages != c.left || sought != 0 {
			t.Errorf("%v below: %+v (%v), want %s with %d", c.limit, below, sought, c.below, c.left)
		}
		above, ok := flips.Above.Get()
		if ok != (c.above != "") || ok && (!above.At.Equal(ratio(c.above, "1")) || above.Packages != c.more) {
			t.Errorf("%v above: %+v, want %q with %d", c.limit, above, c.above, c.more)
		}
	}
}

// By hand: jars of 2 L cost what a litre saves before them, 2.975, so each jar pays
// with its second litre. With a second cycle of 2.5 L four litres, two jars, save as
// much as five, in three: the fewer packages are the answer.
func TestLimitFlipsOfEqualSavings(t *testing.T) {
	s := broth()
	s.Shelf, s.Load, s.Each, s.MaxCycles = ratio("4.00", "1"), num("2.5"), num("2"), exact.Some(1)
	s.Containers = func(n int) exact.Money { return eur("2.975").Times(exact.Int(int64(n))) }
	d := decideOn(t, s)
	flips, _ := d.LimitFlips(pricing.MachineLimit, 100)
	above, _ := flips.Above.Get()
	if d.Best.Packages != 4 || !above.At.Equal(ratio("2", "1")) || above.Packages != 6 {
		t.Errorf("%d packages, and %+v with another cycle; want 4, and 6 with 2", d.Best.Packages, above)
	}
}

// By hand: a litre for 3.00 where the shelf asks 2.50 loses, and one is all that the
// machine can take. Where the second is free, two save 2.00; where the electricity of
// a second cycle earns 1.20, they save 0.20. Neither may be taken for a loss by the
// price of a package and the shelf's alone.
func TestLimitFlipsWherePackagesAreNotAllOfTheCost(t *testing.T) {
	loses := pricing.Sale{
		Price: num("3.00"), Size: num("1"), Limit: exact.Some(2), Shelf: ratio("2.50", "1"),
		Load: num("1"), MaxCycles: exact.Some(1), Yield: ratio("1", "1"),
	}
	free, earns := loses, loses
	free.Paid = func(int) exact.Money { return eur("3.00") }
	earns.LeastFull = eur("-1.20")
	earns.Electricity = func(cycle int, _ exact.Number) (exact.Money, error) {
		return eur("-1.20").Times(exact.Int(int64(cycle))), nil
	}
	for _, c := range []struct {
		name string
		sale pricing.Sale
		more int
	}{{"every package loses", loses, 0}, {"the second is free", free, 2}, {"the second cycle earns", earns, 2}} {
		d := decideOn(t, c.sale)
		flips, _ := d.LimitFlips(pricing.MachineLimit, 100)
		if above, _ := flips.Above.Get(); d.Best.Packages != 0 || above.Packages != c.more {
			t.Errorf("%s: %d packages, and %+v with another cycle; want 0, and %d", c.name, d.Best.Packages, above, c.more)
		}
	}
}

// Cycles from some time on have no price. A decision that needs one is refused; what
// is looked for beyond a decision ends before them, and is not taken for free.
func TestLimitFlipsEndWithThePrices(t *testing.T) {
	none := errors.New("no price from then on")
	s := broth()
	priced := s.Electricity
	s.Electricity = func(cycle int, load exact.Number) (exact.Money, error) {
		if cycle >= 2 {
			return exact.Money{}, none
		}
		return priced(cycle, load)
	}
	s.MaxCycles = exact.Some(3)
	if _, err := pricing.Decide(s); !errors.Is(err, none) {
		t.Errorf("a decision of three cycles: %v", err)
	}
	s.MaxCycles = exact.Some(2)
	d := decideOn(t, s)
	if d.Best.Packages != 10 {
		t.Fatalf("%d packages in two cycles", d.Best.Packages)
	}
	flips, sought := d.LimitFlips(pricing.MachineLimit, 100)
	if flips.Above.Given() || sought != d.Most {
		t.Errorf("%+v above, looked for up to %d packages; want none, up to %d", flips.Above, sought, d.Most)
	}
	if _, ok := d.CycleAlone(d.Best, num("1")); ok {
		t.Error("a third cycle has a price")
	}
}

// Law: within the flips of a limit the answer holds, and at and beyond them it is
// the one said; every value is asked again.
func TestLimitFlipsAgainstBruteForce(t *testing.T) {
	above, below := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s := drawQuestion(t).sale()
		if rapid.Bool().Draw(t, "least of a cycle known") {
			even, _ := s.Electricity(0, s.Load)
			odd, _ := s.Electricity(1, s.Load)
			if s.LeastFull = even; odd.Number().Less(even.Number()) {
				s.LeastFull = odd
			}
		}
		d := mustDecide(t, s)
		for _, l := range []pricing.Limit{pricing.ShopLimit, pricing.MachineLimit, pricing.UseLimit} {
			flips, sought := d.LimitFlips(l, 200)
			if f, ok := flips.Above.Get(); ok {
				above++
				if f.Packages <= d.Most || f.Packages > 200 {
					t.Fatalf("%v: %d packages above where %d are allowed now", l, f.Packages, d.Most)
				}
			}
			if flips.Below.Given() {
				below++
			}
			for _, at := range valuesOf(t, l, s, flips) {
				want := d.Best.Packages
				if f, ok := flips.Below.Get(); ok && at.Cmp(f.At) < 0 {
					want = -1 // another one
				}
				if f, ok := flips.Above.Get(); ok && at.Cmp(f.At) >= 0 {
					want = -1
				} else if !ok && sought > 0 {
					continue // not all was counted
				}
				got := mustDecide(t, limited(s, l, at)).Best.Packages
				if want >= 0 && got != want || want < 0 && got == d.Best.Packages {
					t.Fatalf("%v at %v: %d packages are best, flips are %+v of %d", l, at, got, flips, d.Best.Packages)
				}
			}
			step := exact.RatioOf(exact.New(1, 12))
			if l != pricing.UseLimit {
				step = exact.RatioOf(exact.Int(1))
			}
			if f, ok := flips.Below.Get(); ok {
				if got := mustDecide(t, limited(s, l, f.At.Sub(step))).Best.Packages; got != f.Packages {
					t.Fatalf("%v just below %v: %d packages, want %d", l, f.At, got, f.Packages)
				}
			}
			if f, ok := flips.Above.Get(); ok {
				if got := mustDecide(t, limited(s, l, f.At)).Best.Packages; got != f.Packages {
					t.Fatalf("%v at %v: %d packages, want %d", l, f.At, got, f.Packages)
				}
			}
		}
	})
	if above == 0 || below == 0 {
		t.Errorf("%d flips above and %d below test little", above, below)
	}
}

// valuesOf are values of a limit to ask about: many, and those beside the flips.
func valuesOf(t *rapid.T, l pricing.Limit, s pricing.Sale, flips pricing.Flips) (list []exact.Ratio) {
	for i := range 24 {
		at := exact.RatioOf(exact.Int(int64(i)))
		if l == pricing.UseLimit { // up to far more than the packages give
			at = exact.RatioOf(number(t, "use", 0, 600, 1))
		}
		list = append(list, at)
	}
	near := exact.RatioOf(exact.New(1, 9))
	for _, side := range []exact.Opt[pricing.Flip]{flips.Below, flips.Above} {
		if f, ok := side.Get(); ok && l == pricing.UseLimit {
			list = append(list, f.At, f.At.Add(near), f.At.Sub(near))
		}
	}
	return list
}

// limited is a sale with another value of a limit: what is made is rounded up,
// so that it is still allowed at the very value.
func limited(s pricing.Sale, l pricing.Limit, at exact.Ratio) pricing.Sale {
	switch n, _ := at.Floor().Int64(); l {
	case pricing.ShopLimit:
		s.Limit = exact.Some(int(n))
	case pricing.MachineLimit:
		s.MaxCycles = exact.Some(int(n))
	default:
		s.MaxMade = exact.Some(at.Round(12, exact.Up).Max(exact.Number{}))
	}
	return s
}
