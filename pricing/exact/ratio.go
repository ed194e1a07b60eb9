package exact

import (
	"cmp"
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
func RatioOf(n Number) Ratio {
	if n.big() != nil {
		return newRatio(n, Int(1))
	}
	return decimalRatio(n.coef, int(n.scale()))
}

// decimalRatio returns coef / 10^scale in lowest terms. What they have in common
// can only be twos and fives.
func decimalRatio(coef int64, scale int) Ratio {
	if coef == 0 {
		return Ratio{d: 1}
	}
	twos := min(bits.TrailingZeros64(uint64(coef)), scale)
	n, d := coef>>twos, pow10[scale]>>twos
	for range scale {
		if n%5 != 0 {
			break
		}
		n, d = n/5, d/5
	}
	return Ratio{n: n, d: d}
}

const zeroDivision = "exact: division by zero"

func newRatio(a, b Number) Ratio {
	if b.IsZero() {
		panic(zeroDivision)
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

// gcd is the binary algorithm, which shifts where Euclid's divides, after one
// division that brings operands of unlike size together (Knuth, The Art of
// Computer Programming, volume 2, section 4.5.2, algorithm B).
func gcd(a, b uint64) uint64 {
	a, b = min(a, b), max(a, b)
	if a == 0 {
		return b
	}
	if b %= a; b == 0 {
		return a
	}
	twos := bits.TrailingZeros64(a | b)
	a >>= bits.TrailingZeros64(a)
	for b != 0 {
		b >>= bits.TrailingZeros64(b)
		a, b = min(a, b), max(a, b)-min(a, b)
	}
	return a << twos
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
	return cmp.Compare(r.n, 0)
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
		if sum, ok := addSmall(r, s); ok {
			return sum
		}
	}
	return fromRat(new(big.Rat).Add(r.rat(), s.rat()))
}

// addSmall adds with the smallest terms on the way (Knuth, The Art of Computer
// Programming, volume 2, section 4.5.1): no common factor is left but one of
// the denominators'.
func addSmall(r, s Ratio) (Ratio, bool) {
	d, e := r.den(), s.den()
	g := d
	if d != e {
		g = int64(gcd(uint64(d), uint64(e)))
	}
	x, ok1 := mul64(r.n, e/g)
	y, ok2 := mul64(s.n, d/g)
	sum, ok3 := add64(x, y)
	common := int64(1)
	if g > 1 {
		common = int64(gcd(abs64(sum), uint64(g)))
	}
	den, ok4 := mul64(d/g, e/common)
	return Ratio{n: sum / common, d: den}, ok1 && ok2 && ok3 && ok4
}

// Sub returns r - s.
func (r Ratio) Sub(s Ratio) Ratio { return r.Add(s.Neg()) }

// Mul returns r * s.
func (r Ratio) Mul(s Ratio) Ratio {
	if r.big == nil && s.big == nil {
		// Cross-reduced first, so that a product fits whenever its result does.
		g1 := int64(gcd(abs64(r.n), uint64(s.den())))
		g2 := int64(gcd(abs64(s.n), uint64(r.den())))
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
		panic(zeroDivision)
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
	if r.Sign() != s.Sign() {
		return cmp.Compare(r.Sign(), s.Sign())
	}
	return r.Sign() * cmpProducts(abs64(r.n), uint64(s.den()), abs64(s.n), uint64(r.den()))
}

// Equal reports whether r and s are the same.
func (r Ratio) Equal(s Ratio) bool { return r.Cmp(s) == 0 }

// Min returns the lower of r and s; r where they are equal.
func (r Ratio) Min(s Ratio) Ratio {
	if s.Cmp(r) < 0 {
		return s
	}
	return r
}

// Max returns the higher of r and s; r where they are equal.
func (r Ratio) Max(s Ratio) Ratio {
	if s.Cmp(r) > 0 {
		return s
	}
	return r
}

// Round divides: it returns r with at most places digits after the point.
func (r Ratio) Round(places int, mode Mode) Number { return r.round(clampPlaces(places), mode) }

func (r Ratio) round(places int, mode Mode) Number {
	if r.big == nil && places <= maxScale {
		if q, ok := quo64(abs64(r.n), uint64(pow10[places]), uint64(r.den()), mode); ok {
			return small(withSign(q, r.n < 0), uint8(places))
		}
	}
	q := r.rat()
	return roundBig(q.Num(), q.Denom(), places, mode)
}

// Number returns r as a decimal number, and whether its digits end: whether
// its denominator has no prime factor but 2 and 5.
func (r Ratio) Number() (Number, bool) {
	var twos, fives int
	var ends bool
	if r.big != nil {
		twos, fives, ends = factorBig(r.big.Denom())
	} else {
		twos, fives, ends = factor(uint64(r.den()))
	}
	if !ends {
		return Number{}, false
	}
	return r.round(max(twos, fives), Down), true
}

// factor returns how often d divides by 2 and by 5, and whether that is all.
func factor(d uint64) (twos, fives int, all bool) {
	twos = bits.TrailingZeros64(d)
	for d >>= twos; d%5 == 0; d /= 5 {
		fives++
	}
	return twos, fives, d == 1
}

func factorBig(n *big.Int) (twos, fives int, all bool) {
	twos = int(n.TrailingZeroBits())
	d, five := new(big.Int).Rsh(n, uint(twos)), big.NewInt(5)
	for q, rem := new(big.Int), new(big.Int); ; fives++ {
		if q.QuoRem(d, five, rem); rem.Sign() != 0 {
			return twos, fives, d.IsUint64() && d.Uint64() == 1
		}
		d.Set(q)
	}
}

// Whole returns ratios as whole numbers of a unit, the largest of which all of them
// are multiples.
func Whole(list []Ratio) (numbers []Number, unit Ratio) {
	over, common := big.NewInt(1), new(big.Int) // least multiple of the denominators, greatest divisor of the numerators
	for _, r := range list {
		q := r.rat()
		over.Mul(over, new(big.Int).Div(q.Denom(), new(big.Int).GCD(nil, nil, over, q.Denom())))
		common.GCD(nil, nil, common, new(big.Int).Abs(q.Num()))
	}
	numbers = make([]Number, len(list))
	if common.Sign() == 0 {
		return numbers, Ratio{} // all are 0
	}
	for i, r := range list {
		q := r.rat()
		n := new(big.Int).Div(q.Num(), common)
		numbers[i] = fromScaled(n.Mul(n, new(big.Int).Div(over, q.Denom())), 0)
	}
	return numbers, fromRat(new(big.Rat).SetFrac(common, over))
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
