package pricing_test

import (
	"testing"

	"pgregory.net/rapid"

	"putby/pricing"
	"putby/pricing/exact"
)

func mustDecide(t *rapid.T, s pricing.Sale) pricing.Decision {
	t.Helper()
	d, err := pricing.Decide(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// Law: saving never rises when the price rises, of any number of packages and
// so of the best.
func TestSavingNeverRisesWithPrice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawQuestion(t).sale()
		cheap := mustDecide(t, s)
		s.Price = s.Price.Add(number(t, "dearer by", 0, 100, 2))
		dear := mustDecide(t, s)
		for n := range cheap.Most + 1 {
			if cheap.Row(n).Saving.Cmp(dear.Row(n).Saving) < 0 {
				t.Fatalf("%d packages save more when they are dearer", n)
			}
		}
		if cheap.Best.Saving.Cmp(dear.Best.Saving) < 0 || cheap.Best.Packages < dear.Best.Packages {
			t.Fatalf("best %+v at the lower price, %+v at the higher", cheap.Best, dear.Best)
		}
	})
}

// Law: a larger limit, of any kind, never lowers the best saving.
func TestLargerLimitNeverLowersSaving(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawQuestion(t)
		tight := mustDecide(t, q.sale())
		switch rapid.IntRange(0, 2).Draw(t, "which limit") {
		case 0:
			q.limit += rapid.IntRange(1, 9).Draw(t, "more packages")
		case 1:
			if q.cycles >= 0 {
				q.cycles += rapid.IntRange(1, 3).Draw(t, "more runs")
			}
		case 2:
			if made, given := q.made.Get(); given {
				q.made = exact.Some(made.Add(number(t, "more use", 1, 99, 1)))
			}
		}
		wide := mustDecide(t, q.sale())
		if wide.Most < tight.Most || wide.Best.Saving.Cmp(tight.Best.Saving) < 0 {
			t.Fatalf("best saving %v of %d, with a larger limit %v of %d",
				tight.Best.Saving, tight.Most, wide.Best.Saving, wide.Most)
		}
	})
}

// breakEven is the price of a package at which the answer saves exactly nothing;
// where the answer is to buy none, the highest such price of any number.
func breakEven(d pricing.Decision) (price exact.Ratio, packages int, ok bool) {
	if price, ok = d.Best.BreakEven(); ok {
		return price, d.Best.Packages, true
	}
	for r := range d.Rows() {
		if p, is := r.BreakEven(); is && (!ok || price.Cmp(p) < 0) {
			price, packages, ok = p, r.Packages, true
		}
	}
	return price, packages, ok
}

// Law: the break-even price, put back in, makes the saving exactly zero; and
// where the answer is to buy none, no number saves at the highest of them.
func TestBreakEvenSavesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawQuestion(t).sale()
		d := mustDecide(t, s)
		price, n, ok := breakEven(d)
		if !ok {
			if d.Most > 0 {
				t.Fatalf("no break-even price of up to %d packages", d.Most)
			}
			return
		}
		if !d.Row(n).SavingAt(price).IsZero() {
			t.Fatalf("%d packages at %v save %v", n, price, d.Row(n).SavingAt(price))
		}
		if d.Best.Packages == 0 {
			for r := range d.Rows() {
				if r.SavingAt(price).Sign() > 0 {
					t.Fatalf("%d packages still save at the highest break-even price %v", r.Packages, price)
				}
			}
		}
		putBack(t, s, price, n)
	})
}

// putBack asks again at a break-even price, where its digits end and it is no
// less than nothing.
func putBack(t *rapid.T, s pricing.Sale, price exact.Ratio, n int) {
	p, ends := price.Number()
	if !ends || p.Sign() < 0 {
		return
	}
	s.Price = p
	if saving := mustDecide(t, s).Row(n).Saving; !saving.IsZero() {
		t.Fatalf("%d packages at %v save %v", n, p, saving)
	}
}

// Law: at the drying break-even price, drying adds nothing to what the fresh
// part saves at that price.
func TestDryingBreakEven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawQuestion(t).sale()
		for r := range mustDecide(t, s).Rows() {
			price, ok := mustDecide(t, s).DryingBreakEven(r)
			if ok != (r.Dried.Sign() > 0) {
				t.Fatalf("%d packages dry %v; a drying price: %v", r.Packages, r.Dried, ok)
			}
			if !ok {
				continue
			}
			perUnit := price.Quo(exact.RatioOf(s.Size))
			fresh := s.Shelf.Sub(perUnit).Times(r.Fresh)
			if !r.SavingAt(price).Equal(fresh) {
				t.Fatalf("%d packages at %v save %v, their fresh part %v", r.Packages, price, r.SavingAt(price), fresh)
			}
		}
	})
}

