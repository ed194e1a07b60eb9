package energy

import (
	"slices"
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
	// Where a metered total is all there is, phases stay at 0 and d.scale spreads it over them.
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
	// Last, since scaling takes the sum of all; TestDrawSums holds that spans come to the total.
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
	return c.Log != nil || !c.KWh.Given() ||
		slices.ContainsFunc(c.Phases, func(p Phase) bool { return p.KWh.Given() || p.Watts.Given() })
}

// A phaseSum adds up the energy of phases: what is measured in decimals as
// decimals, since sums of ratios take several times as long.
type phaseSum struct {
	kwh, wattSeconds exact.Number // of phases with kWh of their own; of those with an average draw
	rest             exact.Ratio  // kWh
}

func (s *phaseSum) add(p Phase, placed Span) {
	kwh, metered := p.KWh.Get()
	watts, estimated := p.Watts.Get()
	switch {
	case metered:
		s.kwh = s.kwh.Add(kwh)
	case estimated && placed.Curve == nil:
		s.wattSeconds = s.wattSeconds.Add(watts.Mul(seconds(p.Length)))
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
	kwh, metered := p.KWh.Get()
	watts, estimated := p.Watts.Get()
	switch {
	case metered:
		span.Energy = exact.RatioOf(kwh)
	case c.Log != nil:
		span.Curve = c.Log
		span.Energy = c.Log.Energy(span.Start, span.Start.Add(span.Length))
	case estimated:
		span.Energy = watts.Mul(seconds(p.Length)).Over(wattSecondsPerKWh)
	default:
		return false
	}
	return true
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
		part, of := int64(s.Length), int64(length)
		if length == 0 {
			part, of = 1, int64(len(d.Spans))
		}
		// A curve has nothing to follow here: with energy in it there were a sum to scale.
		s.Curve, s.Energy = nil, kwh.Mul(exact.Int(part).Over(exact.Int(of)))
	}
}
