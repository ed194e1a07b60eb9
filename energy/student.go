package energy

import "math"

// This file has the float arithmetic of the intervals around estimates.

// StudentQuantile returns the value that a variable of Student's t
// distribution with so many degrees of freedom, at least 1, is below with
// probability p. It is infinite at 0 and 1, and not a number outside.
func StudentQuantile(p float64, freedom int) float64 {
	switch {
	case p < 0 || p > 1 || freedom < 1 || math.IsNaN(p):
		return math.NaN()
	case p < 0.5:
		return -StudentQuantile(1-p, freedom) // symmetric about 0, so one side is searched
	case p == 1:
		return math.Inf(1)
	}
	high := 1.0
	for studentBelow(high, freedom) < p && high < 1e300 {
		high *= 2
	}
	low := 0.0
	for { // halve until no float lies between
		middle := low + (high-low)/2
		if middle <= low || middle >= high {
			return high
		}
		if studentBelow(middle, freedom) < p {
			low = middle
		} else {
			high = middle
		}
	}
}

// studentBelow returns the probability of being below t, which is at least 0:
// 1 - I(ν/(ν+t²); ν/2, 1/2)/2 (NIST Digital Library of Mathematical Functions,
// 8.17, for the incomplete beta function I). Near the middle the other tail is
// more accurate.
func studentBelow(t float64, freedom int) float64 {
	v := float64(freedom)
	if t*t < v {
		return 0.5 + incompleteBeta(t*t/(v+t*t), 0.5, v/2)/2
	}
	return 1 - incompleteBeta(v/(v+t*t), v/2, 0.5)/2
}

// incompleteBeta returns the regularised incomplete beta function by the
// continued fraction DLMF 8.17.22, on the side where it converges quickly.
func incompleteBeta(x, a, b float64) float64 {
	switch {
	case x <= 0:
		return 0
	case x >= 1:
		return 1
	case x > (a+1)/(a+b+2):
		return 1 - incompleteBeta(1-x, b, a)
	}
	la, _ := math.Lgamma(a)
	lb, _ := math.Lgamma(b)
	lab, _ := math.Lgamma(a + b)
	front := math.Exp(a*math.Log(x) + b*math.Log1p(-x) + lab - la - lb)
	return front / (a * betaFraction(x, a, b))
}

// betaFraction evaluates the continued fraction 1 + d1/(1 + d2/(1 + ...)) of
// DLMF 8.17.22 and 8.17.23 from the front (modified Lentz).
func betaFraction(x, a, b float64) float64 {
	c, d, f := 1.0, 0.0, 1.0
	for n := 1; n < 10_000; n++ {
		k := float64(n / 2)
		term := k * (b - k) * x / ((a + 2*k - 1) * (a + 2*k))
		if n%2 == 1 {
			term = -(a + k) * (a + b + k) * x / ((a + 2*k) * (a + 2*k + 1))
		}
		d = 1 / nonzero(1+term*d)
		c = nonzero(1 + term/c)
		f *= c * d
		if math.Abs(c*d-1) < 1e-16 {
			break
		}
	}
	return f
}

func nonzero(x float64) float64 {
	if x == 0 {
		return 1e-300
	}
	return x
}
