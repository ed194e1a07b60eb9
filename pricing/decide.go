package pricing

import (
	"cmp"
	"fmt"
	"iter"
	"slices"

	"putby/pricing/exact"
)

// A Limit is what keeps the number of packages from growing.
type Limit uint8

// The limits.
const (
	ShopLimit    Limit = iota // no more packages are sold
	MachineLimit              // no more cycles end before the food turns
	UseLimit                  // no more will be used before its best-by
)

// String names the limit in a few words.
func (l Limit) String() string {
	return [...]string{
		"the shop's limit",
		"the machine before the food turns",
		"what will be used before best-by",
	}[l]
}

// A Decision is the answer to a [Sale]: how many packages to buy. It is
// immutable, and safe to use from several goroutines when the functions of the
// sale are.
type Decision struct {
	Best          Row     // the largest saving; of equal ones the fewest packages
	WithoutDrying Row     // the largest saving of those that dry nothing
	Most          int     // the most packages that every limit allows
	Limits        []Limit // what allows no more than Most; see Binding

	count *count
}

// Decide works out every number of packages that the limits allow, and returns
// the one that saves most against the shelf:
//
//	fresh(n)  = min(FreshUse, n*Size), and the rest is dried: D = n*Size - fresh(n)
//	cost(n)   = what n packages cost + ceil(D/Load) cycles + ceil(D*Yield/Each) containers
//	value(n)  = (fresh(n) + D*Yield) * Shelf
//	saving(n) = value(n) - cost(n)
//
// Costs are money as posted; values are exact ratios. Errors are [ErrUnbounded],
// [ErrTooMany], one or more [*SaleError] joined, or that of a cycle's electricity. The
// time it takes grows
// with the number of packages, the memory with the number of cycles.
func Decide(s Sale) (Decision, error) {
	if err := s.check(); err != nil {
		return Decision{}, fmt.Errorf("deciding on a sale: %w", err)
	}
	most, limits, err := s.bounds()
	if err != nil {
		return Decision{}, fmt.Errorf("deciding on a sale: %w", err)
	}
	c, err := newCount(s, most)
	if err != nil {
		return Decision{}, fmt.Errorf("deciding on a sale: %w", err)
	}
	d := Decision{Most: most, Limits: limits, count: c}
	if d.search(); c.failed != nil {
		return Decision{}, fmt.Errorf("deciding on a sale: %w", c.failed)
	}
	return d, nil
}

// bounds returns the most packages that all limits allow, and which of them
// allow no more.
func (s *Sale) bounds() (most int, limits []Limit, err error) {
	bounds := s.Bounds()
	if len(bounds) == 0 {
		return 0, nil, ErrUnbounded
	}
	most = slices.MinFunc(bounds, func(a, b Bound) int { return cmp.Compare(a.Packages, b.Packages) }).Packages
	if most > MaxPackages {
		return 0, nil, ErrTooMany
	}
	for _, b := range bounds {
		if b.Packages == most {
			limits = append(limits, b.Limit)
		}
	}
	return most, limits, nil
}

// A Bound is how many packages one limit allows.
type Bound struct {
	Limit    Limit
	Packages int // 0: it allows none
}

// Bounds returns the limits that are given, whether or not they bind.
func (s *Sale) Bounds() (list []Bound) {
	if n, given := s.Limit.Get(); given {
		list = append(list, Bound{ShopLimit, n})
	}
	if cycles, given := s.MaxCycles.Get(); given {
		list = append(list, Bound{MachineLimit, s.PackagesIn(exact.RatioOf(s.Load.Mul(exact.Int(int64(cycles)))))})
	}
	// With no cycle at all nothing is made, and the machine's limit says so.
	if made, given := s.MaxMade.Get(); given && s.MaxCycles.Or(1) > 0 {
		list = append(list, Bound{UseLimit, s.PackagesIn(exact.RatioOf(made).Quo(s.Yield))})
	}
	return list
}

// mostCount is more packages than anybody buys, and few enough to multiply.
const mostCount = 1_000_000_000

// PackagesIn returns how many whole packages can be bought when no more than an
// amount of them may be dried; beyond a thousand million it says so many.
func (s *Sale) PackagesIn(dried exact.Ratio) int {
	n, ok := dried.Add(exact.RatioOf(s.FreshUse)).Quo(exact.RatioOf(s.Size)).Floor().Int64()
	if !ok || n > mostCount {
		return mostCount
	}
	return int(n)
}

// search finds the rows that the decision names.
func (d *Decision) search() {
	for r := range d.Rows() {
		if d.Best.Saving.Cmp(r.Saving) < 0 {
			d.Best = r
		}
		if r.Dried.IsZero() && d.WithoutDrying.Saving.Cmp(r.Saving) < 0 {
			d.WithoutDrying = r
		}
	}
}

// Rows yields every number of packages from 0 to Most.
func (d Decision) Rows() iter.Seq[Row] { return d.count.rows() }

// Row returns one of them; packages is from 0 to Most.
func (d Decision) Row(packages int) Row { return d.count.row(packages) }

// Binding returns what keeps the answer from being more packages: the limits
// where the answer is Most, and nothing where one package more would be
// allowed but not save.
func (d Decision) Binding() []Limit {
	if d.Best.Packages < d.Most {
		return nil
	}
	return d.Limits
}

// DryingBreakEven returns the price of a package at which drying what a row
// dries neither gains nor loses: (Made*Shelf - cycles - containers) * Size /
// Dried. It reports false where nothing is dried.
func (d Decision) DryingBreakEven(r Row) (exact.Ratio, bool) {
	if r.Dried.IsZero() {
		return exact.Ratio{}, false
	}
	cost := r.Cost.Cycles().Add(r.Cost.Packing)
	gain := r.Made.Mul(d.count.s.Shelf).Sub(exact.RatioOf(cost.Number()))
	return gain.Mul(d.count.s.Size.Over(r.Dried)), true
}
