package figures

import (
	"fmt"
	"slices"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// A CyclePrice is what the electricity of cycles costs that follow each other:
// at a rate, or under a tariff on the clock.
type CyclePrice struct {
	Rate    exact.Opt[exact.Number] // per kWh, instead of a tariff
	Tariff  *energy.Tariff
	Phases  []Phase // of a usual cycle; none where no run tells them
	g       *ledger.Ledger
	free    time.Time     // when the first cycle begins
	length  time.Duration // of a cycle; 0: nothing tells
	between time.Duration // from the end of one to the start of the next
	load    exact.Number  // of a full cycle
}

// A chargeOf is what the electricity of a cycle (from 0) with a load costs.
type chargeOf func(cycle int, load exact.Number) (exact.Money, error)

// cyclePriceOf finds how electricity is priced, and how a cycle lies on the
// clock. The error is a [*FactError] or a [*MissingError].
func cyclePriceOf(d Dryer, q *WorthQuery, free time.Time, length Length, load exact.Number) (CyclePrice, error) {
	p := CyclePrice{Rate: q.Rate, g: d.g, free: free, length: length.Time, between: q.Turnaround, load: load}
	if p.Rate.Given() {
		return p, nil
	}
	tariff := d.g.Tariff(q.Tariff)
	switch {
	case tariff == nil && q.Tariff != "":
		return p, &FactError{Fact: TariffFact, Fault: Unknown, Name: q.Tariff}
	case tariff == nil:
		return p, lack(Missing{Fact: RateFact})
	case len(tariff.Bands()) > 1:
		if err := length.needed(d.Food); err != nil {
			return p, err // when it runs says what it costs
		}
	}
	p.Tariff, p.Phases = tariff, d.usualPhases(length.Time)
	return p, nil
}

// charge returns what cycles cost that use so much. Its error is a [*FactError] of
// a cycle without a price.
func (p *CyclePrice) charge(kwh KWhOf) chargeOf {
	if rate, ok := p.Rate.Get(); ok {
		return func(_ int, load exact.Number) (exact.Money, error) {
			return post(p.g, exact.RatioOf(kwh(load).Mul(rate))), nil
		}
	}
	b := &biller{CyclePrice: p, kwh: kwh}
	if !p.Tariff.HasBlocks() {
		return b.byRate
	}
	type question struct {
		cycle int    // from 0
		load  string // as text: equal numbers need not be ==
	}
	known := map[question]exact.Money{} // equal questions are answered once
	return func(cycle int, load exact.Number) (exact.Money, error) {
		q := question{cycle, load.String()}
		if cost, ok := known[q]; ok {
			return cost, nil
		}
		cost, err := b.bill(cycle, kwh(load))
		if err != nil {
			return exact.Money{}, err
		}
		known[q] = post(p.g, cost)
		return known[q], nil
	}
}

// least is at least what a full cycle costs that uses so much: all of it at the
// lowest price, or for nothing where some hour to come has no price yet. As every cost
// is rounded alike, none is below it.
func (p *CyclePrice) least(kwh KWhOf) exact.Money {
	rate := p.Rate.Or(exact.Number{})
	if p.Tariff != nil {
		rate = p.Tariff.Least()
		first := exact.DateIn(p.free.In(p.g.Settings.Zone))
		if p.Tariff.IsHourly() || slices.ContainsFunc(p.Tariff.Check().Gaps, func(gap energy.Gap) bool { return gap.Until > first }) {
			rate = rate.Min(exact.Number{})
		}
	}
	return post(p.g, exact.RatioOf(kwh(p.load).Mul(rate)))
}

// A biller prices cycles that follow each other, all full but the last.
type biller struct {
	*CyclePrice
	kwh    KWhOf
	rates  []exact.Ratio   // what 1 kWh of a cycle costs, spread over it as usual; without blocks
	meters []*energy.Meter // meters[k] is the household's before cycle k; with blocks
}

// byRate prices a cycle where a price does not depend on the use of the month:
// then what it costs is in proportion to its energy.
func (b *biller) byRate(cycle int, load exact.Number) (exact.Money, error) {
	for k := len(b.rates); k <= cycle; k++ {
		rate, err := b.bill(k, exact.Int(1))
		if err != nil {
			return exact.Money{}, err
		}
		b.rates = append(b.rates, rate)
	}
	return post(b.g, b.rates[cycle].Times(b.kwh(load))), nil
}

// bill is what a cycle costs that uses so much, unrounded. The error is a
// [*FactError].
func (b *biller) bill(cycle int, kwh exact.Number) (exact.Ratio, error) {
	meter, err := b.before(cycle)
	if err != nil {
		return exact.Ratio{}, err
	}
	return b.priced(meter.Fork(), cycle, kwh)
}

// priced prices a cycle on a meter, and says of one without a price which it is.
func (b *biller) priced(meter *energy.Meter, cycle int, kwh exact.Number) (exact.Ratio, error) {
	cost, err := b.at(meter, b.begins(cycle), kwh)
	if err != nil {
		err = &FactError{Fact: TariffFact, Fault: Unpriced, Count: cycle + 1, Err: err}
	}
	return cost, err
}

// begins is when a cycle does.
func (p *CyclePrice) begins(cycle int) time.Time {
	return p.free.Add(time.Duration(cycle) * (p.length + p.between))
}

// before is the meter as it stands before a cycle. Only blocks need to know
// what the cycles before it used, each of which needs a price then.
func (b *biller) before(cycle int) (*energy.Meter, error) {
	if len(b.meters) == 0 {
		b.meters = append(b.meters, b.g.Meter())
	}
	if !b.Tariff.HasBlocks() {
		return b.meters[0], nil
	}
	for k := len(b.meters); k <= cycle; k++ {
		next := b.meters[k-1].Fork()
		if _, err := b.priced(next, k-1, b.kwh(b.load)); err != nil {
			return nil, err
		}
		b.meters = append(b.meters, next)
	}
	return b.meters[cycle], nil
}

// at is what a cycle costs that begins at a time, on a meter, unrounded.
func (p *CyclePrice) at(m *energy.Meter, at time.Time, kwh exact.Number) (sum exact.Ratio, err error) {
	legs := LegsOf(p.Phases, p.length, exact.RatioOf(kwh))
	spans := make([]energy.Span, len(legs))
	for i, leg := range legs {
		spans[i] = energy.Span{Start: at, Length: leg.Length, Energy: leg.Energy}
		at = at.Add(leg.Length)
	}
	if sum, err = m.Cost(p.Tariff, spans); err != nil {
		err = fmt.Errorf("its electricity has no price: %w", err)
	}
	return sum, err
}
