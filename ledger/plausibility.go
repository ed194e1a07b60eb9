package ledger

import (
	"slices"

	"putby/energy"
	"putby/pricing/exact"
)

// This file doubts the electricity of runs as somebody who knows meters would.
// What it finds is a note on the run's costs, and changes none of them.

// doubtPower notes what cannot be, or hardly, about one run.
func (g *joiner) doubtPower(run int, c *energy.Cycle, d *energy.Draw, cost *RunCost) {
	cost.Notes = append(cost.Notes, ofElectricity(energy.NoPower(c.Phases, d.Spans))...)
	if !isMetered(c) {
		return
	}
	water, _ := g.WaterRemoved(run)
	if note, found := energy.BelowLatentHeat(d.Energy, water); found {
		cost.Notes = append(cost.Notes, Note{Power: note})
	}
}

// isMetered reports whether a meter tells all of a cycle's energy.
func isMetered(c *energy.Cycle) bool {
	return c.KWh.Given() || c.Log != nil ||
		!slices.ContainsFunc(c.Phases, func(p energy.Phase) bool { return !p.KWh.Given() })
}

// WaterRemoved returns the kg of water that a run took out of the loads that
// were weighed wet and dry, and whether all of its loads were.
func (g *Ledger) WaterRemoved(run int) (kg exact.Number, all bool) {
	rows := g.x.loadsOf.of(run)
	all = len(rows) > 0
	for _, row := range rows {
		l := g.Records.Loads.At(int(row))
		if !l.Wet.Given() || !l.Dry.Given() {
			all = false
			continue
		}
		kg = kg.Add(l.Wet.Base().Number()).Sub(l.Dry.Base().Number())
	}
	return kg, all
}

// leastOthers is how many other runs say what is usual.
const leastOthers = 3

// doubtUnusual notes runs that used several times what is usual: the median of
// the other runs of their food on their machine, or where those are too few of
// all others on it. Runs of days after the one asked about are not known yet, and
// one that is running is not known whole.
func (g *joiner) doubtUnusual() {
	machines := map[string][]int32{}
	for _, i := range g.x.runOrder {
		if g.Runs[i].Done && g.Runs[i].Date <= g.day && g.Runs[i].Energy.Sign() > 0 && !g.Records.Runs[i].Running {
			machine := g.Records.Runs[i].Machine
			machines[machine] = append(machines[machine], i)
		}
	}
	for _, runs := range machines {
		if len(runs) > leastOthers && g.spreads(runs) {
			g.doubtMachine(runs)
		}
	}
}

// doubtMachine is doubtUnusual for the runs of one machine.
func (g *joiner) doubtMachine(runs []int32) {
	foods := map[string][]int32{}
	for _, i := range runs {
		foods[g.onlyFood(int(i))] = append(foods[g.onlyFood(int(i))], i)
	}
	enough := func(i int32) bool {
		food := g.onlyFood(int(i))
		return food != "" && len(foods[food]) > leastOthers
	}
	for _, like := range foods {
		if enough(like[0]) {
			g.noteUnusual(like, func(int32) bool { return true })
		}
	}
	g.noteUnusual(runs, func(i int32) bool { return !enough(i) })
}

// onlyFood is the food that a run dried, empty where it dried several.
func (g *joiner) onlyFood(run int) string {
	food := ""
	for n, row := range g.x.loadsOf.of(run) {
		item := g.Records.Loads.At(int(row)).Item
		if n > 0 && item != food {
			return ""
		}
		food = item
	}
	return food
}

// spreads reports whether any of the runs can be unusual at all: nearly never,
// and found out without sorting.
func (g *joiner) spreads(runs []int32) bool {
	low, high := g.Runs[runs[0]].Energy, g.Runs[runs[0]].Energy
	for _, i := range runs[1:] {
		if e := g.Runs[i].Energy; e.Cmp(low) < 0 {
			low = e
		} else if e.Cmp(high) > 0 {
			high = e
		}
	}
	return high.Cmp(low.Times(exact.Int(energy.Unusual))) >= 0
}

// noteUnusual notes the runs far above the median of the others, of those that
// it is to judge.
func (g *joiner) noteUnusual(runs []int32, judged func(int32) bool) {
	sorted := slices.Clone(runs)
	slices.SortStableFunc(sorted, func(a, b int32) int { return g.Runs[a].Energy.Cmp(g.Runs[b].Energy) })
	n := len(sorted)
	// Without one of the upper half, the middle of the others is this.
	usual := g.Runs[sorted[(n-1)/2]].Energy
	if n%2 == 1 {
		usual = usual.Add(g.Runs[sorted[n/2-1]].Energy).Quo(exact.RatioOf(exact.Int(2)))
	}
	for _, i := range sorted[(n+1)/2:] {
		if note, found := energy.FarAboveUsual(g.Runs[i].Energy, usual); found && judged(i) {
			r := &g.Runs[i]
			r.Notes = slices.Insert(r.Notes, r.powerNotes, Note{Power: note})
		}
	}
}
