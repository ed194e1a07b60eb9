package pricing_test

import (
	"errors"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"putby/pricing"
	"putby/pricing/exact"
)

// Two visits with at most four each under "3 for 5.00": six are two groups, not
// a visit of four and one of two.
func TestSpread(t *testing.T) {
	visit := pricing.Visit{Price: num("1.99"), Offer: offer("3 for 5.00"), Limit: exact.Some(4)}
	r, err := pricing.Spread([]pricing.Visit{visit, visit}, 100, 2)
	if err != nil {
		t.Fatal(err)
	}
	wantMoney(t, "six packages", r.Paid(6), "10.00")
	if got := fmt.Sprint(r.Take(6)); got != "[3 3]" {
		t.Errorf("six are bought as %v", got)
	}
	wantMoney(t, "no package", r.Paid(0), "0")
}

// Where it costs the same, the earlier visit has the more packages.
func TestSpreadPrefersEarlierVisits(t *testing.T) {
	visit := pricing.Visit{Price: num("1.20"), Limit: exact.Some(4)}
	r, err := pricing.Spread([]pricing.Visit{visit, visit, visit}, 12, 2)
	if err != nil {
		t.Fatal(err)
	}
	for n, want := range map[int]string{1: "[1 0 0]", 3: "[3 0 0]", 5: "[4 1 0]", 9: "[4 4 1]"} {
		if got := fmt.Sprint(r.Take(n)); got != want {
			t.Errorf("%d are bought as %s, want %s", n, got, want)
		}
	}
}

func TestSpreadErrors(t *testing.T) {
	for what, test := range map[string]struct {
		visit pricing.Visit
		most  int
		want  error
	}{
		"price":    {pricing.Visit{Price: num("-1")}, 5, pricing.ErrNegative},
		"limit":    {pricing.Visit{Limit: exact.Some(-1)}, 5, pricing.ErrNegative},
		"most":     {pricing.Visit{}, -1, pricing.ErrNegative},
		"too many": {pricing.Visit{}, 1 << 62, pricing.ErrTooMany},
		"too long": {pricing.Visit{}, 100_000, pricing.ErrTooMany},
	} {
		if _, err := pricing.Spread([]pricing.Visit{test.visit}, test.most, 2); !errors.Is(err, test.want) {
			t.Errorf("%s: %v, want %v", what, err, test.want)
		}
	}
}

// Law: no division among the visits is cheaper, what is taken at each keeps its
// limit, and together it is and costs what Paid says.
func TestSpreadAgainstBruteForce(t *testing.T) {
	offers := []string{"3 for 2.50", "2 for 1", "25% off from 3", "every 2nd half price"}
	rapid.Check(t, func(t *rapid.T) {
		most := 0
		visits := make([]pricing.Visit, rapid.IntRange(1, 3).Draw(t, "visits"))
		for i := range visits {
			visits[i].Price = number(t, "price", 0, 300, 2)
			limit := rapid.IntRange(0, 5).Draw(t, "limit")
			visits[i].Limit = exact.Some(limit)
			most += limit
			if rapid.Bool().Draw(t, "has offer") {
				visits[i].Offer = offer(rapid.SampledFrom(offers).Draw(t, "offer"))
			}
		}
		r, err := pricing.Spread(visits, 12, 2)
		if err != nil {
			t.Fatal(err)
		}
		for n := range min(most, 12) + 1 {
			take, sum, paid := r.Take(n), 0, exact.Money{}
			for i, k := range take {
				if k < 0 || k > visits[i].Limit.Or(0) {
					t.Fatalf("%d bought as %v", n, take)
				}
				pay, _ := visits[i].Offer.Pay(exact.Int(int64(k)), visits[i].Price, 2)
				sum, paid = sum+k, paid.Add(pay)
			}
			if want, _ := cheapest(visits, n); sum != n || !paid.Equal(r.Paid(n)) || !paid.Equal(want) {
				t.Fatalf("%d bought as %v for %v, said %v, can be %v", n, take, paid, r.Paid(n), want)
			}
		}
	})
}

// cheapest tries every division of n packages.
func cheapest(visits []pricing.Visit, n int) (least exact.Money, ok bool) {
	if len(visits) == 0 {
		return exact.Money{}, n == 0
	}
	for k := range min(n, visits[0].Limit.Or(0)) + 1 {
		rest, possible := cheapest(visits[1:], n-k)
		if !possible {
			continue
		}
		pay, _ := visits[0].Offer.Pay(exact.Int(int64(k)), visits[0].Price, 2)
		if cost := pay.Add(rest); !ok || cost.Cmp(least) < 0 {
			least, ok = cost, true
		}
	}
	return least, ok
}

// Two shops: the dearer one is only used once the cheaper one sells no more.
func ExampleSpread() {
	round, err := pricing.Spread([]pricing.Visit{
		{Price: num("1.29"), Limit: exact.Some(6)},
		{Price: num("0.99"), Limit: exact.Some(4)},
	}, 10, 2)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, n := range []int{3, 7} {
		fmt.Println(n, round.Paid(n).Fixed(2), round.Take(n))
	}
	// Output:
	// 3 2.97 [0 3]
	// 7 7.83 [3 4]
}
