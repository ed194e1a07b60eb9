package energy

import (
	"errors"
	"fmt"
	"math"
	"math/big"

	"putby/pricing/exact"
)

// A Point is one run for a fit: what went in (X, in the food's basis unit) and what
// it used (Y, in kWh).
type Point struct{ X, Y exact.Ratio }

// MinDistinct is how many different X a line is fitted through at least.
const MinDistinct = 4

// ErrTooFew is the error of a fit through fewer than [MinDistinct] different X.
var ErrTooFew = errors.New("too few runs with different loads for a line")

// A Line is a least-squares line Y = Intercept + Slope X, and how well it is
// known. All sums are taken exactly and become floats at the end, so that the
// fit has the accuracy of a float whatever the points. It is an estimate: no figure
// of the books comes from it.
type Line struct {
	N           int      // how many points
	Slope       Estimate // of Y, for one more of X
	Intercept   Estimate // Y where X is 0
	SlopeSE     Estimate // standard error
	InterceptSE Estimate
	ResidualSD  Estimate // with n-2 degrees of freedom
	RSquared    Estimate // 1 where all Y are equal
	meanX, sxx  float64
}

// FitLine fits a line through points.
func FitLine(points []Point) (Line, error) {
	distinct := map[string]bool{}
	for _, p := range points {
		distinct[p.X.String()] = true // in lowest terms, so that equal ones are written alike
	}
	if len(distinct) < MinDistinct {
		return Line{}, fmt.Errorf("%w: %d of the %d that it takes", ErrTooFew, len(distinct), MinDistinct)
	}
	// Ordinary least squares: slope Sxy/Sxx, through the means. TestNorris holds every figure to the
	// values that NIST certifies for a data set.
	s := sumsOf(points)
	n := len(points)
	slope := new(big.Rat).Quo(s.xy, s.xx)
	intercept := new(big.Rat).Sub(s.meanY, new(big.Rat).Mul(slope, s.meanX))
	// What is left of the squares of Y: Syy - Sxy²/Sxx, exactly, never below 0.
	explained := new(big.Rat).Mul(slope, s.xy)
	left := new(big.Rat).Sub(s.yy, explained)
	variance := new(big.Rat).Quo(left, big.NewRat(int64(n-2), 1))
	slopeVar := new(big.Rat).Quo(variance, s.xx)
	// Var(intercept) = s² (1/n + mean²/Sxx)
	spread := new(big.Rat).Quo(new(big.Rat).Mul(s.meanX, s.meanX), s.xx)
	spread.Add(spread, big.NewRat(1, int64(n)))
	line := Line{
		N: n, Slope: estimate(slope), Intercept: estimate(intercept),
		SlopeSE:     root(slopeVar),
		InterceptSE: root(spread.Mul(spread, variance)),
		ResidualSD:  root(variance),
		RSquared:    1,
		meanX:       float64(estimate(s.meanX)),
		sxx:         float64(estimate(s.xx)),
	}
	if s.yy.Sign() > 0 {
		line.RSquared = estimate(explained.Quo(explained, s.yy))
	}
	return line, nil
}

// centred are sums of squares and products about the means.
type centred struct{ meanX, meanY, xx, xy, yy *big.Rat }

// sumsOf adds up whole numbers of a unit, since ratios are brought to lowest terms
// at every step: the sum of products about the means is that of products less the
// product of sums by n.
func sumsOf(points []Point) centred {
	xs, ys := make([]exact.Ratio, len(points)), make([]exact.Ratio, len(points))
	for i, p := range points {
		xs[i], ys[i] = p.X, p.Y
	}
	as, ofX := exact.Whole(xs)
	bs, ofY := exact.Whole(ys)
	var a, b, aa, ab, bb exact.Number
	for i := range points {
		a, b = a.Add(as[i]), b.Add(bs[i])
		aa, ab, bb = aa.Add(as[i].Mul(as[i])), ab.Add(as[i].Mul(bs[i])), bb.Add(bs[i].Mul(bs[i]))
	}
	n := exact.Int(int64(len(points)))
	about := func(products, a, b exact.Number, of exact.Ratio) *big.Rat {
		return rational(products.Mul(n).Sub(a.Mul(b)).Over(n).Mul(of))
	}
	return centred{
		meanX: rational(a.Over(n).Mul(ofX)), meanY: rational(b.Over(n).Mul(ofY)),
		xx: about(aa, a, a, ofX.Mul(ofX)), xy: about(ab, a, b, ofX.Mul(ofY)), yy: about(bb, b, b, ofY.Mul(ofY)),
	}
}

func root(r *big.Rat) Estimate { return Estimate(math.Sqrt(float64(estimate(r)))) }

// At returns the line at x.
func (l Line) At(x exact.Ratio) Estimate {
	return l.Intercept + l.Slope*estimate(rational(x))
}

// Prediction returns the bounds between which one further Y at x lies with so
// much confidence, such as 0.9: with t the Student quantile for n-2 degrees of
// freedom, At(x) ± t s sqrt(1 + 1/n + (x - mean)²/Sxx).
func (l Line) Prediction(x exact.Ratio, confidence float64) (low, high Estimate) {
	d := float64(estimate(rational(x))) - l.meanX
	se := float64(l.ResidualSD) * math.Sqrt(1+1/float64(l.N)+d*d/l.sxx)
	half := Estimate(StudentQuantile((1+confidence)/2, l.N-2) * se)
	return l.At(x) - half, l.At(x) + half
}

// Prediction returns the bounds between which one further value lies with so
// much confidence, if values lie as a normal distribution: mean ± t s sqrt(1 +
// 1/n). It reports false for fewer than 2 values.
func (s Spread) Prediction(confidence float64) (low, high Estimate, ok bool) {
	sd, ok := s.SD.Get()
	if !ok {
		return s.Mean, s.Mean, false
	}
	t := StudentQuantile((1+confidence)/2, s.N-1)
	half := Estimate(t * float64(sd) * math.Sqrt(1+1/float64(s.N)))
	return s.Mean - half, s.Mean + half, true
}
