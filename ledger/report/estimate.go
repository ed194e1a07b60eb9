package report

import "putby/pricing/exact"

// Statistics over figures that vary. What is an estimate, here a standard
// deviation and what is built on it, is marked so where it is shown.

// medianOf returns the middle of figures in order of size, of an even number
// of them the mean of the two in the middle, exactly.
func medianOf(sorted []exact.Ratio) exact.Ratio {
	n := len(sorted)
	if n%2 == 1 {
		return sorted[n/2]
	}
	return sorted[n/2-1].Add(sorted[n/2]).Quo(wholeRatio(2))
}

// meanOf returns the mean of at least one figure, exactly.
func meanOf(list []exact.Ratio) exact.Ratio {
	var sum exact.Ratio
	for _, r := range list {
		sum = sum.Add(r)
	}
	return sum.Quo(wholeRatio(len(list)))
}

// varianceOf returns the variance of at least two figures, seen as a sample:
// the sum of squared deviations from their mean over n - 1, exactly.
func varianceOf(list []exact.Ratio) exact.Ratio {
	mean, sum := meanOf(list), exact.Ratio{}
	for _, r := range list {
		off := r.Sub(mean)
		sum = sum.Add(off.Mul(off))
	}
	return sum.Quo(wholeRatio(len(list) - 1))
}

// sqrt returns the square root of a ratio that is not negative, rounded up at
// 12 decimals, by Newton's iteration, which comes down to it from above.
func sqrt(v exact.Ratio) exact.Number {
	if v.Sign() <= 0 {
		return exact.Number{}
	}
	half := exact.Int(1).Over(exact.Int(2))
	x := v.Ceil()
	for {
		r := exact.RatioOf(x)
		next := r.Add(v.Quo(r)).Mul(half).Round(exact.QuantityPlaces, exact.Up)
		if !next.Less(x) {
			return x
		}
		x = next
	}
}

func wholeRatio(n int) exact.Ratio { return exact.RatioOf(exact.Int(int64(n))) }

// deviation is the standard deviation of what a unit cost from run to run, an
// estimate of how much the next run will differ.
func (c *compared) deviation() Value {
	if len(c.perRuns) < 2 {
		return None
	}
	return PriceOf(exact.RatioOf(sqrt(varianceOf(c.perRuns))), c.unit).Estimated()
}
