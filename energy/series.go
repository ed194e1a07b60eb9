package energy

import (
	"math"
	"slices"
)

// This file has the float arithmetic of estimates from a series.

// runningSums give means and sums of squares of any part of a series.
type runningSums struct{ sum, square []float64 }

func newRunningSums(x []float64) runningSums {
	// Counted from the mean, so that squares keep their digits.
	r := runningSums{make([]float64, len(x)+1), make([]float64, len(x)+1)}
	origin := mean(x)
	for i, v := range x {
		d := v - origin
		r.sum[i+1] = r.sum[i] + d
		r.square[i+1] = r.square[i] + d*d
	}
	return r
}

// mean returns the mean of a part, from the mean of the whole.
func (r runningSums) mean(from, to int) float64 {
	return (r.sum[to] - r.sum[from]) / float64(to-from)
}

// squares returns the squares of a part about its mean.
func (r runningSums) squares(from, to int) float64 {
	sum := r.sum[to] - r.sum[from]
	return max(r.square[to]-r.square[from]-sum*sum/float64(to-from), 0)
}

func mean(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum / float64(len(x))
}

// deviation is the standard deviation about the mean.
func deviation(x []float64) float64 {
	m, sum := mean(x), 0.0
	for _, v := range x {
		sum += (v - m) * (v - m)
	}
	return math.Sqrt(sum / float64(len(x)))
}

// quantileOf is the nearest value in order.
func quantileOf(x []float64, p float64) float64 {
	sorted := slices.Sorted(slices.Values(x))
	return sorted[int(p*float64(len(sorted)-1)+0.5)]
}

// smoothed returns the means over a window of so many values on either side,
// fewer at the ends.
func smoothed(x []float64, side int) []float64 {
	out := make([]float64, len(x))
	for i := range x {
		out[i] = mean(x[max(i-side, 0):min(i+side+1, len(x))])
	}
	return out
}
