package exact

import (
	"math/bits"
	"strconv"

	"github.com/shopspring/decimal"
)

// A Number is an exact decimal number of any size. Its zero value is 0.
// Numbers are immutable; compare them with [Number.Equal] or [Number.Cmp],
// since 1.0 and 1 are equal numbers held in different ways.
type Number struct {
	// A number whose digits fit an int64 is held in coef and scale, which
	// costs no allocation; any other is held in big, and coef is unused.
	coef  int64
	scale uint8
	big   *decimal.Decimal
}

// maxScale is the largest scale of a small number: the most decimal digits
// that every int64 can be multiplied up to.
const maxScale = 18

var pow10 = [maxScale + 1]int64{
	1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9,
	1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18,
}

// Int returns the number n.
func Int(n int64) Number { return New(n, 0) }

// New returns coef / 10^places. Places ranges from 0 to 18; outside it New
// returns the same value by the slow path.
func New(coef int64, places int) Number {
	if places < 0 || places > maxScale || coef == minInt64 {
		return fromDecimal(decimal.New(coef, int32(-places)))
	}
	return Number{coef: coef, scale: uint8(places)}
}

const minInt64 = -1 << 63

// Sign returns -1, 0 or 1.
func (a Number) Sign() int {
	if a.big != nil {
		return a.big.Sign()
	}
	switch {
	case a.coef < 0:
		return -1
	case a.coef > 0:
		return 1
	}
	return 0
}

// IsZero reports whether a is 0.
func (a Number) IsZero() bool { return a.Sign() == 0 }

// Neg returns -a.
func (a Number) Neg() Number {
	if a.big != nil {
		return fromDecimal(a.big.Neg())
	}
	a.coef = -a.coef
	return a
}

// Abs returns a without its sign.
func (a Number) Abs() Number {
	if a.Sign() < 0 {
		return a.Neg()
	}
	return a
}

// Add returns a + b.
func (a Number) Add(b Number) Number {
	if x, y, scale, ok := align(a, b); ok {
		sum := x + y
		if (sum > x) == (y > 0) && sum != minInt64 {
			return Number{coef: sum, scale: scale}
		}
	}
	return addBig(a, b)
}

// Sub returns a - b.
func (a Number) Sub(b Number) Number { return a.Add(b.Neg()) }

// Mul returns a * b.
func (a Number) Mul(b Number) Number {
	if a.big == nil && b.big == nil {
		if c, ok := mul64(a.coef, b.coef); ok && a.scale+b.scale <= maxScale {
			return Number{coef: c, scale: a.scale + b.scale}
		}
	}
	return mulBig(a, b)
}

// Cmp returns -1, 0 or 1 as a is below, equal to or above b.
func (a Number) Cmp(b Number) int {
	if x, y, _, ok := align(a, b); ok {
		switch {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	}
	return cmpBig(a, b)
}

// Equal reports whether a and b are the same number.
func (a Number) Equal(b Number) bool { return a.Cmp(b) == 0 }

// Less reports whether a is below b.
func (a Number) Less(b Number) bool { return a.Cmp(b) < 0 }

// Min returns the smaller of a and b, and a when they are equal.
func (a Number) Min(b Number) Number {
	if b.Less(a) {
		return b
	}
	return a
}

// Max returns the larger of a and b, and a when they are equal.
func (a Number) Max(b Number) Number {
	if a.Less(b) {
		return b
	}
	return a
}

// Over returns the ratio a/b. It panics when b is 0, as integer division does;
// callers check b where a record could make it so.
func (a Number) Over(b Number) Ratio { return newRatio(a, b) }

// IsInt reports whether a has no digits after the point.
func (a Number) IsInt() bool {
	return a.Round(0, Down).Equal(a)
}

// Int64 returns a as an int64, and whether it is a whole number that fits.
func (a Number) Int64() (int64, bool) {
	t := a.Round(0, Down)
	if t.big != nil || !t.Equal(a) {
		return 0, false
	}
	return t.coef / pow10[t.scale], true
}

// Places returns how many digits after the point a needs.
func (a Number) Places() int {
	if a.big != nil {
		return placesBig(a)
	}
	t := a.trim()
	return int(t.scale)
}

// trim drops trailing zeros after the point of a small number.
func (a Number) trim() Number {
	for a.scale > 0 && a.coef%10 == 0 {
		a.coef /= 10
		a.scale--
	}
	return a
}

// String returns the shortest plain notation: no exponent, no trailing zeros
// after the point.
func (a Number) String() string {
	if a.big != nil {
		return a.big.String()
	}
	var buf [24]byte
	return string(a.trim().append(buf[:0]))
}

// Fixed returns plain notation with at least places digits after the point.
// It pads with zeros and never cuts a digit: round first to have fewer.
func (a Number) Fixed(places int) string {
	if a.big == nil && places <= maxScale {
		t := a.trim()
		if int(t.scale) >= places {
			return t.String()
		}
		if c, ok := mul64(t.coef, pow10[places-int(t.scale)]); ok {
			var buf [24]byte
			return string(Number{coef: c, scale: uint8(places)}.append(buf[:0]))
		}
	}
	return fixedBig(a, places)
}

// append appends a small number with exactly its scale.
func (a Number) append(dst []byte) []byte {
	if a.scale == 0 {
		return strconv.AppendInt(dst, a.coef, 10)
	}
	u := uint64(a.coef)
	if a.coef < 0 {
		dst = append(dst, '-')
		u = -u
	}
	unit := uint64(pow10[a.scale])
	dst = strconv.AppendUint(dst, u/unit, 10)
	dst = append(dst, '.')
	for rest := u % unit; unit > 1; rest %= unit {
		unit /= 10
		dst = append(dst, byte('0'+rest/unit))
	}
	return dst
}

// align brings two small numbers to one scale; ok is false when one of them is
// big or does not fit at that scale.
func align(a, b Number) (x, y int64, scale uint8, ok bool) {
	if a.big != nil || b.big != nil {
		return 0, 0, 0, false
	}
	switch {
	case a.scale == b.scale:
		return a.coef, b.coef, a.scale, true
	case a.scale < b.scale:
		x, ok = mul64(a.coef, pow10[b.scale-a.scale])
		return x, b.coef, b.scale, ok
	default:
		y, ok = mul64(b.coef, pow10[a.scale-b.scale])
		return a.coef, y, a.scale, ok
	}
}

// mul64 multiplies, and reports whether the product fits (and is not the
// lowest int64, which has no negative).
func mul64(a, b int64) (int64, bool) {
	hi, lo := bits.Mul64(abs64(a), abs64(b))
	if hi != 0 || lo >= 1<<63 {
		return 0, false
	}
	if (a < 0) != (b < 0) {
		return -int64(lo), true
	}
	return int64(lo), true
}

func abs64(a int64) uint64 {
	if a < 0 {
		return -uint64(a)
	}
	return uint64(a)
}