// Law: doubling every price doubles every figure to within one ledger step a
// posting; only electricity is posted here, once a cycle.
func TestDoublingEveryPrice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawQuestion(t)
		one := mustDecide(t, q.sale())
		two := exact.Int(2)
		q.price, q.shelf = q.price.Mul(two), q.shelf.Mul(two)
		q.night, q.dayRate = q.night.Mul(two), q.dayRate.Mul(two)
		q.supplies, q.wear = q.supplies.Times(two), q.wear.Times(two)
		q.work, q.container = q.work.Times(two), q.container.Times(two)
		double := mustDecide(t, q.sale())
		if one.Most != double.Most {
			t.Fatalf("at most %d packages, doubled %d", one.Most, double.Most)
		}
		for n := range one.Most + 1 {
			a, b := one.Row(n), double.Row(n)
			slack := exact.RatioOf(exact.New(int64(a.Cycles), q.places))
			within(t, "saving", a.Saving, b.Saving, slack)
			within(t, "electricity", money(a.Cost.Electricity), money(b.Cost.Electricity), slack)
			none := exact.Ratio{}
			within(t, "value", a.Value, b.Value, none)
			within(t, "food", money(a.Cost.Food), money(b.Cost.Food), none)
			within(t, "packing", money(a.Cost.Packing), money(b.Cost.Packing), none)
			within(t, "wear", money(a.Cost.Wear), money(b.Cost.Wear), none)
		}
	})
}

func money(m exact.Money) exact.Ratio { return exact.RatioOf(m.Number()) }

// within holds b to twice a.
func within(t *rapid.T, what string, a, b, slack exact.Ratio) {
	diff := a.Add(a).Sub(b)
	if diff.Sign() < 0 {
		diff = diff.Neg()
	}
	if diff.Cmp(slack) > 0 {
		t.Fatalf("%s %v doubles to %v, more than %v off", what, a, b, slack)
	}
}

// Law: the cost of a unit, taken apart, sums to the whole and times the amount
// is the cost.
func TestUnitCostAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for r := range mustDecide(t, drawQuestion(t).sale()).Rows() {
			if u, ok := r.PerUnit(); ok {
				adds(t, u)
				if cost := u.Total.Mul(r.Amount()); !cost.Equal(money(r.Cost.Total())) {
					t.Fatalf("%v a unit of %v is %v, want %v", u.Total, r.Amount(), cost, r.Cost.Total())
				}
			}
		}
	})
}

func adds(t *rapid.T, u pricing.UnitCost) {
	sum := u.Food.Add(u.Electricity).Add(u.Supplies).Add(u.Wear).Add(u.Labour).Add(u.Packing)
	if !sum.Equal(u.Total) {
		t.Fatalf("the parts of %+v come to %v", u, sum)
	}
}

// Law: the answer holds up to a flip and is another one beyond it.
func TestFlips(t *testing.T) {
	figures := []struct {
		name  string
		flips func(pricing.Decision) pricing.Flips
		now   func(pricing.Sale) exact.Ratio
		set   func(*pricing.Sale, exact.Ratio)
	}{
		{
			"shelf price", pricing.Decision.ShelfFlips,
			func(s pricing.Sale) exact.Ratio { return s.Shelf },
			func(s *pricing.Sale, x exact.Ratio) { s.Shelf = x },
		},
		{
			"price of a package", pricing.Decision.PriceFlips,
			func(s pricing.Sale) exact.Ratio { return exact.RatioOf(s.Price) },
			func(s *pricing.Sale, x exact.Ratio) { s.Price, _ = x.Number() },
		},
		{
			"electricity", pricing.Decision.ElectricityFlips,
			func(pricing.Sale) exact.Ratio { return exact.RatioOf(exact.Int(1)) },
			func(s *pricing.Sale, x exact.Ratio) {
				posted, times := s.Electricity, x
				s.Electricity = func(cycle int, load exact.Number) (exact.Money, error) {
					cost, err := posted(cycle, load)
					n, _ := times.Times(cost.Number()).Number()
					return exact.MoneyOf(n), err
				}
			},
		},
	}
	for _, figure := range figures {
		t.Run(figure.name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				s := drawQuestion(t).sale()
				d := mustDecide(t, s)
				flips, now := figure.flips(d), figure.now(s)
				// Tried at figures whose digits end, a trillionth from the flip.
				ask := func(x exact.Ratio) int {
					if x.Sign() < 0 {
						return -1
					}
					moved := s
					figure.set(&moved, exact.RatioOf(x.Round(18, exact.HalfEven)))
					return mustDecide(t, moved).Best.Packages
				}
				near := exact.RatioOf(exact.New(1, 12))
				if f, ok := flips.Above.Get(); ok {
					if got := ask(f.At.Add(near)); got != f.Packages {
						t.Fatalf("above %v: %d packages, want %d", f.At, got, f.Packages)
					}
					if got := ask(f.At.Sub(near)); f.At.Sub(near).Cmp(now) > 0 && got != d.Best.Packages {
						t.Fatalf("just below %v: %d packages, want %d still", f.At, got, d.Best.Packages)
					}
				} else if got := ask(exact.RatioOf(exact.Int(1_000_000))); got != d.Best.Packages {
					t.Fatalf("far above: %d packages, want %d still", got, d.Best.Packages)
				}
				if f, ok := flips.Below.Get(); ok {
					if got := ask(f.At.Sub(near)); got >= 0 && got != f.Packages {
						t.Fatalf("below %v: %d packages, want %d", f.At, got, f.Packages)
					}
					if got := ask(f.At.Add(near)); f.At.Add(near).Cmp(now) < 0 && got != d.Best.Packages {
						t.Fatalf("just above %v: %d packages, want %d still", f.At, got, d.Best.Packages)
					}
				} else if got := ask(near); now.Cmp(near) > 0 && got != d.Best.Packages {
					t.Fatalf("at next to nothing: %d packages, want %d still", got, d.Best.Packages)
				}
			})
		})
	}
}
