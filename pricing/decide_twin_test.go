package pricing_test

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"putby/pricing"
	"putby/pricing/exact"
)

// A question is a sale in plain figures, from which both the sale and its twin
// are made.
type question struct {
	price, size, shelf   exact.Number
	per                  exact.Number // shelf is money for per units
	limit, cycles        int          // -1: not given
	made                 exact.Opt[exact.Number]
	fresh, load          exact.Number
	reconst, loaded      exact.Number // yield
	each                 exact.Number
	kwh, perUnit         exact.Number // of a cycle, and for each unit in it
	night, dayRate       exact.Number // money per kWh of even and odd cycles
	supplies, wear, work exact.Money
	container            exact.Money
	places               int
}

func drawQuestion(t *rapid.T) question {
	// Sales that are worth it, that are not, and on the edge, about alike.
	dear := rapid.SampledFrom([]int64{10, 3, 30, 100}).Draw(t, "costs, in percent")
	q := question{
		price:  number(t, "price", 0, 6*dear, 2),
		size:   number(t, "size", 1, 30, 1).Add(exact.Int(rapid.SampledFrom([]int64{1, 0}).Draw(t, "larger"))),
		shelf:  number(t, "shelf", 0, 900, 2).Add(exact.Int(rapid.SampledFrom([]int64{2, 0}).Draw(t, "more"))),
		per:    number(t, "shelf size", 1, 20, 1),
		limit:  14 - rapid.IntRange(0, 14).Draw(t, "below the most"),
		cycles: rapid.SampledFrom([]int{3, 2, -1, 4, 1, 0}).Draw(t, "cycles"),
		fresh:  number(t, "fresh use", 0, 60, 1),
		load:   number(t, "load", 1, 90, 1),
		// Yields from 1/20 to 20, mostly near 1.
		reconst:  number(t, "reconstituted", 1, 20, 1),
		loaded:   number(t, "loaded", 1, 20, 1),
		each:     number(t, "each", 1, 20, 1),
		kwh:      number(t, "kWh", 0, 90*dear, 3),
		perUnit:  number(t, "kWh per unit", 0, 9*dear, 3),
		night:    number(t, "night rate", 0, 4000, 4),
		dayRate:  number(t, "day rate", 0, 4000, 4),
		supplies: exact.MoneyOf(number(t, "supplies", 0, 9000*dear, 6)),
		wear:     exact.MoneyOf(number(t, "wear", 0, 30_000*dear, 6)),
		work:     exact.MoneyOf(number(t, "work", 0, 9000*dear, 6)),
		places:   6,
	}
	q.container = exact.MoneyOf(number(t, "container", 0, 9000*dear, 6))
	if rapid.Bool().Draw(t, "use known") {
		q.made = exact.Some(number(t, "used before best-by", 0, 300, 1))
	}
	return q
}

func (q question) sale() pricing.Sale {
	s := pricing.Sale{
		Price: q.price, Size: q.size, Shelf: q.shelf.Over(q.per), FreshUse: q.fresh,
		Load: q.load, MaxMade: q.made, Yield: q.reconst.Over(q.loaded), Each: q.each,
		Supplies: q.supplies, Wear: q.wear, Labour: q.work,
		Electricity: func(cycle int, load exact.Number) (exact.Money, error) {
			rate := [...]exact.Number{q.night, q.dayRate}[cycle%2]
			kwh := q.kwh.Add(q.perUnit.Mul(load))
			return exact.MoneyOf(kwh.Mul(rate)).Round(q.places, exact.HalfEven), nil
		},
		Containers: func(n int) exact.Money { return q.container.Times(exact.Int(int64(n))) },
	}
	if q.limit >= 0 {
		s.Limit = exact.Some(q.limit)
	}
	if q.cycles >= 0 {
		s.MaxCycles = exact.Some(q.cycles)
	}
	return s
}

// saving is the twin: the rules of the decision word for word, one number of
// packages at a time, in big.Rat, cycle by cycle and jar by jar. It reports
// false where the limits do not allow that many.
func (q question) saving(n int) (saving *big.Rat, dried bool, allowed bool) {
	bought := new(big.Rat).Mul(rat(q.size), big.NewRat(int64(n), 1))
	fresh := new(big.Rat).Set(bought)
	if fresh.Cmp(rat(q.fresh)) > 0 {
		fresh.Set(rat(q.fresh))
	}
	left := new(big.Rat).Sub(bought, fresh)
	made := new(big.Rat).Mul(left, new(big.Rat).Quo(rat(q.reconst), rat(q.loaded)))
	dried = left.Sign() > 0

	cost := new(big.Rat).Mul(rat(q.price), big.NewRat(int64(n), 1))
	cycles := 0
	for ; left.Sign() > 0; cycles++ {
		load := new(big.Rat).Set(left)
		if load.Cmp(rat(q.load)) > 0 {
			load.Set(rat(q.load))
		}
		left.Sub(left, load)
		cost.Add(cost, q.cycleCost(cycles, load))
	}
	for jar := new(big.Rat); jar.Cmp(made) < 0; jar.Add(jar, rat(q.each)) {
		cost.Add(cost, rat(q.container.Number()))
	}
	value := new(big.Rat).Add(fresh, made)
	value.Mul(value, new(big.Rat).Quo(rat(q.shelf), rat(q.per)))

	allowed = q.limit < 0 || n <= q.limit
	allowed = allowed && (q.cycles < 0 || cycles <= q.cycles)
	if most, given := q.made.Get(); given && made.Cmp(rat(most)) > 0 {
		allowed = false
	}
	return value.Sub(value, cost), dried, allowed
}

