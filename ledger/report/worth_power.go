package report

import (
	"fmt"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// kwhPlaces is where an estimated kWh is rounded, half to even, before it is
// priced (design section 6).
const kwhPlaces = 3

// power is what a cycle's electricity is reckoned from.
type power struct {
	basis     string // "given", "line", "mean" or "wattage"
	runs      int    // that it comes from
	kwh       func(load exact.Number) exact.Number
	low, high func(load exact.Number) exact.Number // its spread
	err       error                                // the first that pricing met
}

// cycleCosts finds what a cycle costs beside its food.
func (f *facts) cycleCosts() {
	f.wear()
	f.runSupplies()
	f.labour()
	f.electricity()
	for _, e := range f.q.Without {
		switch e {
		case ledger.WearCost:
			f.sale.Wear = exact.Money{}
		case ledger.SuppliesCost:
			f.sale.Supplies = exact.Money{}
		case ledger.LabourCost:
			f.sale.Labour = exact.Money{}
		case ledger.ElectricityCost:
			f.sale.Electricity = nil
		}
	}
}

func (f *facts) wear() {
	if w, ok := f.q.Wear.Get(); ok {
		f.sale.Wear = w.Round(f.g.Places(), exact.HalfEven)
		return
	}
	if f.machine < 0 {
		f.note("no machine is recorded: no wear is counted (--wear would)")
		return
	}
	wear, ok := f.g.NextCycle(f.machine)
	if !ok {
		f.note("no receipt or no expected cycle of %s is left: no wear is counted (--wear would)", f.g.Machines[f.machine].ID)
	}
	f.sale.Wear = wear
}

func (f *facts) runSupplies() {
	if f.machine < 0 {
		return
	}
	m := &f.g.Machines[f.machine]
	cost, notes, err := f.g.NextUses(m.With, exact.Int(1))
	if err != nil {
		f.note("the supplies of a cycle are left out: %v", err)
	}
	f.sale.Supplies = cost
	f.notes = append(f.notes, notes...)
}

// labour is the median hands-on time of the food's runs, at the settings'
// value of an hour.
func (f *facts) labour() {
	var hands []time.Duration
	for i := range f.g.Runs {
		if f.goodRun(i) && f.g.Runs[i].Loaded(f.dried) {
			hands = append(hands, f.g.Records.Runs[i].Hands)
		}
	}
	if median, ok := medianLength(hands); ok {
		f.sale.Labour = f.g.Labour(exact.Int(int64(median / time.Second)).Over(exact.Int(3600)))
	}
}

// electricity prices cycle after cycle under the tariff, as they would follow
// each other.
func (f *facts) electricity() {
	if !f.estimate() {
		f.lack("the electricity of a cycle", "--kwh", "a run of it, or the machine's watts in "+ledger.WattageFile)
		return
	}
	if rate, ok := f.q.Rate.Get(); ok {
		f.sale.Electricity = func(_ int, load exact.Number) exact.Money {
			return exact.MoneyOf(f.power.kwh(load).Mul(rate)).Round(f.g.Places(), exact.HalfEven)
		}
		return
	}
	tariff := f.g.Tariff(f.q.Tariff)
	switch {
	case tariff == nil && f.q.Tariff != "":
		f.wrong("tariff", "tariffs are in "+ledger.TariffsFile, "no tariff is called %s", exact.Quote(f.q.Tariff))
		return
	case tariff == nil:
		f.lack("what a kWh costs", "--rate or --tariff", "a tariff, and its name in "+ledger.SettingsFile)
		return
	case f.cycle == 0:
		return // missing, as cycleTime has said
	}
	f.sale.Electricity = f.billed(tariff)
}

// billed returns the price of a cycle under a tariff; equal questions are
// answered once.
func (f *facts) billed(tariff *energy.Tariff) func(int, exact.Number) exact.Money {
	type question struct {
		cycle int
		load  string
	}
	known := map[question]exact.Money{}
	start, runs := f.start(), f.goodRuns()
	return func(cycle int, load exact.Number) exact.Money {
		q := question{cycle, load.String()}
		if cost, ok := known[q]; ok {
			return cost
		}
		meter := f.g.Meter()
		if tariff.HasBlocks() { // the cycles before it have used up some of the month
			for before := range cycle {
				f.bill(meter, tariff, start, before, f.sale.Load, runs)
			}
		}
		known[q] = f.bill(meter, tariff, start, cycle, load, runs)
		return known[q]
	}
}

// bill prices one cycle on a meter, rounded once.
func (f *facts) bill(meter *energy.Meter, tariff *energy.Tariff, start time.Time, cycle int, load exact.Number, runs []int) exact.Money {
	at := start.Add(time.Duration(cycle) * (f.cycle + f.q.Turnaround))
	var spans []energy.Span
	for _, leg := range usualCycle(f.g, runs, f.cycle, exact.RatioOf(f.power.kwh(load))) {
		spans = append(spans, energy.Span{Start: at, Length: leg.Length, Energy: leg.Energy})
		at = at.Add(leg.Length)
	}
	bills, err := meter.Itemize(tariff, spans, f.g.Places())
	if err != nil {
		if f.power.err == nil {
			f.power.err = fmt.Errorf("pricing the electricity of cycle %d: %w", cycle+1, err)
		}
		return exact.Money{}
	}
	var sum exact.Ratio
	for _, b := range bills {
		for _, p := range b.Pieces {
			sum = sum.Add(p.Cost)
		}
	}
	return exact.MoneyOf(sum.Round(f.g.Places(), exact.HalfEven))
}

// goodRuns are the good runs of the food on the machine, else all of its good
// runs.
func (f *facts) goodRuns() []int {
	var ofFood, all []int
	for i := range f.g.Runs {
		if !f.goodRun(i) {
			continue
		}
		all = append(all, i)
		if f.g.Runs[i].Loaded(f.dried) {
			ofFood = append(ofFood, i)
		}
	}
	if len(ofFood) > 0 {
		return ofFood
	}
	return all
}
