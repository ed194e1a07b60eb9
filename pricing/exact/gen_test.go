package exact

import (
	"math"
	"math/big"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// This file draws the values that the laws are tried on, and turns them into
// math/big's, which is the judge.

// numbers draws numbers of every shape: as in records, at the edges of 64 bits,
// and far beyond them.
func numbers() *rapid.Generator[Number] {
	return rapid.OneOf(recorded(), edges(), anySmall(), large())
}

// recorded draws what ParseNumber can read.
func recorded() *rapid.Generator[Number] {
	return rapid.Custom(func(t *rapid.T) Number {
		places := rapid.IntRange(0, MaxFraction).Draw(t, "places")
		limit := pow10[min(MaxWhole+places, maxScale)] - 1
		return New(rapid.Int64Range(-limit, limit).Draw(t, "coef"), places)
	})
}

// edges draws numbers within a few steps of a power of ten, of 2^62 or of 2^63.
func edges() *rapid.Generator[Number] {
	return rapid.Custom(func(t *rapid.T) Number {
		turn := rapid.SampledFrom(append(pow10[:], 0, 1<<62, math.MaxInt64)).Draw(t, "turn")
		step := rapid.Int64Range(-5, 5).Draw(t, "step")
		if step > math.MaxInt64-turn {
			step = 0
		}
		coef := turn + step
		if rapid.Bool().Draw(t, "negative") {
			coef = -coef
		}
		return New(coef, rapid.IntRange(0, maxScale).Draw(t, "places"))
	})
}

func anySmall() *rapid.Generator[Number] {
	return rapid.Custom(func(t *rapid.T) Number {
		return New(rapid.Int64().Draw(t, "coef"), rapid.IntRange(0, maxScale).Draw(t, "places"))
	})
}

// large draws numbers of up to 60 digits, as products come to be.
func large() *rapid.Generator[Number] {
	return rapid.Custom(func(t *rapid.T) Number {
		coef := big.NewInt(rapid.Int64().Draw(t, "first"))
		for range rapid.IntRange(0, 2).Draw(t, "more") {
			coef.Mul(coef, big.NewInt(rapid.Int64().Draw(t, "factor")))
		}
		return fromScaled(coef, rapid.IntRange(-5, 40).Draw(t, "places"))
	})
}

// ratios draws small ratios, ratios of numbers and ratios at the edges.
func ratios() *rapid.Generator[Ratio] {
	return rapid.Custom(func(t *rapid.T) Ratio {
		n := numbers().Draw(t, "numerator")
		d := numbers().Filter(func(d Number) bool { return !d.IsZero() }).Draw(t, "denominator")
		return n.Over(d)
	})
}

func places() *rapid.Generator[int] { return rapid.IntRange(0, 24) }

func modes() *rapid.Generator[Mode] { return rapid.SampledFrom([]Mode{HalfEven, HalfAway, Down, Up}) }

// wide returns a in the form of the slow path, which fast values never have.
func wide(a Number) Number {
	d := a.decimal()
	return wideNumber(d)
}

func wideRatio(r Ratio) Ratio { return Ratio{big: r.rat()} }

// asRat turns a into math/big's form by its printed digits alone.
func asRat(t rapid.TB, a Number) *big.Rat {
	t.Helper()
	r, ok := new(big.Rat).SetString(a.String())
	if !ok {
		t.Fatalf("%q is not a number to math/big", a.String())
	}
	return r
}

func ratioRat(t rapid.TB, r Ratio) *big.Rat {
	t.Helper()
	q, ok := new(big.Rat).SetString(r.String())
	if !ok {
		t.Fatalf("%q is not a fraction to math/big", r.String())
	}
	return q
}

// wellFormed checks what must hold inside every number.
func wellFormed(t rapid.TB, a Number) {
	t.Helper()
	switch {
	case a.big() == nil && (a.scale() > maxScale || a.coef == minInt64):
		t.Fatalf("a small number out of its range: %+v", a)
	case a.big() != nil:
		if again := fromDecimal(*a.big()); again.big() == nil {
			t.Fatalf("%v fits 64 bits but is held as a large number", a)
		}
	}
}

// wellFormedRatio checks what must hold inside every ratio.
func wellFormedRatio(t rapid.TB, r Ratio) {
	t.Helper()
	if r.big != nil {
		if again := fromRat(r.big); again.big == nil {
			t.Fatalf("%v fits 64 bits but is held as a large ratio", r)
		}
		return
	}
	if r.n == minInt64 || r.den() < 1 || gcd(abs64(r.n), uint64(r.den())) != 1 {
		t.Fatalf("%d/%d is not in lowest terms", r.n, r.d)
	}
}

// is checks a number against math/big's answer.
func is(t rapid.TB, what string, got Number, want *big.Rat) {
	t.Helper()
	wellFormed(t, got)
	if asRat(t, got).Cmp(want) != 0 {
		t.Fatalf("%s is %v, want %v", what, got, want.RatString())
	}
}

func isRatio(t rapid.TB, what string, got Ratio, want *big.Rat) {
	t.Helper()
	wellFormedRatio(t, got)
	if got.String() != want.RatString() {
		t.Fatalf("%s is %v, want %v", what, got, want.RatString())
	}
}

// roundRat rounds by the definition of each mode: the whole steps below the
// magnitude, and then how far beyond them it is.
func roundRat(x *big.Rat, places int, mode Mode) *big.Rat {
	steps := new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil))
	m := new(big.Rat).Mul(new(big.Rat).Abs(x), steps)
	whole := new(big.Int).Quo(m.Num(), m.Denom())
	beyond := new(big.Rat).Sub(m, new(big.Rat).SetInt(whole))
	half := beyond.Cmp(big.NewRat(1, 2))
	var up bool
	switch mode {
	case Up:
		up = beyond.Sign() > 0
	case HalfAway:
		up = half >= 0
	case HalfEven:
		up = half > 0 || half == 0 && whole.Bit(0) == 1
	}
	if up {
		whole.Add(whole, big.NewInt(1))
	}
	if x.Sign() < 0 {
		whole.Neg(whole)
	}
	return new(big.Rat).Quo(new(big.Rat).SetInt(whole), steps)
}

func num(s string) Number {
	d := decimal.RequireFromString(s) // the tests need more digits than records may have
	return fromDecimal(d)
}

func nums(list ...string) []Number {
	out := make([]Number, len(list))
	for i, s := range list {
		out[i] = num(s)
	}
	return out
}

func texts[T interface{ String() string }](list []T) []string {
	out := make([]string, len(list))
	for i, v := range list {
		out[i] = v.String()
	}
	return out
}
