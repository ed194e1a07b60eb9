package ledger

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"putby/energy"
	"putby/pricing/exact"
)

// A run is unusual beside the median of all others, however they are looked at.
func TestFarAbove(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := &joiner{Ledger: &Ledger{}}
		for _, kwh := range rapid.SliceOfN(rapid.SampledFrom([]int64{1, 2, 3, 4, 5, 6, 9, 12, 30}), 2, 12).Draw(t, "kWh") {
			g.Runs = append(g.Runs, RunCost{Energy: exact.RatioOf(exact.Int(kwh))})
		}
		runs := positions(len(g.Runs))
		var want []int32
		for i := range runs {
			others := slices.Delete(slices.Clone(g.Runs), i, i+1)
			slices.SortFunc(others, func(a, b RunCost) int { return a.Energy.Cmp(b.Energy) })
			n := len(others)
			median := others[(n-1)/2].Energy.Add(others[n/2].Energy).Quo(exact.RatioOf(exact.Int(2)))
			if _, far := energy.FarAboveUsual(g.Runs[i].Energy, median); far {
				want = append(want, int32(i))
			}
		}
		var have []int32
		for _, u := range g.farAbove(nil, runs, func(int32) bool { return true }) {
			have = append(have, u.run)
		}
		if slices.Sort(have); !slices.Equal(have, want) {
			t.Fatalf("runs %v are unusual, want %v", have, want)
		}
	})
}
