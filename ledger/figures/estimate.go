package figures

import (
	"math"

	"putby/energy"
	"putby/pricing/exact"
)

// Statistics over figures that vary. What is an estimate (a standard deviation,
// the error of a mean) passes through floats, and is not to be shown without
// being marked as one.

// spreadOf describes figures for an estimate: they are first rounded at 12
// decimals, since exact sums of thousands of quotients grow very long.
func spreadOf(list []exact.Ratio) (energy.Spread, error) {
	rounded := make([]exact.Ratio, len(list))
	for i, r := range list {
		rounded[i] = exact.RatioOf(r.Round(exact.QuantityPlaces, exact.HalfEven))
	}
	return energy.SpreadOf(rounded)
}

// errorOf estimates how far the mean of at least two figures may be off to each
// side: Student's t of 95 in 100 times the standard error of the mean. It
// reports false where that cannot be told.
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

// deviationOf estimates the standard deviation of figures; not given where
// there are too few.
func deviationOf(list []exact.Ratio) (sd exact.Opt[exact.Ratio]) {
	spread, err := spreadOf(list)
	if estimate, ok := spread.SD.Get(); err == nil && ok {
		if n, ok := estimate.Number(exact.QuantityPlaces); ok {
			return exact.Some(exact.RatioOf(n))
		}
	}
	return sd
}
