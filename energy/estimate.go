package energy

import (
	"errors"
	"math"
	"math/big"
	"slices"
	"strconv"
	"strings"

	"putby/pricing/exact"
)

// An Estimate is a figure that is inferred and not counted: a mean, a fit, a
// bound. It is a float, and whatever shows it says that it is an estimate.
type Estimate float64

// KWhPlaces is where an estimated kWh is rounded, half to even, before it is
// priced.
const KWhPlaces = 3

// Number returns the estimate as a number of at most places digits after the
// point, rounded half to even; its digits are the shortest that tell the float
// apart. It reports false for what is no number (no bound, an overflow).
func (e Estimate) Number(places int) (exact.Number, bool) {
	f := float64(e)
	if math.IsNaN(f) || math.Abs(f) >= 1e15 {
		return exact.Number{}, false
	}
	mantissa, exponent, _ := strings.Cut(strconv.FormatFloat(f, 'e', -1, 64), "e")
	whole, fraction, _ := strings.Cut(mantissa, ".")
	coef, _ := strconv.ParseInt(whole+fraction, 10, 64) // 17 digits at most
	power, _ := strconv.Atoi(exponent)
	return exact.New(coef, len(fraction)-power).Round(places, exact.HalfEven), true
}

// KWh returns an estimated energy as it is priced, at [KWhPlaces]; one below 0
// is 0.
func (e Estimate) KWh() (exact.Number, bool) {
	n, ok := e.Number(KWhPlaces)
	return n.Max(exact.Number{}), ok
}

// ErrNoValues is the error of statistics of nothing.
var ErrNoValues = errors.New("there are no values")

// A Spread tells how values lie. Sums are taken exactly, and become floats at
// the end.
type Spread struct {
	N                              int // how many values, 1 at least
	Mean                           Estimate
	SD                             exact.Opt[Estimate] // sample standard deviation (n-1); not given for one value
	Min, Lower, Median, Upper, Max Estimate            // with the quartiles; see [exact.Quantile]
}

// SpreadOf describes values.
func SpreadOf(values []exact.Ratio) (Spread, error) {
	if len(values) == 0 {
		return Spread{}, ErrNoValues
	}
	sorted := slices.SortedFunc(slices.Values(values), exact.Ratio.Cmp)
	n := len(values)
	sum, squares := powerSums(values)
	mean := new(big.Rat).Quo(sum, big.NewRat(int64(n), 1))
	s := Spread{N: n, Mean: estimate(mean)}
	s.Min, s.Max = estimate(rational(sorted[0])), estimate(rational(sorted[n-1]))
	s.Lower, s.Median, s.Upper = quartile(sorted, 1), quartile(sorted, 2), quartile(sorted, 3)
	if n > 1 {
		// The squares of the differences from the mean add up to the squares less the
		// sum times the mean: exactly, since nothing is rounded yet.
		squares.Sub(squares, sum.Mul(sum, mean))
		variance := squares.Quo(squares, big.NewRat(int64(n-1), 1))
		s.SD = exact.Some(root(variance))
	}
	return s, nil
}

// powerSums adds up values and their squares. Those of one denominator are added as whole
// numbers: decimals have few, and to bring fractions to lowest terms takes long.
func powerSums(values []exact.Ratio) (sum, squares *big.Rat) {
	type numerators struct{ sum, squares big.Int }
	over := map[string]*numerators{} // by denominator
	var n, square, whole big.Int
	for _, v := range values {
		text, denominator, fraction := strings.Cut(v.String(), "/")
		if !fraction {
			denominator = "1"
		}
		all := over[denominator]
		if all == nil {
			all = new(numerators)
			over[denominator] = all
		}
		n.SetString(text, 10)
		all.sum.Add(&all.sum, &n)
		all.squares.Add(&all.squares, square.Mul(&n, &n))
	}
	sum, squares = new(big.Rat), new(big.Rat)
	for denominator, all := range over {
		whole.SetString(denominator, 10)
		sum.Add(sum, new(big.Rat).SetFrac(&all.sum, &whole))
		squares.Add(squares, new(big.Rat).SetFrac(&all.squares, whole.Mul(&whole, &whole)))
	}
	return sum, squares
}

// quartile returns one of the three quartiles of sorted values.
func quartile(sorted []exact.Ratio, k int64) Estimate {
	q, _ := exact.Quantile(sorted, exact.Int(k).Over(exact.Int(4)))
	return estimate(rational(q))
}

// rational returns a ratio for exact sums that end as an estimate.
func rational(r exact.Ratio) *big.Rat {
	q, _ := new(big.Rat).SetString(r.String()) // which always writes a fraction
	return q
}

func estimate(r *big.Rat) Estimate {
	f, _ := r.Float64()
	return Estimate(f)
}
