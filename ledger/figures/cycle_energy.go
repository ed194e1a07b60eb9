package figures

import (
	"slices"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// This file estimates: what a cycle will use is guessed from what cycles used.
// A line and the bounds of a spread pass through floats; every estimate is
// rounded half to even at energy.KWhPlaces before it is priced.

// confidence is how surely a further cycle lies within the spread, or a line's bounds.
const confidence = 0.9

// A Basis says what a cycle's energy comes from.
type Basis uint8

// The bases.
const (
	NotCounted Basis = iota
	Given            // by the caller
	ByLine           // a line of kWh on load through runs
	ByMean           // the mean of runs, whatever their load
	ByWattage        // the machine's usual watts over usual phases
)

// A KWhOf is what a cycle with a load uses, in kWh.
type KWhOf func(load exact.Number) exact.Number

// A CycleEnergy is what a cycle will use, and its spread: nine cycles in ten lie
// between Low and High.
type CycleEnergy struct {
	Basis          Basis
	Runs           int            // that it comes from
	KWh, Low, High KWhOf          // nil where it is not counted
	seen           []energy.Point // the runs of a line: load in the food's unit, kWh; none: not by a line
	OfOthers       bool           // no run of the food alone tells
	Unphased       bool           // by wattage: no good run of the machine tells the phases either
}

// Spread reports whether it is known how much cycles differ.
func (e *CycleEnergy) Spread() bool {
	return e.Basis == ByLine || e.Basis == ByMean && e.Runs > 1
}

// Estimated reports whether the energy is a guess from what runs used.
func (e *CycleEnergy) Estimated() bool { return e.Basis > Given }

// Loads are the least and the most that a run of a line had loaded; it reports
// false for what is not by a line.
func (e *CycleEnergy) Loads() (least, most exact.Ratio, ok bool) {
	if len(e.seen) == 0 {
		return least, most, false
	}
	loads := loadsOfUses(e.seen)
	return slices.MinFunc(loads, exact.Ratio.Cmp), slices.MaxFunc(loads, exact.Ratio.Cmp), true
}

// Energy finds what a cycle uses that takes a length and has a load: as given;
// else by the line of kWh on load through the food's own runs on the machine;
// else their mean; else from the machine's watts over its usual phases; else the
// mean of its other runs. The error is a [*MissingError].
func (d Dryer) Energy(given exact.Opt[exact.Number], load exact.Number, length time.Duration) (CycleEnergy, error) {
	if kwh, ok := given.Get(); ok {
		return steady(Given, 0, kwh, kwh, kwh), nil
	}
	uses := d.Uses(d.Food)
	if e, ok := byLine(uses, load); ok {
		return e, nil
	}
	if e, ok := byMean(uses); ok {
		return e, nil
	}
	if e, ok := d.byWattage(length); ok {
		return e, nil
	}
	e, ok := byMean(d.Uses(-1))
	if e.OfOthers = true; !ok {
		return e, lack(Missing{Fact: KWhFact, Food: d.Food})
	}
	return e, nil
}

// loadsOfUses are the loads alone.
func loadsOfUses(uses []energy.Point) []exact.Ratio {
	loads := make([]exact.Ratio, len(uses))
	for i, u := range uses {
		loads[i] = u.X
	}
	return loads
}

// steady is the same use whatever the load.
func steady(basis Basis, runs int, kwh, low, high exact.Number) CycleEnergy {
	always := func(n exact.Number) KWhOf { return func(exact.Number) exact.Number { return n } }
	return CycleEnergy{Basis: basis, Runs: runs, KWh: always(kwh), Low: always(low), High: always(high)}
}

// Uses are load and kWh of the good runs on the machine that dried one food
// alone: a certain one, or with -1 any.
func (d Dryer) Uses(food int) []energy.Point {
	var list []energy.Point
	for _, i := range d.RunsOf(food) {
		if r := &d.g.Runs[i]; len(r.Items) == 1 && r.Energy.Sign() > 0 {
			list = append(list, energy.Point{X: exact.RatioOf(r.Items[0].Loaded), Y: r.Energy})
		}
	}
	return list
}

// byLine takes the line of least squares through runs with loads enough.
func byLine(uses []energy.Point, load exact.Number) (CycleEnergy, bool) {
	line, err := energy.FitLine(uses)
	if err != nil {
		return CycleEnergy{}, false
	}
	of := func(read func(load exact.Ratio) energy.Estimate) KWhOf {
		return func(load exact.Number) exact.Number {
			kwh, _ := read(exact.RatioOf(load)).KWh()
			return kwh
		}
	}
	e := CycleEnergy{Basis: ByLine, Runs: line.N, seen: uses, KWh: of(line.At),
		Low:  of(func(load exact.Ratio) energy.Estimate { low, _ := line.Prediction(load, confidence); return low }),
		High: of(func(load exact.Ratio) energy.Estimate { _, high := line.Prediction(load, confidence); return high }),
	}
	return e, e.KWh(load).Sign() > 0 // no cycle gives energy back
}

// byMean takes the mean of the runs, whatever their load.
func byMean(uses []energy.Point) (CycleEnergy, bool) {
	if len(uses) == 0 {
		return CycleEnergy{}, false
	}
	kwhs := make([]exact.Ratio, len(uses))
	for i, u := range uses {
		kwhs[i] = u.Y
	}
	mean := meanOf(kwhs).Round(energy.KWhPlaces, exact.HalfEven)
	low, high := mean, mean
	if spread, err := energy.SpreadOf(kwhs); err == nil {
		if below, above, ok := spread.Prediction(confidence); ok {
			low, _ = below.KWh()
			high, _ = above.KWh()
		}
	}
	return steady(ByMean, len(uses), mean, low, high), true
}

// byWattage takes the machine's usual watts over the usual phases of its runs;
// where none of them tells, the watts of primary drying over the whole cycle,
// most of which it takes (common practice).
func (d Dryer) byWattage(length time.Duration) (CycleEnergy, bool) {
	if d.Machine < 0 || length == 0 {
		return CycleEnergy{}, false
	}
	phases := d.usualPhases(length)
	unphased := len(phases) == 0
	if unphased {
		phases = []Phase{{Name: ledger.Primary, Length: length}}
	}
	var c energy.Cycle
	for _, p := range phases {
		c.Phases = append(c.Phases, energy.Phase{Length: p.Length, Watts: d.g.Watts(d.Machine, p.Name)})
	}
	draw, err := c.Resolve()
	if err != nil {
		return CycleEnergy{}, false
	}
	n := draw.Energy.Round(energy.KWhPlaces, exact.HalfEven)
	e := steady(ByWattage, 0, n, n, n)
	e.OfOthers, e.Unphased = true, unphased
	return e, true
}
