package exact

import (
	"math/big"
	"math/bits"
)

// A Mode says what becomes of digits that are dropped.
type Mode uint8

// The rounding modes. The names follow the General Decimal Arithmetic
// specification where it has one.
const (
	HalfEven Mode = iota // to the nearest; a tie to the even neighbour: postings
	HalfAway             // to the nearest; a tie away from zero: what shops print
	Down                 // towards zero
	Up                   // away from zero
)

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

// Round returns a with at most places digits after the point. Places may not
// be negative.
func (a Number) Round(places int, mode Mode) Number {
	if a.big != nil {
		n, d := a.fraction()
		return roundBig(n, d, places, mode)
	}
	if int(a.scale) <= places {
		return a
	}
	q, ok := quo64(abs64(a.coef), 1, uint64(pow10[int(a.scale)-places]), mode)
	if !ok {
		n, d := a.fraction()
		return roundBig(n, d, places, mode)
	}
	return Number{coef: withSign(q, a.coef < 0), scale: uint8(places)}
}

func withSign(u uint64, negative bool) int64 {
	if negative {
		return -int64(u)
	}
	return int64(u)
}

// quo64 returns a*b/d rounded, and whether it fits an int64.
func quo64(a, b, d uint64, mode Mode) (uint64, bool) {
	hi, lo := bits.Mul64(a, b)
	if hi >= d {
		return 0, false
	}
	q, r := bits.Div64(hi, lo, d)
	if r != 0 && mode.up(q&1 == 1, cmpHalf64(r, d)) {
		q++
	}
	return q, q < 1<<63
}

// cmpHalf64 compares r with d/2 without overflow.
func cmpHalf64(r, d uint64) int {
	switch rest := d - r; {
	case r < rest:
		return -1
	case r > rest:
		return 1
	}
	return 0
}

// roundBig returns n/d rounded; d is positive.
func roundBig(n, d *big.Int, places int, mode Mode) Number {
	p := new(big.Int).Exp(bigTen, big.NewInt(int64(places)), nil)
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
