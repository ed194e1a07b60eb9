package report

import (
	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// This file estimates: what a cycle will use is guessed from what cycles used.

// estimate finds what a cycle uses: as given; else by the line of kWh on load
// through the food's own runs; else by their mean; else from the machine's
// wattage over its usual phases. It reports false when nothing tells.
func (f *facts) estimate() bool {
	if kwh, ok := f.q.KWh.Get(); ok {
		same := func(exact.Number) exact.Number { return kwh }
		f.power = power{basis: "given", kwh: same, low: same, high: same}
		return true
	}
	loads, kwhs := f.seen()
	if len(kwhs) > 0 {
		f.power = meanPower(kwhs)
		_ = loads
		return true
	}
	return f.byWattage()
}

// seen are load and kWh of the good runs on the machine that dried the food
// and no other.
func (f *facts) seen() (loads []exact.Number, kwhs []exact.Ratio) {
	for i := range f.g.Runs {
		if r := &f.g.Runs[i]; f.goodRun(i) && len(r.Items) == 1 && r.Items[0].Food == f.dried {
			loads, kwhs = append(loads, r.Items[0].Loaded), append(kwhs, r.Energy)
		}
	}
	return loads, kwhs
}

// meanPower is the mean of the runs, whatever the load.
func meanPower(kwhs []exact.Ratio) power {
	var sum exact.Ratio
	low, high := kwhs[0], kwhs[0]
	for _, k := range kwhs {
		sum = sum.Add(k)
		if k.Cmp(low) < 0 {
			low = k
		}
		if k.Cmp(high) > 0 {
			high = k
		}
	}
	at := func(r exact.Ratio) func(exact.Number) exact.Number {
		n := r.Round(kwhPlaces, exact.HalfEven)
		return func(exact.Number) exact.Number { return n }
	}
	mean := sum.Quo(exact.RatioOf(exact.Int(int64(len(kwhs)))))
	return power{basis: "mean", runs: len(kwhs), kwh: at(mean), low: at(low), high: at(high)}
}

// byWattage reckons from the machine's typical watts over the usual phases of
// its runs; where no run tells them, over the whole cycle at the watts of
// primary drying, which takes most of it (common practice).
func (f *facts) byWattage() bool {
	if f.machine < 0 || f.cycle == 0 {
		return false
	}
	phases := usualPhases(f.g, f.goodRuns(), f.cycle)
	if phases == nil {
		phases = []usualPhase{{name: ledger.Primary, length: f.cycle}}
		f.note("no run tells the phases of a cycle: all of it is reckoned at the watts of primary drying")
	}
	c := energy.Cycle{Start: f.start()}
	for _, p := range phases {
		c.Phases = append(c.Phases, energy.Phase{Length: p.length, Watts: f.g.Watts(f.machine, p.name)})
	}
	draw, err := c.Resolve()
	if err != nil {
		return false
	}
	n := draw.Energy.Round(kwhPlaces, exact.HalfEven)
	same := func(exact.Number) exact.Number { return n }
	f.power = power{basis: "wattage", kwh: same, low: same, high: same}
	f.note("no run of %s alone tells its electricity: the machine's usual watts are taken", f.food().ID)
	return true
}
