package report

import (
	"math"
	"slices"

	"putby/energy"
	"putby/pricing/exact"
)

// Statistics over figures that vary. What is an estimate (a standard deviation,
// the error of a mean) passes through floats and is marked so where it is
// shown; a mean is exact.

// meanOf returns the mean of at least one figure, exactly.
func meanOf(list []exact.Ratio) exact.Ratio {
	return sumRatios(slices.Clone(list)).Quo(wholeRatio(len(list)))
}

// spreadOf describes figures for an estimate: they are first rounded at 12
// decimals, since exact sums of thousands of quotients grow very long.
func spreadOf(list []exact.Ratio) (energy.Spread, error) {
	rounded := make([]exact.Ratio, len(list))
	for i, r := range list {
		rounded[i] = exact.RatioOf(r.Round(exact.QuantityPlaces, exact.HalfEven))
	}
	return energy.SpreadOf(rounded)
}

// errorOf returns how far the mean of at least two figures may be off to each
// side: Student's t of 95 in 100 times the standard error of the mean. It
// reports false where that cannot be reckoned.
func errorOf(list []exact.Ratio) (exact.Ratio, bool) {
	spread, err := spreadOf(list)
	sd, ok := spread.SD.Get()
	if err != nil || !ok {
		return exact.Ratio{}, false
	}
	t := energy.StudentQuantile(0.975, spread.N-1)
	off, ok := energy.Estimate(t * float64(sd) / math.Sqrt(float64(spread.N))).Number(exact.QuantityPlaces)
	return exact.RatioOf(off), ok
}

func wholeRatio(n int) exact.Ratio { return exact.RatioOf(exact.Int(int64(n))) }

// deviation is the standard deviation of what a unit cost from run to run, an
// estimate of how much the next run will differ.
func (c *compared) deviation() Value {
	spread, err := spreadOf(c.perRuns)
	sd, ok := spread.SD.Get()
	if err != nil || !ok {
		return None
	}
	n, ok := sd.Number(exact.QuantityPlaces)
	if !ok {
		return None
	}
	return PriceOf(exact.RatioOf(n), c.unit).Estimated()
}
