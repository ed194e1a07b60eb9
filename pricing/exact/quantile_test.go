package exact

import (
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Type 7 on 1 to 10, as the R manual's default quantile gives it: 1, 3.25, 5.5,
// 7.75, 10 (memory); and the twelve gauge readings of the NIST/SEMATECH e-Handbook
// 7.2.6.2, whose 90th percentile by this rule is given as 95.1957 (memory).
func TestQuantile(t *testing.T) {
	var ten []Ratio
	for i := range int64(10) {
		ten = append(ten, RatioOf(Int(i+1)))
	}
	for q, want := range map[string]string{"0": "1", "0.25": "3.25", "0.5": "5.5", "0.75": "7.75", "1": "10"} {
		got, ok := Quantile(ten, RatioOf(num(q)))
		if !ok {
			t.Fatalf("no quantile at %s", q)
		}
		if !got.Equal(RatioOf(num(want))) {
			t.Errorf("quantile %s is %v, want %s", q, got, want)
		}
	}
	var gauges []Ratio
	for _, s := range []string{
		"95.0610", "95.0925", "95.1065", "95.1195", "95.1442", "95.1567",
		"95.1591", "95.1682", "95.1772", "95.1937", "95.1959", "95.1990",
	} {
		gauges = append(gauges, RatioOf(num(s)))
	}
	got, _ := Quantile(gauges, RatioOf(num("0.9")))
	if rounded := got.Round(4, HalfEven); !rounded.Equal(num("95.1957")) {
		t.Errorf("90th percentile of the gauges: %v, want 95.1957", rounded)
	}
	for _, q := range []string{"-0.1", "1.1"} {
		if _, ok := Quantile(ten, RatioOf(num(q))); ok {
			t.Errorf("a quantile at %s", q)
		}
	}
	if _, ok := Quantile(nil, Ratio{}); ok {
		t.Error("a quantile of nothing")
	}
	if got, ok := Median(ten[:4]); !ok || !got.Equal(RatioOf(num("2.5"))) {
		t.Errorf("the median of 1 to 4 is %v", got)
	}
	// 10 % of 1 to 5 lies 0.4 of the way from 1 to 2.
	if got, _ := Quantile(ten[:5], RatioOf(num("0.1"))); !got.Equal(RatioOf(num("1.4"))) {
		t.Errorf("the first tenth of 1 to 5 is at %v", got)
	}
}

// Law: the quantile of type 7 is where the graph through the points
// (i / (count-1), value i) stands at q; against big.Rat.
func TestQuantileTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(label string, lo, hi int64) Number { return Int(rapid.Int64Range(lo, hi).Draw(t, label)) }
		values := make([]Ratio, rapid.IntRange(1, 12).Draw(t, "count"))
		for i := range values {
			values[i] = draw("n", 0, 999).Over(draw("d", 1, 30))
		}
		slices.SortFunc(values, Ratio.Cmp)
		den := draw("of", 1, 40)
		q := draw("part", 0, 40).Min(den).Over(den)
		got, ok := Quantile(values, q)
		if !ok {
			t.Fatal("no quantile")
		}
		want := ratioRat(t, values[0])
		for i := range len(values) - 1 {
			left, right := big.NewRat(int64(i), int64(len(values)-1)), big.NewRat(int64(i+1), int64(len(values)-1))
			if x := ratioRat(t, q); x.Cmp(left) >= 0 && x.Cmp(right) <= 0 {
				slope := new(big.Rat).Quo(new(big.Rat).Sub(ratioRat(t, values[i+1]), ratioRat(t, values[i])), new(big.Rat).Sub(right, left))
				want = slope.Mul(slope, x.Sub(x, left)).Add(slope, ratioRat(t, values[i]))
			}
		}
		if ratioRat(t, got).Cmp(want) != 0 {
			t.Fatalf("quantile %v of %v is %v, want %v", q, values, got, want)
		}
	})
}
