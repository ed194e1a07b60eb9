package report

import (
	"putby/energy"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// This file estimates: what a cycle will use is guessed from what cycles used.
// A line and the bounds of a spread pass through floats; every estimate is
// rounded half to even at energy.KWhPlaces before it is priced.

// confidence is how surely the next cycle lies within the spread.
const confidence = 0.9

// estimate finds what a cycle uses: as given; else by the line of kWh on load
// through the food's own runs on the machine; else their mean; else from the
// machine's watts over its usual phases; else the mean of its other runs. It
// reports false when nothing tells.
func (f *facts) estimate() bool {
	if kwh, ok := f.q.KWh.Get(); ok {
		f.setPower("given", 0, always(kwh), always(kwh), always(kwh))
		return true
	}
	uses := f.uses(f.dried)
	if f.byLine(uses) || f.byMean(uses) || f.byWattage() {
		return true
	}
	others := f.uses(-1)
	if !f.byMean(others) {
		return false
	}
	f.note("no run of %s alone tells its electricity: the mean of the machine's %s is taken", f.food().Title(), counted(len(others), "other run"))
	return true
}

func (f *facts) setPower(basis string, runs int, kwh, low, high kwhOf) {
	f.power.basis, f.power.runs = basis, runs
	f.power.kwh, f.power.low, f.power.high = kwh, low, high
}

// always is the same use whatever the load.
func always(kwh exact.Number) kwhOf { return func(exact.Number) exact.Number { return kwh } }

// uses are load and kWh of the good runs on the machine that dried one food
// alone: a certain one, or with -1 any.
func (f *facts) uses(food int) []energy.Point {
	var list []energy.Point
	for _, i := range f.runsOf(food) {
		if r := &f.g.Runs[i]; len(r.Items) == 1 && r.Energy.Sign() > 0 {
			list = append(list, energy.Point{X: exact.RatioOf(r.Items[0].Loaded), Y: r.Energy})
		}
	}
	return list
}

// byLine takes the line of least squares through runs with loads enough.
func (f *facts) byLine(uses []energy.Point) bool {
	line, err := energy.FitLine(uses)
	if err != nil {
		return false
	}
	at := func(load exact.Number) exact.Number {
		kwh, _ := line.At(exact.RatioOf(load)).KWh()
		return kwh
	}
	bound := func(load exact.Number) (low, high exact.Number) {
		below, above := line.Prediction(exact.RatioOf(load), confidence)
		low, _ = below.KWh()
		high, _ = above.KWh()
		return low, high
	}
	if at(f.sale.Load).Sign() <= 0 {
		return false // no cycle gives energy back
	}
	f.power.seen = uses
	f.setPower("line", line.N, at,
		func(load exact.Number) exact.Number { low, _ := bound(load); return low },
		func(load exact.Number) exact.Number { _, high := bound(load); return high })
	return true
}

// beyondSeen notes where the line reaches to loads that no run had.
func (a *answer) beyondSeen() {
	if len(a.power.seen) == 0 || a.shown.Cycles == 0 {
		return
	}
	least, most := a.power.seen[0].X, a.power.seen[0].X
	for _, p := range a.power.seen {
		if p.X.Cmp(least) < 0 {
			least = p.X
		}
		if p.X.Cmp(most) > 0 {
			most = p.X
		}
	}
	last := a.shown.Dried.Sub(a.sale.Load.Mul(whole(a.shown.Cycles - 1)))
	largest := last
	if a.shown.Cycles > 1 {
		largest = a.sale.Load
	}
	if exact.RatioOf(last).Cmp(least) < 0 || exact.RatioOf(largest).Cmp(most) > 0 {
		s := a.say()
		a.note("the runs that tell the electricity had loads from %s to %s: beyond them it is less sure",
			s.amount(rounded(least), a.unit()), s.amount(rounded(most), a.unit()))
	}
}

// byMean takes the mean of the runs, whatever their load.
func (f *facts) byMean(uses []energy.Point) bool {
	if len(uses) == 0 {
		return false
	}
	kwhs := make([]exact.Ratio, len(uses))
	for i, u := range uses {
		kwhs[i] = u.Y
	}
	mean := figures.MeanOf(kwhs).Round(energy.KWhPlaces, exact.HalfEven)
	low, high := mean, mean
	if spread, err := energy.SpreadOf(kwhs); err == nil {
		if below, above, ok := spread.Prediction(confidence); ok {
			low, _ = below.KWh()
			high, _ = above.KWh()
		}
	}
	f.setPower("mean", len(uses), always(mean), always(low), always(high))
	return true
}

// byWattage reckons from the machine's usual watts over the usual phases of
// its runs; where no run tells them, over the whole cycle at the watts of
// primary drying, which takes most of it (common practice).
func (f *facts) byWattage() bool {
	if f.machine < 0 || f.cycle == 0 {
		return false
	}
	phases := usualPhases(f.g, f.runs, f.cycle)
	guessed := len(phases) == 0
	if guessed {
		phases = []usualPhase{{name: ledger.Primary, length: f.cycle}}
	}
	c := energy.Cycle{Start: f.free}
	for _, p := range phases {
		c.Phases = append(c.Phases, energy.Phase{Length: p.length, Watts: f.g.Watts(f.machine, p.name)})
	}
	draw, err := c.Resolve()
	if err != nil {
		return false
	}
	n := draw.Energy.Round(energy.KWhPlaces, exact.HalfEven)
	f.setPower("wattage", 0, always(n), always(n), always(n))
	f.note("no run of %s alone tells its electricity: the machine's usual watts are taken", f.food().Title())
	if guessed {
		f.note("no run tells the phases of a cycle: all of it is reckoned at the watts of primary drying")
	}
	return true
}
