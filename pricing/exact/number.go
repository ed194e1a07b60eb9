package exact

import (
	"cmp"
	"math/bits"

	"github.com/shopspring/decimal"
)

// A Number is an exact decimal number of any size. Its zero value is 0.
// Numbers are immutable; compare them with [Number.Equal] or [Number.Cmp],
// never with ==, since 1.0 and 1 are equal numbers held in different ways.
type Number struct {
	// A number whose digits fit an int64 is coef / 10^scale, which costs no
	// allocation; of any other coef is unused. coef is never the lowest int64,
	// so that it always has a negative.
	coef int64
	form *form // nil: scale 0
}

// A form is how a number is held. There is one for each scale, which all small
// numbers of that scale share: so a number is two words, and numbers of one
// form are of one scale. Those of a [Quantity] have its unit too.
type form struct {
	scale uint8 // at most maxScale
	unit  Unit
	big   *decimal.Decimal
}

var forms = func() (list [unitCount][maxScale + 1]form) {
	for u := range list {
		for i := range list[u] {
			list[u][i] = form{scale: uint8(i), unit: Unit(u)}
		}
	}
	return list
}()

// small returns coef / 10^scale.
func small(coef int64, scale uint8) Number {
	if scale == 0 {
		return Number{coef: coef}
	}
	return Number{coef, &forms[NoUnit][scale]}
}

// wideNumber returns d, which does not fit a small number.
func wideNumber(d decimal.Decimal) Number { return Number{form: &form{big: &d}} }

// big returns the decimal that holds a, or nil when a is small.
func (a Number) big() *decimal.Decimal {
	if a.form == nil {
		return nil
	}
	return a.form.big
}

// scale returns the digits after the point that a small number is held with.
func (a Number) scale() uint8 {
	if a.form == nil {
		return 0
	}
	return a.form.scale
}

// MaxPlaces is the largest count of digits after the point that a caller can
// ask for. Where a method takes places, a count below 0 is taken as 0 and one
// above MaxPlaces as MaxPlaces, so that no setting can ask for a figure that
// eats all memory. Numbers themselves may have more digits than that.
const MaxPlaces = 1000

func clampPlaces(places int) int { return min(max(places, 0), MaxPlaces) }

// maxScale is the largest scale of a small number: the largest power of ten
// that is an int64.
const maxScale = 18

var pow10 = [maxScale + 1]int64{
	1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9,
	1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18,
}

const minInt64 = -1 << 63

// Int returns the number n.
func Int(n int64) Number { return New(n, 0) }

// New returns coef / 10^places: New(150, 2) is 1.5. Places from 0 to 18 cost
// nothing; others, down to -[MaxPlaces] and up to [MaxPlaces], go the slow way.
func New(coef int64, places int) Number {
	if places < 0 || places > maxScale || coef == minInt64 {
		places = min(max(places, -MaxPlaces), MaxPlaces)
		return fromDecimal(decimal.New(coef, int32(-places)))
	}
	return small(coef, uint8(places))
}

// Sign returns -1, 0 or 1.
func (a Number) Sign() int {
	if d := a.big(); d != nil {
		return d.Sign()
	}
	return cmp.Compare(a.coef, 0)
}

// IsZero reports whether a is 0.
func (a Number) IsZero() bool { return a.Sign() == 0 }

