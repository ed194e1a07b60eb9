package exact

import (
	"cmp"
	"errors"
	"fmt"
	"math/big"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestSplitPublished(t *testing.T) {
	for _, c := range []struct {
		source, whole string
		weights       []string
		places        int
		want          string
	}{
		{"moneyphp documentation, allocation by ratios", "5", []string{"70", "30"}, 0, "4 1"},
		{"moneyphp documentation, the order matters", "5", []string{"30", "70"}, 0, "2 3"},
		{"moneyphp documentation, allocation to 3", "800", []string{"1", "1", "1"}, 0, "267 267 266"},
		{"largest remainder", "10", []string{"1", "2", "4"}, 0, "1 3 6"},
		{"halves of an odd amount", "1003", []string{"50", "50"}, 0, "502 501"},
	} {
		got, err := Split(num(c.whole), nums(c.weights...), c.places)
		if err != nil || strings.Join(texts(got), " ") != c.want {
			t.Errorf("%s: %s by %v = %v (%v), want %s", c.source, c.whole, c.weights, got, err, c.want)
		}
	}
}

func TestSplit(t *testing.T) {
	for _, c := range []struct {
		whole   string
		weights []string
		places  int
		want    string
	}{
		{"10.00", []string{"1", "1", "1"}, 2, "3.34 3.33 3.33"},
		{"-10.00", []string{"1", "1", "1"}, 2, "-3.34 -3.33 -3.33"},
		{"0", []string{"1", "2"}, 2, "0 0"},
		{"0.01", []string{"0", "3", "3"}, 2, "0 0.01 0"},
		{"7.5", []string{"1"}, 1, "7.5"},
		{"1.50", []string{"1", "2"}, 1, "0.5 1"},
		{"100", []string{"0.5", "1.25", "0.25"}, 0, "25 63 12"}, // 62.5 and 12.5: the earlier
		{"1", []string{"0.000000001", "999999999999999"}, 6, "0 1"},
		{"2", []string{"1", "1", "1"}, 6, "0.666667 0.666667 0.666666"},
		{"1", []string{"3", "3", "3", "1"}, 0, "1 0 0 0"},
		{"1", []string{"1", "1"}, 20, "0.5 0.5"},
		{"0.00000000000000000001", []string{"1", "2"}, 20, "0 0.00000000000000000001"},
		// Whole and weights at, and beyond, the edge of 64 bits.
		{"9223372036854775807", []string{"9223372036854775806", "1"}, 0, "9223372036854775806 1"},
		{"9223372036854775807", []string{"1", "1"}, 0, "4611686018427387904 4611686018427387903"},
		{"9223372036854775808", []string{"1", "1"}, 0, "4611686018427387904 4611686018427387904"},
		{"-9223372036854775808", []string{"1", "1"}, 0, "-4611686018427387904 -4611686018427387904"},
		{"3", []string{"9223372036854775807", "9223372036854775807", "9223372036854775807"}, 0, "1 1 1"},
		{"1", []string{"9223372036854775807", "0.000000000000000001"}, 2, "1 0"},
		// The sum fits only without its trailing zeros, so the weights need more places than it.
		{"9", []string{"9.000000000000000001", "0.999999999999999999"}, 0, "8 1"},
		{"123456789012345678901.5", []string{"2", "1"}, 1, "82304526008230452601 41152263004115226300.5"},
	} {
		got, err := Split(num(c.whole), nums(c.weights...), c.places)
		if err != nil || strings.Join(texts(got), " ") != c.want {
			t.Errorf("%s by %v = %v (%v), want %s", c.whole, c.weights, got, err, c.want)
		}
	}
}

func TestSplitRefuses(t *testing.T) {
	for _, c := range []struct {
		name    string
		whole   string
		weights []string
		places  int
		want    error
	}{
		{"no weights", "1", nil, 2, ErrWeights},
		{"weights all zero", "1", []string{"0", "0.00"}, 2, ErrWeights},
		{"a weight below zero", "1", []string{"3", "-1"}, 2, ErrWeights},
		{"a large weight below zero", "1", []string{"3", "-9223372036854775808"}, 2, ErrWeights},
		{"too many places", "1.005", []string{"1"}, 2, ErrPlaces},
		{"too many places in a large number", "123456789012345678901.005", []string{"1"}, 2, ErrPlaces},
		{"places below zero", "100", []string{"1"}, -2, ErrPlaces},
	} {
		if parts, err := Split(num(c.whole), nums(c.weights...), c.places); !errors.Is(err, c.want) || parts != nil {
			t.Errorf("%s: %v, %v; want %v", c.name, parts, err, c.want)
		}
		if parts, err := MoneyOf(num(c.whole)).Split(nums(c.weights...), c.places); !errors.Is(err, c.want) || parts != nil {
			t.Errorf("%s: money %v, %v; want %v", c.name, parts, err, c.want)
		}
	}
}

func TestSplitLeavesItsWeightsAlone(t *testing.T) {
	weights := nums("3", "1.50", "12345678901234567890123")
	before := slices.Clone(weights)
	if _, err := Split(num("10"), weights, 2); err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(before, weights) {
		t.Errorf("the weights became %v", weights)
	}
}

// weights draws weights of which one at least is above zero.
func weights() *rapid.Generator[[]Number] {
	weight := rapid.OneOf(
		rapid.Map(rapid.Int64Range(0, 5), Int),
		rapid.Map(numbers(), Number.Abs),
	)
	return rapid.SliceOfN(weight, 1, 40).Filter(func(list []Number) bool {
		return slices.ContainsFunc(list, func(w Number) bool { return !w.IsZero() })
	})
}

// The parts sum to the whole; each is its exact share rounded down, or a step
// more; and those with a step more have the largest fractions, the earlier first.
func TestSplitLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		places := places().Draw(t, "places")
		whole := numbers().Draw(t, "whole").Round(places, HalfEven)
		list := weights().Draw(t, "weights")
		parts, err := Split(whole, list, places)
		if err != nil {
			t.Fatal(err)
		}
		checkSplit(t, whole, list, places, parts)
		wides := make([]Number, len(list))
		for i, w := range list {
			wides[i] = wide(w)
		}
		slow, err := Split(wide(whole), wides, places)
		if err != nil || !slices.EqualFunc(parts, slow, Number.Equal) {
			t.Fatalf("fast %v, slow %v (%v)", parts, slow, err)
		}
		money, err := MoneyOf(whole).Split(list, places)
		if err != nil || !slices.EqualFunc(parts, money, func(n Number, m Money) bool { return n.Equal(m.Number()) }) {
			t.Fatalf("numbers %v, money %v (%v)", parts, money, err)
		}
	})
}

