package exact

import (
	"math/big"

	"github.com/shopspring/decimal"
)

// This file is the slow path: what does not fit an int64 is held by
// shopspring/decimal. It must give the same values as the fast path; a test
// runs both on the same operands.

// decimal returns a in the library's form.
func (a Number) decimal() decimal.Decimal {
	if a.big != nil {
		return *a.big
	}
	return decimal.New(a.coef, -int32(a.scale))
}

// fromDecimal returns d as a small number if it fits, so that equal values
// are held alike as far as can be.
func fromDecimal(d decimal.Decimal) Number {
	coef, exp := d.Coefficient(), d.Exponent()
	if coef.Sign() == 0 {
		return Number{}
	}
	if exp > 0 && exp <= maxScale {
		coef.Mul(coef, big.NewInt(pow10[exp]))
		exp = 0
	}
	var quo, rem big.Int
	for exp < 0 && (exp < -maxScale || !coef.IsInt64()) {
		if quo.QuoRem(coef, bigTen, &rem); rem.Sign() != 0 {
			break
		}
		coef.Set(&quo)
		exp++
	}
	if coef.IsInt64() && coef.Int64() != minInt64 && exp <= 0 && exp >= -maxScale {
		return Number{coef: coef.Int64(), scale: uint8(-exp)}
	}
	d = decimal.NewFromBigInt(coef, exp)
	return Number{big: &d}
}

var bigTen = big.NewInt(10)

func addBig(a, b Number) Number { return fromDecimal(a.decimal().Add(b.decimal())) }

func mulBig(a, b Number) Number { return fromDecimal(a.decimal().Mul(b.decimal())) }

func cmpBig(a, b Number) int { return a.decimal().Cmp(b.decimal()) }

// fixedBig pads to places digits, or writes all of a's digits if it has more.
func fixedBig(a Number, places int) string {
	return a.decimal().StringFixed(int32(max(places, placesBig(a))))
}

func placesBig(a Number) int {
	d := a.decimal()
	coef, exp := d.Coefficient(), d.Exponent()
	var quo, rem big.Int
	for exp < 0 {
		if quo.QuoRem(coef, bigTen, &rem); rem.Sign() != 0 {
			break
		}
		coef.Set(&quo)
		exp++
	}
	return int(max(-exp, 0))
}

// fraction returns a as a fraction of integers with a positive denominator.
func (a Number) fraction() (n, d *big.Int) {
	dec := a.decimal()
	n, d = dec.Coefficient(), big.NewInt(1)
	exp := int64(dec.Exponent())
	p := new(big.Int).Exp(bigTen, big.NewInt(max(exp, -exp)), nil)
	if exp >= 0 {
		return n.Mul(n, p), d
	}
	return n, p
}

// scaled returns a * 10^places, which the caller knows to be whole.
func (a Number) scaled(places int) *big.Int {
	return a.decimal().Shift(int32(places)).BigInt()
}

// fromScaled returns n / 10^places.
func fromScaled(n *big.Int, places int) Number {
	return fromDecimal(decimal.NewFromBigInt(n, int32(-places)))
}

// parseBig reads a number that ParseNumber has checked but found too long for
// an int64.
func parseBig(s string) Number { return fromDecimal(decimal.RequireFromString(s)) }
