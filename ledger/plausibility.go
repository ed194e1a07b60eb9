package ledger

import (
	"slices"

	"putby/energy"
	"putby/pricing/exact"
)

// This file finds electricity of runs that somebody who knows meters would ask
// about. What it finds is a note on the run's costs, and changes none of them.

// noteElectricity notes what cannot be, or hardly, about one run.
func (g *joiner) noteElectricity(run int, c *energy.Cycle, d *energy.Draw, cost *RunCost) {
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
	rows := g.find.loadsOf.of(run)
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

// An unusual run is one that used several times what is usual.
type unusual struct {
	run  int32 // position in Records.Runs
	note energy.Note
}

// findUnusual finds runs that used several times what is usual: the median of
// the other runs of their food on their machine, or where those are too few of
// all others on it. Runs of days after the one asked about are not known yet, and
// one that is running is not known whole.
func (g *joiner) findUnusual() (found []unusual) {
	machines := map[string][]int32{}
	for _, i := range g.x.runOrder {
		if g.Runs[i].Done && g.Runs[i].Date <= g.day && g.Runs[i].Energy.Sign() > 0 && !g.Records.Runs[i].Running {
			machine := g.Records.Runs[i].Machine
			machines[machine] = append(machines[machine], i)
		}
	}
	for _, runs := range machines {
		if len(runs) > leastOthers {
			found = g.unusualOn(found, runs)
		}
	}
	return found
}

// unusualOn adds to found those of the runs of one machine.
func (g *joiner) unusualOn(found []unusual, runs []int32) []unusual {
	foods := map[string][]int32{}
	for _, i := range runs {
		food := g.onlyFood(int(i))
		foods[food] = append(foods[food], i)
	}
	enough := func(food string) bool { return food != "" && len(foods[food]) > leastOthers }
	for food, like := range foods {
		if enough(food) {
			found = g.farAbove(found, like, func(int32) bool { return true })
		}
	}
	return g.farAbove(found, runs, func(i int32) bool { return !enough(g.onlyFood(int(i))) })
}

// noteUnusual notes what was found on the costs of the runs, behind what else is
// noted of their electricity.
func (g *joiner) noteUnusual(found []unusual) {
	for _, u := range found {
		r := &g.Runs[u.run]
		r.Notes = slices.Insert(r.Notes, int(r.powerNotes), Note{Power: u.note})
	}
}

// onlyFood is the food that a run dried, empty where it dried several.
func (g *joiner) onlyFood(run int) string {
	food := ""
	for n, row := range g.x.loadsOf.of(run) {
		item := g.Records.loadedFood(row)
		if n > 0 && item != food {
			return ""
		}
		food = item
	}
	return food
}

// spreads reports whether any of the runs can be far above the median of the
// others: nearly never, and found out without sorting. Half of them must then be
// as far below the highest.
func (g *joiner) spreads(runs []int32) bool {
	var high exact.Ratio
	for _, i := range runs {
		if e := g.Runs[i].Energy; e.Cmp(high) > 0 {
			high = e
		}
	}
	far, low := high.Quo(exact.RatioOf(exact.Int(energy.Unusual))), 0
	for _, i := range runs {
		if g.Runs[i].Energy.Cmp(far) <= 0 {
			low++
		}
	}
	return low >= len(runs)/2
}

// farAbove adds to found the runs far above the median of the others, of those
// that it is to judge.
func (g *joiner) farAbove(found []unusual, runs []int32, judged func(int32) bool) []unusual {
	if !g.spreads(runs) {
		return found
	}
	sorted := slices.Clone(runs)
	slices.SortFunc(sorted, func(a, b int32) int { return g.Runs[a].Energy.Cmp(g.Runs[b].Energy) })
	n := len(sorted)
	// Without one of the upper half, the middle of the others is this.
	usual := g.Runs[sorted[(n-1)/2]].Energy
	if n%2 == 1 {
		usual = usual.Add(g.Runs[sorted[n/2-1]].Energy).Quo(exact.RatioOf(exact.Int(2)))
	}
	for _, i := range sorted[(n+1)/2:] {
		if note, far := energy.FarAboveUsual(g.Runs[i].Energy, usual); far && judged(i) {
			found = append(found, unusual{i, note})
		}
	}
	return found
}
