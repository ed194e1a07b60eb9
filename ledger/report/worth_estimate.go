package report

import (
	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// This file estimates: what a cycle will use is guessed from what cycles used.
// The figures are exact all the same: a mean and a line of least squares are
// ratios. They are rounded half to even at kwhPlaces before they are priced
// (design, section 6).
const kwhPlaces = 3

// enough is how many runs a line needs, with two loads at least among them: one
// more than would leave nothing to judge its spread by.
const enough = 4

// A use is what one run was loaded with and used.
type use struct{ load, kwh exact.Ratio }

// estimate finds what a cycle uses: as given; else by the line of kWh on load
// through the food's own runs on the machine; else their mean; else from the
// machine's watts over its usual phases; else the mean of its other runs. It
// reports false when nothing tells.
func (f *facts) estimate() bool {
	if kwh, ok := f.q.KWh.Get(); ok {
		same := func(exact.Number) exact.Number { return kwh }
		f.setPower("given", 0, same, same, same)
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

// uses are those of the good runs on the machine that dried one food alone: a
// certain one, or with -1 any.
func (f *facts) uses(food int) []use {
	var list []use
	for _, i := range f.runsOf(food) {
		if r := &f.g.Runs[i]; len(r.Items) == 1 && r.Energy.Sign() > 0 {
			list = append(list, use{exact.RatioOf(r.Items[0].Loaded), r.Energy})
		}
	}
	return list
}

// byLine takes the line of least squares, with the farthest that a run lay
// below and above it as its spread.
func (f *facts) byLine(uses []use) bool {
	l, ok := fit(uses)
	if !ok || l.at(exact.RatioOf(f.sale.Load)).Sign() <= 0 {
		return false // no cycle gives energy back
	}
	var below, above exact.Ratio
	for _, u := range uses {
		switch off := u.kwh.Sub(l.at(u.load)); {
		case off.Cmp(below) < 0:
			below = off
		case off.Cmp(above) > 0:
			above = off
		}
	}
	along := func(off exact.Ratio) kwhOf {
		return func(load exact.Number) exact.Number {
			return kwhRounded(l.at(exact.RatioOf(load)).Add(off)).Max(exact.Number{})
		}
	}
	f.setPower("line", len(uses), along(exact.Ratio{}), along(below), along(above))
	return true
}

func kwhRounded(r exact.Ratio) exact.Number { return r.Round(kwhPlaces, exact.HalfEven) }

// A line is kWh on load.
type line struct{ intercept, slope exact.Ratio }

func (l line) at(load exact.Ratio) exact.Ratio { return l.intercept.Add(l.slope.Mul(load)) }

// fit is the line of least squares. It reports false for too few runs, or runs
// with one load.
func fit(uses []use) (line, bool) {
	if len(uses) < enough {
		return line{}, false
	}
	n := exact.RatioOf(whole(len(uses)))
	var x, y, xx, xy exact.Ratio
	for _, u := range uses {
		x, y = x.Add(u.load), y.Add(u.kwh)
		xx, xy = xx.Add(u.load.Mul(u.load)), xy.Add(u.load.Mul(u.kwh))
	}
	spread := n.Mul(xx).Sub(x.Mul(x))
	if spread.IsZero() {
		return line{}, false
	}
	slope := n.Mul(xy).Sub(x.Mul(y)).Quo(spread)
	return line{y.Sub(slope.Mul(x)).Quo(n), slope}, true
}

// byMean takes the mean of the runs, whatever their load, with the least and
// the most of them as its spread.
func (f *facts) byMean(uses []use) bool {
	if len(uses) == 0 {
		return false
	}
	var sum exact.Ratio
	low, high := uses[0].kwh, uses[0].kwh
	for _, u := range uses {
		sum = sum.Add(u.kwh)
		if u.kwh.Cmp(low) < 0 {
			low = u.kwh
		}
		if u.kwh.Cmp(high) > 0 {
			high = u.kwh
		}
	}
	always := func(r exact.Ratio) kwhOf {
		n := kwhRounded(r)
		return func(exact.Number) exact.Number { return n }
	}
	mean := sum.Quo(exact.RatioOf(whole(len(uses))))
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
	n := kwhRounded(draw.Energy)
	same := func(exact.Number) exact.Number { return n }
	f.setPower("wattage", 0, same, same, same)
	f.note("no run of %s alone tells its electricity: the machine's usual watts are taken", f.food().ID)
	if guessed {
		f.note("no run tells the phases of a cycle: all of it is reckoned at the watts of primary drying")
	}
	return true
}
