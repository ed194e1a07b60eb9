package exact

import (
	"cmp"
	"math/big"
	"math/bits"
)

// A Mode says what becomes of digits that are dropped.
type Mode uint8

// The rounding modes: half-even, half-up, down and up of the General Decimal
// Arithmetic specification (its half-up, too, goes by the magnitude).
const (
	HalfEven Mode = iota // to the nearest; a tie to the even neighbour: postings
	HalfAway             // to the nearest; a tie away from zero: what shops print
	Down                 // towards zero
	Up                   // away from zero
)

// String returns the mode's name.
func (m Mode) String() string {
	switch m {
	case HalfEven:
		return "half even"
	case HalfAway:
		return "half away from zero"
	case Up:
		return "up"
	}
	return "down"
}

// up reports whether a magnitude whose kept part is odd or not, and whose
// dropped part compares to a half as cmpHalf (and is not zero), grows by one.
func (m Mode) up(odd bool, cmpHalf int) bool {
	switch m {
	case HalfEven:
		return cmpHalf > 0 || cmpHalf == 0 && odd
	case HalfAway:
		return cmpHalf >= 0
	case Up:
		return true
	}
	return false
}

// Round returns a with at most places digits after the point. A number that
// has no more is returned as it is.
func (a Number) Round(places int, mode Mode) Number {
	places = max(places, 0)
	if a.big() != nil {
		if places >= placesBig(a) {
			return a
		}
		n, d := a.fraction()
		return roundBig(n, d, places, mode)
	}
	if int(a.scale()) <= places {
		return a
	}
	// The quotient is at most a tenth of an int64, so it always fits.
	q, _ := quo64(abs64(a.coef), 1, uint64(pow10[int(a.scale())-places]), mode)
	return small(withSign(q, a.coef < 0), uint8(places))
}

// quo64 returns a*b/d rounded, and whether it fits an int64.
func quo64(a, b, d uint64, mode Mode) (uint64, bool) {
	hi, lo := bits.Mul64(a, b)
	if hi >= d {
		return 0, false
	}
	q, r := bits.Div64(hi, lo, d)
	if q >= 1<<63 {
		return 0, false
	}
	// d-r against r is 1/2 against r/d, without overflow.
	if r != 0 && mode.up(q&1 == 1, cmp.Compare(r, d-r)) {
		q++
	}
	return q, q < 1<<63
}

// roundBig returns n/d rounded; d is positive.
func roundBig(n, d *big.Int, places int, mode Mode) Number {
	p := bigPow10(places)
	p.Mul(p, n)
	negative := p.Sign() < 0
	q, r := p.Abs(p).QuoRem(p, d, new(big.Int))
	if r.Sign() != 0 && mode.up(q.Bit(0) == 1, r.Lsh(r, 1).Cmp(d)) {
		q.Add(q, big.NewInt(1))
	}
	if negative {
		q.Neg(q)
	}
	return fromScaled(q, places)
}
