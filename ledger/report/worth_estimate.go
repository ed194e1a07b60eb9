package report

import (
	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// This file estimates: what a cycle will use is guessed from what cycles used.
// A line and the bounds of a spread pass through floats; every estimate is
// rounded half to even at energy.KWhPlaces before it is priced (design,
// section 6).

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
	f.note("no run of %s alone tells its electricity: the mean of the machine's %s is taken", f.food().ID, counted(len(others), "other run"))
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
	at := func(load exact.Number) (kwh, low, high exact.Number) {
		x := exact.RatioOf(load)
		below, above := line.Prediction(x, confidence)
		kwh, _ = line.At(x).KWh()
		low, _ = below.KWh()
		high, _ = above.KWh()
		return kwh, low, high
	}
	if full, _, _ := at(f.sale.Load); full.Sign() <= 0 {
		return false // no cycle gives energy back
	}
	f.setPower("line", line.N,
		func(load exact.Number) exact.Number { kwh, _, _ := at(load); return kwh },
		func(load exact.Number) exact.Number { _, low, _ := at(load); return low },
		func(load exact.Number) exact.Number { _, _, high := at(load); return high })
	return true
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
	mean := meanOf(kwhs).Round(energy.KWhPlaces, exact.HalfEven)
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
	f.note("no run of %s alone tells its electricity: the machine's usual watts are taken", f.food().ID)
	if guessed {
		f.note("no run tells the phases of a cycle: all of it is reckoned at the watts of primary drying")
	}
	return true
}
