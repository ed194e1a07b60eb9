package energy

import (
	"time"

	"putby/pricing/exact"
)

// wattSecondsPerKWh is 1000 x 3600.
var wattSecondsPerKWh = exact.Int(3_600_000)

// resolvePhases places a cycle phase by phase, each with the energy that [Cycle.place]
// finds for it, and ends by scaling all of them to the metered total, if there is one.
func (c Cycle) resolvePhases() (Draw, error) {
	d := Draw{Spans: append(c.Room[:0], make([]Span, len(c.Phases))...)}
	start, length, logged, lacks := c.Start, time.Duration(0), false, 0
	known := c.knowsPhases()
	var sum phaseSum
	for i, p := range c.Phases {
		span := Span{Start: start, Length: p.Length}
		if known && !c.place(&span, p) {
			if !c.Running {
				return Draw{}, &RowError{Row: "phase", Index: i, Name: p.Name, Err: ErrPhase}
			}
			lacks++
		}
		logged = logged || span.Curve != nil
		d.Spans[i] = span
		sum.add(p, span)
		start = start.Add(p.Length)
		length += p.Length
	}
	d.Energy, d.Length = sum.energy(), exact.Some(length)
	switch {
	case logged:
		d.Notes = c.uncovered(length)
	case lacks == len(c.Phases):
		d.Notes = []Note{{Kind: NothingYet}}
	case lacks > 0:
		d.Notes = []Note{{Kind: PhasesYet}}
	}
	if kwh, ok := c.KWh.Get(); ok {
		d.scale(exact.RatioOf(kwh), length)
		if !known {
			d.Notes = []Note{{Kind: PhasesUntold}}
		}
	}
	return d, nil
}

// knowsPhases reports whether something is known of the energy of a phase. A
// metered total is enough without that; nothing at all is the fault of the
// first phase.
func (c Cycle) knowsPhases() bool {
	if c.Log != nil || !c.KWh.Given() {
		return true
	}
	for _, p := range c.Phases {
		if p.KWh.Given() || p.Watts.Given() {
			return true
		}
	}
	return false
}

// A phaseSum adds up the energy of phases: what is measured in decimals as
// decimals, since sums of ratios take several times as long.
type phaseSum struct {
	kwh, wattSeconds exact.Number
	rest             exact.Ratio // kWh
}

func (s *phaseSum) add(p Phase, placed Span) {
	kwh, metered := p.KWh.Get()
	watts, estimated := p.Watts.Get()
	switch {
	case metered:
		s.kwh = s.kwh.Add(kwh)
	case estimated && placed.Curve == nil && p.Length%time.Second == 0:
		s.wattSeconds = s.wattSeconds.Add(wattSeconds(watts, p.Length))
	default:
		s.rest = s.rest.Add(placed.Energy)
	}
}

func (s *phaseSum) energy() exact.Ratio {
	return s.rest.Add(exact.RatioOf(s.kwh)).Add(s.wattSeconds.Over(wattSecondsPerKWh))
}

// place gives a span the energy of its phase, and reports whether any is
// known.
func (c Cycle) place(span *Span, p Phase) bool {
	if kwh, ok := p.KWh.Get(); ok {
		span.Energy = exact.RatioOf(kwh)
		return true
	}
	if c.Log != nil {
		span.Curve = c.Log
		span.Energy = c.Log.Energy(span.Start, span.Start.Add(span.Length))
		return true
	}
	watts, ok := p.Watts.Get()
	if ok {
		span.Energy = wattHours(watts, p.Length)
	}
	return ok
}

// wattHours returns a power over a length of time in kWh.
func wattHours(watts exact.Number, length time.Duration) exact.Ratio {
	if length%time.Second == 0 {
		return wattSeconds(watts, length).Over(wattSecondsPerKWh)
	}
	perKWh := wattSecondsPerKWh.Mul(exact.Int(int64(time.Second)))
	return watts.Mul(exact.Int(int64(length))).Over(perKWh)
}

// wattSeconds returns a power over whole seconds.
func wattSeconds(watts exact.Number, length time.Duration) exact.Number {
	return watts.Mul(exact.Int(int64(length / time.Second)))
}

// scale makes a draw of phases sum to a metered total.
func (d *Draw) scale(kwh exact.Ratio, length time.Duration) {
	switch {
	case d.Energy.Equal(kwh):
		return
	case d.Energy.Sign() != 0:
		factor := kwh.Quo(d.Energy)
		for i := range d.Spans {
			d.Spans[i].Energy = d.Spans[i].Energy.Mul(factor)
		}
	default:
		d.Notes = append(d.Notes, Note{Kind: SpreadPhases})
		d.spread(kwh, length)
	}
	d.Energy = kwh
}

// spread shares a metered total by duration; phases that last no time at all
// share it equally.
func (d *Draw) spread(kwh exact.Ratio, length time.Duration) {
	for i := range d.Spans {
		s := &d.Spans[i]
		s.Curve = nil
		if length == 0 {
			s.Energy = kwh.Quo(exact.RatioOf(exact.Int(int64(len(d.Spans)))))
			continue
		}
		s.Energy = kwh.Mul(exact.Int(int64(s.Length)).Over(exact.Int(int64(length))))
	}
}
