package page

import (
	"testing"

	"pgregory.net/rapid"

	"putby/pricing/exact"
)

func ratio(s string) exact.Ratio { return exact.RatioOf(exact.MustNumber(s)) }

func TestAxisHasRoundTicks(t *testing.T) {
	for _, c := range []struct {
		low, high string
		want      int
		ticks     string
	}{
		{"0", "97.3", 5, "0 20 40 60 80 100"},
		{"0", "7.2", 4, "0 2 4 6 8"},
		{"-12", "34", 4, "-20 0 20 40"},
		{"0", "0", 4, "0.0 0.5 1.0"},
		{"3.6556", "3.9889", 3, "3.6 3.8 4.0"},
		{"0", "0.00004", 2, "0.00000 0.00002 0.00004"},
		{"1000000", "4000000", 3, "1000000 2000000 3000000 4000000"},
	} {
		a, got := newAxis(ratio(c.low), ratio(c.high), c.want), ""
		for i, tick := range a.ticks {
			if i > 0 {
				got += " "
			}
			got += a.label(valueText{}, tick)
		}
		if got != c.ticks {
			t.Errorf("from %s to %s: %s, want %s", c.low, c.high, got, c.ticks)
		}
	}
}

func TestAxisHoldsItsFigures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := exact.New(rapid.Int64Range(-1e12, 1e12).Draw(t, "low"), 4)
		high := low.Add(exact.New(rapid.Int64Range(0, 1e12).Draw(t, "span"), 4))
		want := rapid.IntRange(2, 8).Draw(t, "want")
		a := newAxis(exact.RatioOf(low), exact.RatioOf(high), want)
		if low.Less(a.low) || a.high.Less(high) {
			t.Fatalf("%v to %v is not within %v to %v", low, high, a.low, a.high)
		}
		if n := len(a.ticks); n < 2 || n > want+2 {
			t.Fatalf("%d ticks, wanted about %d", n, want)
		}
		if a.along(exact.RatioOf(a.low)) != "0%" || a.along(exact.RatioOf(a.high)) != "100%" {
			t.Fatal("the ends of the axis are not at its ends")
		}
		if y := a.down(exact.RatioOf(high), 0, 200); y.Sign() < 0 || exact.Int(200).Less(y) {
			t.Fatalf("%v is %v pixels down", high, y)
		}
	})
}