// Neg returns -a.
func (a Number) Neg() Number {
	if d := a.big(); d != nil {
		return fromDecimal(d.Neg())
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
	if a.form == b.form && a.big() == nil { // so mostly
		if sum, ok := add64(a.coef, b.coef); ok {
			return Number{sum, a.form}
		}
	}
	if x, y, scale, ok := align(a, b); ok {
		if sum, ok := add64(x, y); ok {
			return small(sum, scale)
		}
	}
	return addBig(a, b)
}

// Sub returns a - b.
func (a Number) Sub(b Number) Number {
	if a.form == b.form && a.big() == nil {
		if difference, ok := add64(a.coef, -b.coef); ok { // every coef has a negative
			return Number{difference, a.form}
		}
	}
	return a.Add(b.Neg())
}

// Mul returns a * b.
func (a Number) Mul(b Number) Number {
	if a.big() == nil && b.big() == nil {
		if p, ok := mulSmall(a, b); ok {
			return p
		}
		if p, ok := mulSmall(a.trim(), b.trim()); ok {
			return p
		}
	}
	return mulBig(a, b)
}

func mulSmall(a, b Number) (Number, bool) {
	c, ok := mul64(a.coef, b.coef)
	scale := a.scale() + b.scale()
	if !ok || scale > maxScale {
		return Number{}, false
	}
	return small(c, scale), true
}

// Cmp returns -1, 0 or 1 as a is below, equal to or above b.
func (a Number) Cmp(b Number) int {
	if a.big() != nil || b.big() != nil {
		return cmpBig(a, b)
	}
	if a.form == b.form {
		return cmp.Compare(a.coef, b.coef)
	}
	if a.Sign() != b.Sign() {
		return cmp.Compare(a.Sign(), b.Sign())
	}
	// Magnitudes brought to one scale may pass an int64; their products are compared in 128 bits.
	scale := max(a.scale(), b.scale())
	return a.Sign() * cmpProducts(
		abs64(a.coef), uint64(pow10[scale-a.scale()]),
		abs64(b.coef), uint64(pow10[scale-b.scale()]))
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
func (a Number) IsInt() bool { return a.Places() == 0 }

// Int64 returns a as an int64, and whether it is a whole number that fits.
func (a Number) Int64() (int64, bool) {
	if a.big() != nil {
		return int64Big(a)
	}
	unit := pow10[a.scale()]
	if a.coef%unit != 0 {
		return 0, false
	}
	return a.coef / unit, true
}

// Places returns how many digits after the point a needs.
func (a Number) Places() int {
	if a.big() != nil {
		return placesBig(a)
	}
	return int(a.trim().scale())
}

// trim drops trailing zeros after the point of a small number.
func (a Number) trim() Number {
	scale := a.scale()
	for scale > 0 && a.coef%10 == 0 {
		a.coef /= 10
		scale--
	}
	return small(a.coef, scale)
}

// at returns a * 10^places, and whether that is a whole number that fits.
func (a Number) at(places int) (int64, bool) {
	if a.big() != nil || places > maxScale {
		return 0, false
	}
	if int(a.scale()) > places {
		a = a.trim()
	}
	if int(a.scale()) > places {
		return 0, false
	}
	return mul64(a.coef, pow10[places-int(a.scale())])
}

// align brings two small numbers to one scale; ok is false when one of them is
// big or does not fit at that scale.
func align(a, b Number) (x, y int64, scale uint8, ok bool) {
	if a.big() != nil || b.big() != nil {
		return 0, 0, 0, false
	}
	p, q := a.scale(), b.scale()
	switch {
	case p == q:
		return a.coef, b.coef, p, true
	case p < q:
		x, ok = mul64(a.coef, pow10[q-p])
		return x, b.coef, q, ok
	default:
		y, ok = mul64(b.coef, pow10[p-q])
		return a.coef, y, p, ok
	}
}

// add64 adds, and reports whether the sum fits and has a negative.
func add64(a, b int64) (int64, bool) {
	sum := a + b
	return sum, (sum > a) == (b > 0) && sum != minInt64
}

// mul64 multiplies, and reports whether the product fits and has a negative.
func mul64(a, b int64) (int64, bool) {
	hi, lo := bits.Mul64(abs64(a), abs64(b))
	if hi != 0 || lo >= 1<<63 {
		return 0, false
	}
	return withSign(lo, (a < 0) != (b < 0)), true
}

func abs64(a int64) uint64 {
	if a < 0 {
		return -uint64(a)
	}
	return uint64(a)
}

func withSign(u uint64, negative bool) int64 {
	if negative {
		return -int64(u)
	}
	return int64(u)
}

// cmpProducts compares a*b with c*d, all of their 128 bits.
func cmpProducts(a, b, c, d uint64) int {
	h1, l1 := bits.Mul64(a, b)
	h2, l2 := bits.Mul64(c, d)
	if h1 != h2 {
		return cmp.Compare(h1, h2)
	}
	return cmp.Compare(l1, l2)
}
