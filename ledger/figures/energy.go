package figures

import (
	"slices"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// An EnergyQuery asks what cycles use. Dates are those of the runs' starts.
type EnergyQuery struct {
	Query
	Machine string         // only this one; empty is all
	Load    exact.Quantity // at which lines are read; not given: at their runs' mean load
}

// An EnergyUse is what a household's good cycles used. All of it but sums is
// inferred and not counted: an estimate.
type EnergyUse struct {
	Food    int // asked about; -1: all
	Groups  []Cycles
	Spoiled int // runs left out
	Running int // runs left out
	Mixed   int // runs of several foods, which count with their machine alone
}

// Cycles are the good runs of a machine: all of them, or those that dried one
// food alone. A spread is not given where nothing is known of it.
type Cycles struct {
	Machine, Food int         // positions in Machines and Foods; Food -1: all
	Runs          int         // how many
	Used          exact.Ratio // kWh, all of them together

	KWh   exact.Opt[energy.Spread] // of a run
	Hours exact.Opt[energy.Spread] // of a run whose length is known
	Water exact.Opt[energy.Spread] // kWh per kg of water removed, where it was weighed
	Each  exact.Opt[energy.Spread] // kWh per unit of the food loaded

	Loads int                 // different ones
	Load  exact.Ratio         // in the food's unit, at which the line is read
	Line  exact.Opt[LoadLine] // not given where loads are too much alike
}

// MeanKWh is what a run used on average.
func (c *Cycles) MeanKWh() exact.Ratio { return c.Used.Quo(wholeRatio(c.Runs)) }

// A LoadLine is the line of kWh on load, by least squares.
type LoadLine struct {
	energy.Line
	KWh       energy.Estimate // at the group's load
	Low, High energy.Estimate // of one further run, 9 times in 10
}

// Energy works out what cycles use, by machine and by food: for each machine
// that has good runs all of them, then those of each food. The ledger must be
// joined through its last record. The error is an [*UnknownError] or a
// [*FactError].
func Energy(g *ledger.Ledger, q EnergyQuery) (*EnergyUse, error) {
	scope, err := q.In(g)
	if err != nil {
		return nil, err
	}
	if _, ok := g.FindMachine(q.Machine); q.Machine != "" && !ok {
		return nil, unknown(ledger.Machines, q.Machine)
	}
	use := &EnergyUse{Food: scope.Food}
	for m := range g.Machines {
		if q.Machine != "" && q.Machine != g.Machines[m].ID {
			continue
		}
		for _, s := range use.sortRuns(g, m, scope) {
			if !scope.Wants(s.food) { // of a food that is asked about, all runs together neither
				continue
			}
			c, err := s.cycles(g, m, scope.Food, q.Load)
			if err != nil {
				return nil, err
			}
			use.Groups = append(use.Groups, c)
		}
	}
	return use, nil
}

// A sample is what runs of a group used.
type sample struct {
	food                    int            // position in Foods; -1: any, and then neither each nor points
	kwh, hours, water, each []exact.Ratio  // of each run of which it is known, in the units of [Cycles]
	points                  []energy.Point // load in the food's unit, kWh
}

// sortRuns sorts the runs of a machine: all of them, then those of each food.
func (u *EnergyUse) sortRuns(g *ledger.Ledger, machine int, scope Scope) []sample {
	list := make([]sample, 1+len(g.Foods))
	list[0].food = -1
	for i := range g.Runs {
		run := &g.Runs[i]
		if g.Records.Runs[i].Machine != g.Machines[machine].ID || !run.Done || !scope.Covers(run.Date) {
			continue
		}
		about := 0 // 1: the run counts among those that are asked about
		if scope.Food < 0 || run.Loaded(scope.Food) {
			about = 1
		}
		switch {
		case g.Records.Runs[i].Spoiled:
			u.Spoiled += about
			continue
		case g.Records.Runs[i].Running:
			u.Running += about
			continue
		case len(run.Items) != 1:
			u.Mixed += about
		default:
			food := run.Items[0].Food
			list[1+food].food = food
			list[1+food].add(g, i)
		}
		list[0].add(g, i)
	}
	return slices.DeleteFunc(list, func(s sample) bool { return len(s.kwh) == 0 })
}

// add takes a run into account.
func (s *sample) add(g *ledger.Ledger, run int) {
	cost := &g.Runs[run]
	s.kwh = append(s.kwh, cost.Energy)
	if length, ok := cost.Length.Get(); ok {
		s.hours = append(s.hours, exact.Int(int64(length/time.Second)).Over(exact.Int(3600)))
	}
	if kg, all := g.WaterRemoved(run); all && kg.Sign() > 0 {
		s.water = append(s.water, cost.Energy.Quo(exact.RatioOf(kg)))
	}
	if s.food >= 0 {
		load := exact.RatioOf(cost.Items[0].Loaded)
		s.each = append(s.each, cost.Energy.Quo(load))
		s.points = append(s.points, energy.Point{X: load, Y: cost.Energy})
	}
}

// cycles works a group out, where a food was named (else -1) and its line is read at a load.
func (s *sample) cycles(g *ledger.Ledger, machine, named int, load exact.Quantity) (Cycles, error) {
	c := Cycles{Machine: machine, Food: s.food, Runs: len(s.kwh), Used: sumOf(s.kwh)}
	c.KWh, c.Hours, c.Water, c.Each = spreadIn(s.kwh), spreadIn(s.hours), spreadIn(s.water), spreadIn(s.each)
	if s.food < 0 {
		return c, nil
	}
	loads := loadsOfUses(s.points)
	c.Load = meanOf(loads)
	slices.SortFunc(loads, exact.Ratio.Cmp)
	c.Loads = len(slices.CompactFunc(loads, exact.Ratio.Equal))
	if load.Given() {
		n, err := g.Foods[s.food].InBasis(load)
		if err != nil {
			return c, &FactError{Fact: LoadFact, Fault: WrongUnit, Food: named, Err: err}
		}
		c.Load = exact.RatioOf(n)
	}
	if line, err := energy.FitLine(s.points); err == nil {
		low, high := line.Prediction(c.Load, confidence)
		c.Line = exact.Some(LoadLine{line, line.At(c.Load), low, high})
	}
	return c, nil
}

// spreadIn describes values; not given where there are none.
func spreadIn(values []exact.Ratio) (spread exact.Opt[energy.Spread]) {
	if s, err := energy.SpreadOf(values); err == nil {
		spread = exact.Some(s)
	}
	return spread
}
