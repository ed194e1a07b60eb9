package exact

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestSplitEqually(t *testing.T) {
	for _, c := range []struct {
		whole     string
		n, places int
		want      string
	}{
		{"800", 3, 0, "267 267 266"}, // moneyphp documentation
		{"1003", 2, 0, "502 501"},
		{"10.00", 4, 2, "2.5 2.5 2.5 2.5"},
		{"-0.05", 3, 2, "-0.02 -0.02 -0.01"},
		{"0", 2, 6, "0 0"},
		{"1", 1, 0, "1"},
		{"0.02", 5, 2, "0.01 0.01 0 0 0"},
		{"1", 3, 20, "0.33333333333333333334 0.33333333333333333333 0.33333333333333333333"},
		{"18446744073709551617", 2, 0, "9223372036854775809 9223372036854775808"},
	} {
		got, err := SplitEqually(num(c.whole), c.n, c.places)
		if err != nil || strings.Join(texts(got), " ") != c.want {
			t.Errorf("%s into %d = %v (%v), want %s", c.whole, c.n, got, err, c.want)
		}
	}
}

func TestSplitEquallyRefuses(t *testing.T) {
	for _, n := range []int{0, -1, math.MinInt} {
		if parts, err := SplitEqually(Int(1), n, 2); !errors.Is(err, ErrWeights) || parts != nil {
			t.Errorf("into %d parts: %v, %v", n, parts, err)
		}
		if parts, err := MustMoney("1").SplitEqually(n, 2); !errors.Is(err, ErrWeights) || parts != nil {
			t.Errorf("money into %d parts: %v, %v", n, parts, err)
		}
	}
	if _, err := SplitEqually(New(5, 3), 2, 2); !errors.Is(err, ErrPlaces) {
		t.Errorf("0.005 into 2 parts at 2 places: %v", err)
	}
}

// Equal parts are a split by equal weights, and no two differ by over a step.
func TestSplitEquallyLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		places := places().Draw(t, "places")
		whole := numbers().Draw(t, "whole").Round(places, HalfEven)
		n := rapid.IntRange(1, 60).Draw(t, "n")
		parts, err := SplitEqually(whole, n, places)
		if err != nil {
			t.Fatal(err)
		}
		same, err := Split(whole, slices.Repeat([]Number{New(250, 2)}, n), places)
		if err != nil || !slices.EqualFunc(parts, same, Number.Equal) {
			t.Fatalf("equally %v, by equal weights %v (%v)", parts, same, err)
		}
		if spread := parts[0].Sub(parts[n-1]).Abs(); New(1, places).Less(spread) {
			t.Fatalf("parts %v and %v of %v are %v apart", parts[0], parts[n-1], whole, spread)
		}
		money, err := MoneyOf(whole).SplitEqually(n, places)
		if err != nil || !slices.EqualFunc(parts, money, func(n Number, m Money) bool { return n.Equal(m.Number()) }) {
			t.Fatalf("numbers %v, money %v (%v)", parts, money, err)
		}
	})
}

func TestFirstOf(t *testing.T) {
	for _, c := range []struct {
		whole        string
		k, n, places int
		want         string
	}{
		{"10", 1, 3, 2, "3.34"},
		{"10", 2, 3, 2, "6.67"},
		{"10", 3, 3, 2, "10"},
		{"10", 4, 3, 2, "10"},
		{"-10", 1, 3, 2, "-3.34"},
		{"10", 0, 3, 2, "0"},
		{"10", -5, 3, 2, "0"},
		{"10", 5, 0, 2, "10"},
		{"10", 1, 3, -2, "4"},
		{"10.005", 1, 2, 2, "5"}, // the finer digits come last
		{"10.005", 2, 2, 2, "10.005"},
		{"18446744073709551617", 1, 2, 0, "9223372036854775809"},
	} {
		wantMoney(t, c.whole, MoneyOf(num(c.whole)).FirstOf(c.k, c.n, c.places), c.want)
	}
}

// The first k of n equal parts are what SplitEqually gives; finer digits only
// add to the last.
func TestFirstOfIsTheStartOfAnEqualSplit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		places := places().Draw(t, "places")
		m := MoneyOf(numbers().Draw(t, "m"))
		n := rapid.IntRange(1, 30).Draw(t, "n")
		whole := m.Round(places, Down)
		parts, err := whole.SplitEqually(n, places)
		if err != nil {
			t.Fatal(err)
		}
		var sum Money
		for k, part := range parts {
			for _, of := range []Money{m, whole} {
				if got := of.FirstOf(k, n, places); !got.Equal(sum) {
					t.Fatalf("the first %d of %d parts of %v are %v, want %v", k, n, of, got, sum)
				}
			}
			sum = sum.Add(part)
		}
		if got := m.FirstOf(n, n, places); !got.Equal(m) || !sum.Equal(whole) {
			t.Fatalf("all parts of %v are %v, of %v %v", m, got, whole, sum)
		}
	})
}
