package page

import (
	"putby/pricing/exact"
)

// An axis is a straight scale between two round figures, with round figures
// marked on it.
type axis struct {
	low, high exact.Number   // low is below high
	ticks     []exact.Number // upwards, a step apart, in the unit that is drawn
	places    int            // decimals of the ticks
}

// newAxis lays an axis over the figures from low to high, with about want
// ticks 1, 2 or 5 times a power of ten apart.
func newAxis(low, high exact.Ratio, want int) axis {
	if high.Cmp(low) <= 0 {
		high = low.Add(exact.RatioOf(exact.Int(1)))
	}
	step := roundStep(high.Sub(low).Quo(exact.RatioOf(exact.Int(int64(want)))))
	by := exact.RatioOf(step)
	first, last := low.Quo(by).Floor(), high.Quo(by).Ceil()
	a := axis{low: first.Mul(step), high: last.Mul(step), places: step.Places()}
	for n := first; !last.Less(n); n = n.Add(exact.Int(1)) {
		a.ticks = append(a.ticks, n.Mul(step))
	}
	return a
}

// roundStep returns the smallest 1, 2 or 5 times a power of ten, from a
// millionth up, that is not below least.
func roundStep(least exact.Ratio) exact.Number {
	for ten := exact.New(1, 6); ; ten = ten.Mul(exact.Int(10)) {
		for _, n := range []int64{1, 2, 5} {
			if step := ten.Mul(exact.Int(n)); exact.RatioOf(step).Cmp(least) >= 0 {
				return step
			}
		}
	}
}

// part returns how far along the axis v lies: 0 at its low end, 1 at its high
// end.
func (a axis) part(v exact.Ratio) exact.Ratio {
	return v.Sub(exact.RatioOf(a.low)).Quo(exact.RatioOf(a.high.Sub(a.low)))
}

// along returns v's place from the left, as a percentage of the width.
func (a axis) along(v exact.Ratio) string { return percent(a.part(v)) }

// down returns v's place, in pixels, below the top of the figure: in an area so
// high that begins so far down.
func (a axis) down(v exact.Ratio, top, height int) exact.Number {
	rest := exact.RatioOf(exact.Int(1)).Sub(a.part(v))
	return rest.Times(exact.Int(int64(height))).Round(pixelPlaces, exact.HalfAway).Add(exact.Int(int64(top)))
}

// label returns how a tick is written.
func (a axis) label(t valueText, tick exact.Number) string {
	return t.show.Locale.Amount(tick.Fixed(a.places))
}

// Where pixels and percentages are rounded, in places.
const (
	pixelPlaces   = 1
	percentPlaces = 2
)

// percent writes a part as a percentage.
func percent(part exact.Ratio) string {
	return part.Times(exact.Int(100)).Round(percentPlaces, exact.HalfAway).String() + "%"
}

// nameEvery returns the step, in months or years, at which ticks are named, so that
// of n there are at most most names: the first of steps that is large enough, else the last.
func nameEvery(n, most int, steps ...int) int {
	for _, step := range steps {
		if n <= step*most {
			return step
		}
	}
	return steps[len(steps)-1]
}

// ofHundred returns n/d as a percentage.
func ofHundred(n, d int) string { return percent(exact.Int(int64(n)).Over(exact.Int(int64(d)))) }
