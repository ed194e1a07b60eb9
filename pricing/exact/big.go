package exact

import (
	"math/big"

	"github.com/shopspring/decimal"
)

// This file is the slow path: what does not fit an int64 is held by
// shopspring/decimal. It must give the same values as the fast path; a test
// runs both on the same operands.

// decimal returns a in the library's form. Its exponent is never above 0.
func (a Number) decimal() decimal.Decimal {
	if d := a.big(); d != nil {
		return *d
	}
	return decimal.New(a.coef, -int32(a.scale()))
}

// fromDecimal returns d as a small number if it fits, so that equal values
// are held alike as far as can be.
func fromDecimal(d decimal.Decimal) Number {
	coef, exp := d.Coefficient(), d.Exponent()
	if coef.Sign() == 0 {
		return Number{}
	}
	if exp > 0 { // 1e2, as the library may hold 100; no Number has a scale below 0
		coef.Mul(coef, bigPow10(int(exp)))
		exp = 0
	}
	if exp < -maxScale || !coef.IsInt64() {
		coef, exp = trimBig(coef, exp)
	}
	if coef.IsInt64() && coef.Int64() != minInt64 && exp >= -maxScale {
		return small(coef.Int64(), uint8(-exp))
	}
	d = decimal.NewFromBigInt(coef, exp)
	return wideNumber(d)
}

var bigTen = big.NewInt(10)

func bigPow10(n int) *big.Int { return new(big.Int).Exp(bigTen, big.NewInt(int64(n)), nil) }

// trimBig drops trailing zeros after the point of coef * 10^exp; it uses coef.
func trimBig(coef *big.Int, exp int32) (*big.Int, int32) {
	var quo, rem big.Int
	for exp < 0 {
		if quo.QuoRem(coef, bigTen, &rem); rem.Sign() != 0 {
			break
		}
		coef.Set(&quo)
		exp++
	}
	return coef, exp
}

func addBig(a, b Number) Number { return fromDecimal(a.decimal().Add(b.decimal())) }

func mulBig(a, b Number) Number { return fromDecimal(a.decimal().Mul(b.decimal())) }

func cmpBig(a, b Number) int { return a.decimal().Cmp(b.decimal()) }

func placesBig(a Number) int {
	if a.IsZero() {
		return 0
	}
	_, exp := trimBig(a.big().Coefficient(), a.big().Exponent())
	return int(max(-exp, 0))
}

func int64Big(a Number) (int64, bool) {
	if !a.big().IsInteger() {
		return 0, false
	}
	n := a.big().BigInt()
	if !n.IsInt64() {
		return 0, false
	}
	return n.Int64(), true
}

// fraction returns a as a fraction of integers with a positive denominator.
func (a Number) fraction() (n, d *big.Int) {
	dec := a.decimal()
	return dec.Coefficient(), bigPow10(int(-dec.Exponent()))
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
