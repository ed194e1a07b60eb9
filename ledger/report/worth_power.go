package report

import (
	"fmt"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// A kwhOf is what a cycle with a load uses, in kWh.
type kwhOf func(load exact.Number) exact.Number

// A chargeOf is what the electricity of a cycle (from 0) with a load costs.
type chargeOf func(cycle int, load exact.Number) exact.Money

// power is what a cycle's electricity is reckoned from.
type power struct {
	basis          string         // "given", "line", "mean" or "wattage"; "" where it is left out
	runs           int            // that it comes from
	kwh, low, high kwhOf          // what it will use, and its spread
	seen           []energy.Point // the runs of a line
	tariff         *energy.Tariff
	phases         []usualPhase
	biller         *biller // of cycles that use kwh; nil under a given rate
	err            error   // the first that pricing met
}

// spread reports whether it is known how much cycles differ.
func (p *power) spread() bool { return p.basis == "line" || p.basis == "mean" && p.runs > 1 }

// estimated reports whether the energy is a guess from what runs used.
func (p *power) estimated() bool { return p.basis != "given" && p.basis != "" }

// findPower finds what a cycle uses and what that costs.
func (f *facts) findPower() {
	if f.leaves(ledger.ElectricityCost) {
		return
	}
	if !f.estimate() {
		f.lack("the electricity of a cycle", "--kwh", "a run of it, or the machine's watts in "+ledger.WattageFile)
	}
	if !f.q.Rate.Given() && !f.findTariff() {
		return
	}
	if f.power.kwh != nil {
		f.sale.Electricity, f.power.biller = f.priced(f.power.kwh)
	}
}

// findTariff finds the tariff, and how a cycle lies on the clock.
func (f *facts) findTariff() bool {
	tariff := f.g.Tariff(f.q.Tariff)
	switch {
	case tariff == nil && f.q.Tariff != "":
		f.wrong("tariff", "tariffs are in "+ledger.TariffsFile, "no tariff is called %s", exact.Quote(f.q.Tariff))
		return false
	case tariff == nil:
		f.lack("what a kWh costs", "--rate or --tariff", "a tariff, and its name in "+ledger.SettingsFile)
		return false
	case len(tariff.Bands()) > 1 && !f.needCycle():
		return false // when it runs says what it costs
	}
	f.power.tariff = tariff
	f.power.phases = usualPhases(f.g, f.runs, f.cycle)
	return true
}

// priced returns what cycles cost that use so much, and what bills them where a
// tariff does.
func (f *facts) priced(kwh kwhOf) (chargeOf, *biller) {
	if rate, ok := f.q.Rate.Get(); ok {
		return func(_ int, load exact.Number) exact.Money {
			return f.post(exact.RatioOf(kwh(load).Mul(rate)))
		}, nil
	}
	b := &biller{facts: f, kwh: kwh}
	if !f.power.tariff.HasBlocks() {
		return b.byRate, b
	}
	type question struct {
		cycle int
		load  string
	}
	known := map[question]exact.Money{} // equal questions are answered once
	return func(cycle int, load exact.Number) exact.Money {
		q := question{cycle, load.String()}
		cost, ok := known[q]
		if !ok {
			cost = b.post(b.bill(cycle, kwh(load)))
			known[q] = cost
		}
		return cost
	}, b
}

// A biller prices cycles that follow each other, all full but the last.
type biller struct {
	*facts
	kwh    kwhOf
	rates  []exact.Ratio   // what 1 kWh of a cycle costs, spread over it as usual; without blocks
	meters []*energy.Meter // meters[k] is the household's before cycle k; with blocks
}

// byRate prices a cycle where a price does not depend on the use of the month:
// then what it costs is in proportion to its energy.
func (b *biller) byRate(cycle int, load exact.Number) exact.Money {
	for k := len(b.rates); k <= cycle; k++ {
		b.rates = append(b.rates, b.bill(k, exact.Int(1)))
	}
	return b.post(b.rates[cycle].Times(b.kwh(load)))
}

// bill is what a cycle costs that uses so much, unrounded.
func (b *biller) bill(cycle int, kwh exact.Number) exact.Ratio {
	cost, err := b.on(b.before(cycle).Fork(), cycle, kwh)
	if err != nil && b.power.err == nil {
		b.power.err = errorf("tariff", "name another tariff, or give --rate", "pricing cycle %d: %v", cycle+1, err)
	}
	return cost
}

// before is the meter as it stands before a cycle. Only blocks need to know
// what the cycles before it used.
func (b *biller) before(cycle int) *energy.Meter {
	if len(b.meters) == 0 {
		b.meters = append(b.meters, b.g.Meter())
	}
	if !b.power.tariff.HasBlocks() {
		return b.meters[0]
	}
	for k := len(b.meters); k <= cycle; k++ {
		next := b.meters[k-1].Fork()
		_, _ = b.on(next, k-1, b.kwh(b.sale.Load)) // its error comes again when it is priced
		b.meters = append(b.meters, next)
	}
	return b.meters[cycle]
}

// on bills a cycle on a meter, unrounded.
func (b *biller) on(m *energy.Meter, cycle int, kwh exact.Number) (exact.Ratio, error) {
	at := b.free.Add(time.Duration(cycle) * (b.cycle + b.q.Turnaround))
	return billed(m, b.power.tariff, b.legs(kwh), at, b.g.Places())
}

// legs are the phases of a cycle of the food.
func (f *facts) legs(kwh exact.Number) []energy.Leg {
	return legsOf(f.power.phases, f.cycle, exact.RatioOf(kwh))
}

// billed prices legs that begin at a time, unrounded.
func billed(m *energy.Meter, tariff *energy.Tariff, legs []energy.Leg, at time.Time, places int) (exact.Ratio, error) {
	spans := make([]energy.Span, len(legs))
	for i, leg := range legs {
		spans[i] = energy.Span{Start: at, Length: leg.Length, Energy: leg.Energy}
		at = at.Add(leg.Length)
	}
	var sum exact.Ratio
	bills, err := m.Itemize(tariff, spans, places)
	if err != nil {
		return sum, fmt.Errorf("its electricity has no price: %w", err)
	}
	for _, b := range bills {
		for _, p := range b.Pieces {
			sum = sum.Add(p.Cost)
		}
	}
	return sum, nil
}