func (q question) cycleCost(cycle int, load *big.Rat) *big.Rat {
	rate := q.night
	if cycle%2 == 1 {
		rate = q.dayRate
	}
	cost := new(big.Rat).Mul(rat(q.perUnit), load)
	cost.Add(cost, rat(q.kwh)).Mul(cost, rat(rate))
	posted := halfEven(cost, q.places)
	for _, m := range []exact.Money{q.supplies, q.wear, q.work} {
		posted.Add(posted, rat(m.Number()))
	}
	return posted
}

// halfEven rounds a number that is not negative.
func halfEven(r *big.Rat, places int) *big.Rat {
	unit := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)
	scaled := new(big.Rat).Mul(r, new(big.Rat).SetInt(unit))
	q, rest := new(big.Int).QuoRem(scaled.Num(), scaled.Denom(), new(big.Int))
	twice := rest.Lsh(rest, 1)
	if c := twice.Cmp(scaled.Denom()); c > 0 || c == 0 && q.Bit(0) == 1 {
		q.Add(q, big.NewInt(1))
	}
	return new(big.Rat).SetFrac(q, unit)
}

// Law: Decide finds what a plain count of all numbers finds.
func TestDecideAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawQuestion(t)
		d, err := pricing.Decide(q.sale())
		if err != nil {
			t.Fatal(err)
		}
		best, without := 0, 0
		top, topWithout := new(big.Rat), new(big.Rat)
		most := 0
		for n := 0; n <= q.limit; n++ {
			saving, dried, allowed := q.saving(n)
			if !allowed {
				break
			}
			most = n
			if saving.Cmp(top) > 0 {
				best, top = n, saving
			}
			if !dried && saving.Cmp(topWithout) > 0 {
				without, topWithout = n, saving
			}
			if row := d.Row(n); ratOf(row.Saving).Cmp(saving) != 0 {
				t.Fatalf("%d packages save %v, twin %v", n, row.Saving, saving)
			}
		}
		if d.Most != most {
			t.Fatalf("at most %d packages, twin %d", d.Most, most)
		}
		if d.Best.Packages != best || ratOf(d.Best.Saving).Cmp(top) != 0 {
			t.Fatalf("best is %d, saving %v; twin %d, %v", d.Best.Packages, d.Best.Saving, best, top)
		}
		if d.WithoutDrying.Packages != without || ratOf(d.WithoutDrying.Saving).Cmp(topWithout) != 0 {
			t.Fatalf("without drying %d, twin %d", d.WithoutDrying.Packages, without)
		}
		checkLimits(t, q, d)
	})
}

// checkLimits holds the limits to what forbids one package more.
func checkLimits(t *rapid.T, q question, d pricing.Decision) {
	next := q
	forbids := map[pricing.Limit]bool{pricing.ShopLimit: d.Most == q.limit}
	next.limit, next.made = -1, exact.Opt[exact.Number]{}
	_, _, allowed := next.saving(d.Most + 1)
	forbids[pricing.MachineLimit] = !allowed
	next = q
	next.limit, next.cycles = -1, -1
	_, _, allowed = next.saving(d.Most + 1)
	// With no cycle at all it is the machine that forbids making any.
	forbids[pricing.UseLimit] = !allowed && q.cycles != 0
	for limit, want := range forbids {
		got := false
		for _, l := range d.Limits {
			got = got || l == limit
		}
		if got != want {
			t.Fatalf("limits %v at %d packages: %v is %v, want %v", d.Limits, d.Most, limit, got, want)
		}
	}
}

// Law: rows that stand next to each other differ by their marginal saving, and
// every way to a row gives the same row.
func TestRowsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, err := pricing.Decide(drawQuestion(t).sale())
		if err != nil {
			t.Fatal(err)
		}
		n, before := 0, exact.Ratio{}
		for r := range d.Rows() {
			alone := d.Row(n)
			if r.Packages != n || !r.Saving.Equal(alone.Saving) || !r.Marginal.Equal(alone.Marginal) {
				t.Fatalf("row %d: %+v, alone %+v", n, r, alone)
			}
			if !r.Marginal.Equal(r.Saving.Sub(before)) {
				t.Fatalf("row %d: marginal %v after %v, saving %v", n, r.Marginal, before, r.Saving)
			}
			n, before = n+1, r.Saving
		}
		if n != d.Most+1 {
			t.Fatalf("%d rows, want %d", n, d.Most+1)
		}
	})
}
