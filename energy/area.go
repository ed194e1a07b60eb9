package energy

import (
	"math/bits"

	"putby/pricing/exact"
)

// An area is a sum of products that may need 128 bits: watts over time.
type area struct{ hi, lo uint64 } // hi x 2^64 + lo; the zero value is no energy

// add adds a*b. The sum of a log of 31 days at a gigawatt stays far below 128
// bits.
func (s *area) add(a, b uint64) {
	hi, lo := bits.Mul64(a, b)
	var carry uint64
	s.lo, carry = bits.Add64(s.lo, lo, 0)
	s.hi, _ = bits.Add64(s.hi, hi, carry)
}

// number returns the sum as an exact number.
func (s area) number() exact.Number {
	// 2^64 in two steps: it is no int64.
	return word(s.hi).Mul(exact.Int(1 << 32)).Mul(exact.Int(1 << 32)).Add(word(s.lo))
}

// word returns an unsigned 64-bit number.
func word(u uint64) exact.Number {
	return exact.Int(int64(u >> 1)).Mul(exact.Int(2)).Add(exact.Int(int64(u & 1)))
}

// collinear reports whether the middle one of three samples lies on the line
// between its neighbours, so that leaving it out changes no energy.
func collinear(at0, p0, at1, p1, at2, p2 int64) bool {
	// Equal slopes, multiplied crosswise so that nothing is divided or overflows: magnitudes of 128
	// bits, once the signs are known not to differ.
	rise1, rise2 := p1-p0, p2-p0
	if (rise1 < 0) != (rise2 < 0) && rise1 != 0 && rise2 != 0 {
		return false
	}
	h1, l1 := bits.Mul64(magnitude(rise1), uint64(at2-at0))
	h2, l2 := bits.Mul64(magnitude(rise2), uint64(at1-at0))
	return h1 == h2 && l1 == l2
}

func magnitude(n int64) uint64 {
	if n < 0 {
		return uint64(-n)
	}
	return uint64(n)
}
