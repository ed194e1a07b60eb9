package exact

import (
	"math/big"
	"math/bits"
)

// A Ratio is an exact quotient, such as a unit price: it is kept as numerator
// and denominator and divided once, by [Ratio.Round], for display or posting.
// Its zero value is 0.
type Ratio struct {
	// In lowest terms with d > 0 (or the zero value) while both fit an
	// int64; otherwise in big.
	n, d int64
	big  *big.Rat
}

// RatioOf returns n as a ratio.
func RatioOf(n Number) Ratio { return newRatio(n, Int(1)) }

func newRatio(a, b Number) Ratio {
	if b.IsZero() {
		panic("exact: division by zero")
	}
	if x, y, _, ok := align(a, b); ok {
		return smallRatio(x, y)
	}
	an, ad := a.fraction()
	bn, bd := b.fraction()
	return fromRat(new(big.Rat).SetFrac(an.Mul(an, bd), bn.Mul(bn, ad)))
}

// smallRatio returns n/d in lowest terms; neither is the lowest int64.
func smallRatio(n, d int64) Ratio {
	if d < 0 {
		n, d = -n, -d
	}
	if g := gcd(abs64(n), uint64(d)); g > 1 {
		n, d = n/int64(g), d/int64(g)
	}
	return Ratio{n: n, d: d}
}

func gcd(a, b uint64) uint64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func fromRat(r *big.Rat) Ratio {
	if n, d := r.Num(), r.Denom(); n.IsInt64() && d.IsInt64() && n.Int64() != minInt64 {
		return Ratio{n: n.Int64(), d: d.Int64()}
	}
	return Ratio{big: r}
}

func (r Ratio) rat() *big.Rat {
	if r.big != nil {
		return r.big
	}
	return big.NewRat(r.n, r.den())
}

// den is the denominator of a small ratio; the zero value has none.
func (r Ratio) den() int64 {
	if r.d == 0 {
		return 1
	}
	return r.d
}

// Sign returns -1, 0 or 1.
func (r Ratio) Sign() int {
	if r.big != nil {
		return r.big.Sign()
	}
	return Number{coef: r.n}.Sign()
}

// IsZero reports whether r is 0.
func (r Ratio) IsZero() bool { return r.Sign() == 0 }

// Neg returns -r.
func (r Ratio) Neg() Ratio {
	if r.big != nil {
		return fromRat(new(big.Rat).Neg(r.big))
	}
	r.n = -r.n
	return r
}

// Add returns r + s.
func (r Ratio) Add(s Ratio) Ratio {
	if r.big == nil && s.big == nil {
		if r.den() == s.den() {
			if sum := r.n + s.n; (sum > r.n) == (s.n > 0) && sum != minInt64 {
				return smallRatio(sum, r.den())
			}
		} else if sum, ok := addSmall(r, s); ok {
			return sum
		}
	}
	return fromRat(new(big.Rat).Add(r.rat(), s.rat()))
}

// addSmall adds over the least common denominator.
func addSmall(r, s Ratio) (Ratio, bool) {
	g := int64(gcd(uint64(r.den()), uint64(s.den())))
	x, ok1 := mul64(r.n, s.den()/g)
	y, ok2 := mul64(s.n, r.den()/g)
	d, ok3 := mul64(r.den(), s.den()/g)
	if !ok1 || !ok2 || !ok3 {
		return Ratio{}, false
	}
	sum := x + y
	if (sum > x) != (y > 0) || sum == minInt64 {
		return Ratio{}, false
	}
	return smallRatio(sum, d), true
}

// Sub returns r - s.
func (r Ratio) Sub(s Ratio) Ratio { return r.Add(s.Neg()) }

// Mul returns r * s.
func (r Ratio) Mul(s Ratio) Ratio {
	if r.big == nil && s.big == nil {
		// Cross-reduced first, so that a product fits whenever its result does.
		g1 := int64(max(gcd(abs64(r.n), uint64(s.den())), 1))
		g2 := int64(max(gcd(abs64(s.n), uint64(r.den())), 1))
		n, ok1 := mul64(r.n/g1, s.n/g2)
		d, ok2 := mul64(r.den()/g2, s.den()/g1)
		if ok1 && ok2 {
			return Ratio{n: n, d: d}
		}
	}
	return fromRat(new(big.Rat).Mul(r.rat(), s.rat()))
}

// Times returns r * n.
func (r Ratio) Times(n Number) Ratio { return r.Mul(RatioOf(n)) }

// Quo returns r / s. It panics when s is 0.
func (r Ratio) Quo(s Ratio) Ratio {
	if s.IsZero() {
		panic("exact: division by zero")
	}
	if s.big != nil {
		return fromRat(new(big.Rat).Quo(r.rat(), s.big))
	}
	inverse := Ratio{n: s.den(), d: s.n}
	if inverse.d < 0 {
		inverse = Ratio{n: -inverse.n, d: -inverse.d}
	}
	return r.Mul(inverse)
}

// Cmp returns -1, 0 or 1 as r is below, equal to or above s. It multiplies
// crosswise and never divides.
func (r Ratio) Cmp(s Ratio) int {
	if r.big != nil || s.big != nil {
		return r.rat().Cmp(s.rat())
	}
	if r.Sign() != s.Sign() || r.n == 0 {
		return r.Sign() - s.Sign()
	}
	h1, l1 := bits.Mul64(abs64(r.n), uint64(s.den()))
	h2, l2 := bits.Mul64(abs64(s.n), uint64(r.den()))
	switch {
	case h1 == h2 && l1 == l2:
		return 0
	case h1 < h2 || h1 == h2 && l1 < l2:
		return -r.Sign()
	}
	return r.Sign()
}

// Equal reports whether r and s are the same.
func (r Ratio) Equal(s Ratio) bool { return r.Cmp(s) == 0 }

// Round divides: it returns r with at most places digits after the point.
func (r Ratio) Round(places int, mode Mode) Number {
	if r.big == nil && places <= maxScale {
		if q, ok := quo64(abs64(r.n), uint64(pow10[places]), uint64(r.den()), mode); ok {
			return Number{coef: withSign(q, r.n < 0), scale: uint8(places)}
		}
	}
	q := r.rat()
	return roundBig(q.Num(), q.Denom(), places, mode)
}

// Number returns r as a decimal number, and whether its digits end.
func (r Ratio) Number() (Number, bool) {
	d := new(big.Int).Set(r.rat().Denom())
	places := max(strip(d, 2), strip(d, 5))
	if d.Cmp(big.NewInt(1)) != 0 {
		return Number{}, false
	}
	return r.Round(places, Down), true
}

// strip divides d by p as often as it goes, and says how often.
func strip(d *big.Int, p int64) (times int) {
	var q, m big.Int
	for f := big.NewInt(p); ; times++ {
		if q.QuoRem(d, f, &m); m.Sign() != 0 {
			return times
		}
		d.Set(&q)
	}
}

// Ceil returns the smallest whole number that is not below r.
func (r Ratio) Ceil() Number {
	if r.Sign() > 0 {
		return r.Round(0, Up)
	}
	return r.Round(0, Down)
}

// Floor returns the largest whole number that is not above r.
func (r Ratio) Floor() Number { return r.Neg().Ceil().Neg() }

// String returns r as "n/d", or "n" when it is whole.
func (r Ratio) String() string {
	q := r.rat()
	if q.IsInt() {
		return q.Num().String()
	}
	return q.String()
}
