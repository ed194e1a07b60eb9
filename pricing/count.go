package pricing

import (
	"iter"

	"putby/pricing/exact"
)

// A count works out what any number of packages up to the most comes to. It
// holds one sum for each cycle, not for each package, and is immutable but for the
// first error of a cycle's electricity, after which nothing that it says is of use.
type count struct {
	s      Sale
	most   int           // packages
	full   []exact.Money // full[k] is the electricity of the first k cycles, all of them full
	failed error         // of the first cycle whose electricity has no price
}

// newCount checks that every number up to most can be counted, and sums the
// electricity of full cycles. The error is [ErrTooMany] or that of a cycle's
// electricity.
func newCount(s Sale, most int) (*count, error) {
	c := &count{s: s, most: most}
	_, dried := c.portions(most)
	cycles, ok1 := ceil(exact.RatioOf(dried), s.Load)
	packed, ok2 := ceil(s.Yield.Times(dried), s.Each)
	if !ok1 || !ok2 || cycles > MaxCycles || packed > maxPacked {
		return nil, ErrTooMany
	}
	c.full = make([]exact.Money, max(cycles, 1))
	// All but the last cycle, which may be part full and is priced with its own load.
	for k := 1; k < cycles; k++ {
		c.full[k] = c.full[k-1].Add(c.cycle(k-1, s.Load))
	}
	return c, c.failed
}

// ceil returns how many whole portions of a size hold an amount; none where
// there is no size. It reports false when they are too many for an int.
func ceil(amount exact.Ratio, size exact.Number) (int, bool) {
	if size.IsZero() {
		return 0, true
	}
	n, ok := amount.Quo(exact.RatioOf(size)).Ceil().Int64()
	return int(n), ok
}

// portions returns how much of n packages is eaten fresh and how much dried.
func (c *count) portions(n int) (fresh, dried exact.Number) {
	bought := c.s.Size.Mul(exact.Int(int64(n)))
	fresh = bought.Min(c.s.FreshUse)
	return fresh, bought.Sub(fresh)
}

// rows yields every row from no package to the most.
func (c *count) rows() iter.Seq[Row] {
	return func(yield func(Row) bool) {
		var before exact.Ratio
		for n := range c.most + 1 {
			r := c.workOut(n)
			r.Marginal = r.Saving.Sub(before)
			before = r.Saving
			if !yield(r) {
				return
			}
		}
	}
}

// row returns the row of n packages.
func (c *count) row(n int) Row {
	r := c.workOut(n)
	if n > 0 {
		r.Marginal = r.Saving.Sub(c.workOut(n - 1).Saving)
	}
	return r
}

// workOut returns the row of n packages but for its marginal saving.
func (c *count) workOut(n int) Row {
	r := Row{Packages: n}
	r.Fresh, r.Dried = c.portions(n)
	r.Made = c.s.Yield.Times(r.Dried)
	r.Cycles = c.cycles(r.Dried)
	r.Containers, _ = ceil(r.Made, c.s.Each)
	r.Cost = c.cost(r)
	r.Value = r.Amount().Mul(c.s.Shelf)
	r.Saving = r.Value.Sub(exact.RatioOf(r.Cost.Total().Number()))
	return r
}

// cycles returns how many cycles dry an amount.
func (c *count) cycles(dried exact.Number) int {
	k, _ := ceil(exact.RatioOf(dried), c.s.Load)
	return k
}

// lastLoad returns what is dried in the last cycle of a row, which has one.
func (c *count) lastLoad(r Row) exact.Number {
	return r.Dried.Sub(c.s.Load.Mul(exact.Int(int64(r.Cycles - 1))))
}

// cost returns what a row's packages, cycles and containers cost.
func (c *count) cost(r Row) Cost {
	cost := Cost{Food: c.food(r.Packages)}
	if r.Cycles > 0 {
		k := exact.Int(int64(r.Cycles))
		last := r.Cycles - 1
		cost.Electricity = c.full[last].Add(c.cycle(last, c.lastLoad(r)))
		cost.Supplies = c.s.Supplies.Times(k)
		cost.Wear = c.s.Wear.Times(k)
		cost.Labour = c.s.Labour.Times(k)
	}
	if r.Containers > 0 && c.s.Containers != nil {
		cost.Packing = c.s.Containers(r.Containers)
	}
	return cost
}

// food returns what n packages cost.
func (c *count) food(n int) exact.Money {
	if c.s.Paid != nil && n > 0 {
		return c.s.Paid(n)
	}
	return exact.MoneyOf(c.s.Price.Mul(exact.Int(int64(n))))
}

// cycle returns what the electricity of one cycle costs.
func (c *count) cycle(k int, load exact.Number) exact.Money {
	if c.s.Electricity == nil {
		return exact.Money{}
	}
	cost, err := c.s.Electricity(k, load)
	if err != nil && c.failed == nil {
		c.failed = err
	}
	return cost
}
