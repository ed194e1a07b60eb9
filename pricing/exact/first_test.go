package exact

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

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

// The first k of n equal parts are what a split by equal weights gives; finer
// digits only add to the last.
func TestFirstOfIsTheStartOfAnEqualSplit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		places := places().Draw(t, "places")
		m := MoneyOf(numbers().Draw(t, "m"))
		n := rapid.IntRange(1, 30).Draw(t, "n")
		whole := m.Round(places, Down)
		parts, err := whole.Split(slices.Repeat([]Number{New(250, 2)}, n), places)
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
