package figures

import (
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// This file estimates: what a cycle will use is guessed from what cycles used.
// A line and the bounds of a spread pass through floats; every estimate is
// rounded half to even at energy.KWhPlaces before it is priced.

// confidence is how surely the next cycle lies within the spread.
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
	Runs           int   // that it comes from
	KWh, Low, High KWhOf // nil where it is not counted
	seen           []energy.Point
	OfOthers       bool // no run of the food alone tells
	Unphased       bool // by wattage: no good run of the machine tells the phases either
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
	for i, p := range e.seen {
		if i == 0 || p.X.Cmp(least) < 0 {
			least = p.X
		}
		if i == 0 || p.X.Cmp(most) > 0 {
			most = p.X
		}
	}
	return least, most, len(e.seen) > 0
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
	e := CycleEnergy{Basis: ByLine, Runs: line.N, seen: uses,
		KWh: func(load exact.Number) exact.Number {
			kwh, _ := line.At(exact.RatioOf(load)).KWh()
			return kwh
		},
		Low: func(load exact.Number) exact.Number {
			below, _ := line.Prediction(exact.RatioOf(load), confidence)
			kwh, _ := below.KWh()
			return kwh
		},
		High: func(load exact.Number) exact.Number {
			_, above := line.Prediction(exact.RatioOf(load), confidence)
			kwh, _ := above.KWh()
			return kwh
		},
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
