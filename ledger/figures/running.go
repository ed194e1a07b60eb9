package figures

import (
	"slices"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// This file says what is running, and estimates when it ends.

// Running returns the runs that have begun by the ledger's date and not ended,
// in order of start.
func Running(g *ledger.Ledger) (list []int) {
	for i := range g.Runs {
		if g.Runs[i].Done && g.Records.Runs[i].Running {
			list = append(list, i)
		}
	}
	slices.SortStableFunc(list, func(a, b int) int { return g.Records.Runs[a].Start.Compare(g.Records.Runs[b].Start) })
	return list
}

// UsualEnd estimates when a run ends that is running: after the median length of
// the good runs of any of its foods on its machine, else of all on it; and never
// before its phases so far. It is not given where nothing tells what is usual.
func UsualEnd(g *ledger.Ledger, run int) (end exact.Opt[time.Time]) {
	r, cost := &g.Records.Runs[run], &g.Runs[run]
	alike, all := []time.Duration{}, []time.Duration{}
	for i := range g.Runs {
		length, known := g.Runs[i].Length.Get()
		if o := &g.Records.Runs[i]; !known || length <= 0 || !g.Runs[i].Done || !o.Good() || o.Machine != r.Machine {
			continue
		}
		all = append(all, length)
		if slices.ContainsFunc(cost.Items, func(item ledger.ItemCost) bool { return g.Runs[i].Loaded(item.Food) }) {
			alike = append(alike, length)
		}
	}
	usual, ok := MedianTime(alike)
	if !ok {
		usual, ok = MedianTime(all)
	}
	if ok {
		end = exact.Some(r.Start.Add(max(usual, cost.Length.Or(0))))
	}
	return end
}