// checkSplit holds parts to the definition of the rule.
func checkSplit(t rapid.TB, whole Number, weights []Number, places int, parts []Number) {
	t.Helper()
	if len(parts) != len(weights) {
		t.Fatalf("%d parts for %d weights", len(parts), len(weights))
	}
	sum, total := new(big.Rat), new(big.Rat)
	for _, w := range weights {
		sum.Add(sum, asRat(t, w))
	}
	step := new(big.Rat).SetFrac(big.NewInt(1), bigPow10(places))
	type share struct {
		at   int
		rest *big.Rat // what rounding down dropped
		up   bool
	}
	var shares []share
	for i, p := range parts {
		wellFormed(t, p)
		part := new(big.Rat).Abs(asRat(t, p))
		total.Add(total, asRat(t, p))
		exact := new(big.Rat).Mul(asRat(t, whole.Abs()), new(big.Rat).Quo(asRat(t, weights[i]), sum))
		floor := roundRat(exact, places, Down)
		up := part.Cmp(floor) != 0
		if up && part.Cmp(new(big.Rat).Add(floor, step)) != 0 || p.Sign()*whole.Sign() < 0 {
			t.Fatalf("part %d is %v, its exact share %s", i, p, exact.FloatString(places+3))
		}
		shares = append(shares, share{i, exact.Sub(exact, floor), up})
	}
	if total.Cmp(asRat(t, whole)) != 0 {
		t.Fatalf("the parts %v of %v sum to %s", parts, whole, total.FloatString(places))
	}
	slices.SortFunc(shares, func(a, b share) int { return cmp.Or(b.rest.Cmp(a.rest), cmp.Compare(a.at, b.at)) })
	for i := 1; i < len(shares); i++ {
		if shares[i].up && !shares[i-1].up {
			t.Fatalf("part %d got a step before part %d: %v", shares[i].at, shares[i-1].at, parts)
		}
	}
}

// Only the proportion of the weights matters, not their scale.
func TestSplitByScaledWeights(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := recorded().Draw(t, "whole").Round(6, HalfEven)
		list := weights().Draw(t, "weights")
		factor := recorded().Filter(func(n Number) bool { return n.Sign() > 0 }).Draw(t, "factor")
		scaled := make([]Number, len(list))
		for i, w := range list {
			scaled[i] = w.Mul(factor)
		}
		a, err1 := Split(whole, list, 6)
		b, err2 := Split(whole, scaled, 6)
		if err1 != nil || err2 != nil || !slices.EqualFunc(a, b, Number.Equal) {
			t.Fatalf("%v (%v) and, by %v-fold weights, %v (%v)", a, err1, factor, b, err2)
		}
	})
}

// AppendSplit leaves what was there, and appends what Split returns.
func TestAppendSplit(t *testing.T) {
	weights := []Number{Int(1), Int(2), Int(4)}
	have, err := MustMoney("10").AppendSplit([]Money{MustMoney("7")}, weights, 0)
	if want := "[7 1 3 6]"; err != nil || fmt.Sprint(have) != want {
		t.Errorf("have %v, %v; want %s", have, err, want)
	}
	if have, err := MustMoney("0.5").AppendSplit(nil, weights, 0); !errors.Is(err, ErrPlaces) || have != nil {
		t.Errorf("have %v, %v; want no parts and %v", have, err, ErrPlaces)
	}
}
