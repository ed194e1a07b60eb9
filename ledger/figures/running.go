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
	for _, i := range g.ByStart() {
		if g.Runs[i].Done && g.Records.Runs[i].Running {
			list = append(list, int(i))
		}
	}
	return list
}

// UsualEnd estimates when a run ends that is running: after the median length of
// the good runs of any of its foods on its machine, else of all on it, with the
// time on top that was recorded; and never before its phases so far. It is not
// given where nothing tells what is usual.
func UsualEnd(g *ledger.Ledger, run int) (end exact.Opt[time.Time]) {
	r, cost := &g.Records.Runs[run], &g.Runs[run]
	machine, ok := g.FindMachine(r.Machine)
	if !ok {
		return end
	}
	d := Dryer{g: g, Machine: machine}
	all := d.RunsOf(-1)
	usual, ok := medianTime(d.lengthsOf(slices.DeleteFunc(slices.Clone(all), func(i int) bool { return !sharesFood(g, run, i) })))
	if !ok {
		usual, ok = medianTime(d.lengthsOf(all))
	}
	if ok {
		end = exact.Some(r.Start.Add(max(usual+onTop(g, run), cost.Length.Or(0))))
	}
	return end
}

// busyUntil is when a run's machine is free again: of a run that is running, or
// whose length nobody knows, as is usual, where nothing tells that after a length
// that is given.
func busyUntil(g *ledger.Ledger, run int, usual time.Duration) time.Time {
	r, length := &g.Records.Runs[run], g.Runs[run].Length
	if !r.Running {
		return r.Start.Add(length.Or(usual))
	}
	return UsualEnd(g, run).Or(r.Start.Add(max(usual, length.Or(0))))
}

// sharesFood reports whether two runs dried a food that is the same.
func sharesFood(g *ledger.Ledger, a, b int) bool {
	return slices.ContainsFunc(g.Runs[a].Items, func(item ledger.ItemCost) bool { return g.Runs[b].Loaded(item.Food) })
}

// Model returns the last good run on a run's machine that has phases and dried
// any of its foods: the one to go by where its own phases are not known.
func Model(g *ledger.Ledger, run int) (model int, ok bool) {
	model = -1
	for i := range g.Runs {
		r := &g.Records.Runs[i]
		later := model < 0 || !r.Start.Before(g.Records.Runs[model].Start)
		if i != run && g.Runs[i].Done && r.Good() && r.Machine == g.Records.Runs[run].Machine && later && len(g.PhasesOf(i)) > 0 && sharesFood(g, run, i) {
			model = i
		}
	}
	return model, model >= 0
}

// Begun returns how many of a run's phases so far are those with which its model
// began; the others are time on top of the usual phases.
func Begun(g *ledger.Ledger, run, model int) (same int) {
	sofar, usual := g.PhasesOf(run), g.PhasesOf(model)
	for same < min(len(sofar), len(usual)) && g.Records.Phases.At(int(sofar[same])).Phase == g.Records.Phases.At(int(usual[same])).Phase {
		same++
	}
	return same
}

// onTop is the time that was recorded on top of a run's usual phases.
func onTop(g *ledger.Ledger, run int) (sum time.Duration) {
	if model, ok := Model(g, run); ok {
		for _, row := range g.PhasesOf(run)[Begun(g, run, model):] {
			sum += g.Records.Phases.At(int(row)).Length
		}
	}
	return sum
}
