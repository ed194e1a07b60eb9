package pricing_test

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"putby/pricing"
	"putby/pricing/exact"
)

// Short names for constants in tests.
func num(s string) exact.Number { return exact.MustNumber(s) }
func eur(s string) exact.Money  { return exact.MustMoney(s) }
func day(s string) exact.Date   { return exact.MustDate(s) }

func offer(s string) pricing.Offer {
	o, err := pricing.ParseOffer(s)
	if err != nil {
		panic(err)
	}
	return o
}

// ratio returns n/d.
func ratio(n, d string) exact.Ratio { return num(n).Over(num(d)) }

func monies(list ...string) []exact.Money {
	out := make([]exact.Money, len(list))
	for i, s := range list {
		out[i] = eur(s)
	}
	return out
}

// rat turns a number into the standard library's form, for twins.
func rat(n exact.Number) *big.Rat {
	r, ok := new(big.Rat).SetString(n.String())
	if !ok {
		panic("not a number: " + n.String())
	}
	return r
}

func ratOf(r exact.Ratio) *big.Rat {
	q, ok := new(big.Rat).SetString(r.String())
	if !ok {
		panic("not a ratio: " + r.String())
	}
	return q
}

// number draws a number from lo to hi (in last-place steps) at some places.
func number(t *rapid.T, label string, lo, hi int64, places int) exact.Number {
	return exact.New(rapid.Int64Range(lo, hi).Draw(t, label), places)
}

func wantMoney(t *testing.T, what string, got exact.Money, want string) {
	t.Helper()
	if !got.Equal(eur(want)) {
		t.Errorf("%s = %v, want %s", what, got, want)
	}
}

func wantRatio(t *testing.T, what string, got, want exact.Ratio) {
	t.Helper()
	if !got.Equal(want) {
		t.Errorf("%s = %v, want %v", what, got, want)
	}
}
