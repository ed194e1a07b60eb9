package energy

import (
	"errors"
	"time"

	"putby/pricing/exact"
)

// A Phase is what is known of one phase of a cycle.
type Phase struct {
	Name   string
	Length time.Duration           // elapsed time, at least 0
	KWh    exact.Opt[exact.Number] // metered energy of this phase
	Watts  exact.Opt[exact.Number] // average draw: its own, or the machine's usual one
}

// A Cycle is what is known of the electricity of one machine cycle.
type Cycle struct {
	Start  time.Time            // the first instant, in any zone
	End    exact.Opt[time.Time] // only where there are no phases
	Phases []Phase
	KWh    exact.Opt[exact.Number] // metered total of the run
	Log    *Log                    // a plug meter's log, or nil
	// Running says that it has begun and not ended: what is known so far counts,
	// and what is not known of it is no error.
	Running bool
	// Room is memory for the spans of the draw, of a caller that resolves one cycle after
	// the other and keeps none of them; nil: each has its own.
	Room []Span
}

// A Draw is the energy of a cycle, placed on the clock.
type Draw struct {
	Spans  []Span      // one for each phase, in order, or one for the whole run
	Energy exact.Ratio // kWh
	// Length is that of the whole run: the sum of its phases, or from start to
	// end. It is not given where there is neither; a log alone does not tell
	// when the run ended, only how long it was drawn from ([Span.Length]).
	Length exact.Opt[time.Duration]
	Notes  []Note
}

// The errors of [Cycle.Resolve]; ErrPhase is in a [*RowError].
var (
	ErrNoEnergy     = errors.New("nothing says how much electricity it used: give kWh, a meter log, or phases with watts")
	ErrPhase        = errors.New("it has neither kWh nor watts, and there is no meter log")
	ErrEndEarly     = errors.New("its end is before its start")
	ErrEndAndPhases = errors.New("its end is given beside phases, whose durations say when it ends")
)

// Resolve places a cycle's energy on the clock.
//
// The energy of a phase is its own kWh, spread evenly; else what the log has
// during it; else watts times its length. A metered total scales every phase in
// proportion, those with their own kWh too; if they sum to no energy, or if
// nothing is known of any of them, it is spread by duration. Without phases it
// is the log from start to end (or to its last sample), scaled to the metered
// total; or the metered total, spread evenly from start to end, and without
// an end billed at the start. What a log has from the household's own roof is
// that part of each span, whatever else tells its energy.
//
// A running cycle of which nothing is known draws nothing, and neither does a
// phase of it.
func (c Cycle) Resolve() (Draw, error) {
	end, ended := c.End.Get()
	var d Draw
	var err error
	switch {
	case ended && len(c.Phases) > 0:
		return d, ErrEndAndPhases
	case ended && end.Before(c.Start):
		return d, ErrEndEarly
	case len(c.Phases) > 0:
		d, err = c.resolvePhases()
	default:
		d, err = c.resolveWhole()
	}
	if err == nil && c.Log != nil && c.Log.HasSolar() {
		c.divide(&d)
	}
	return d, err
}

// divide gives each span of a draw the part of its energy that came from the
// roof: as much of it as of what the log has in that time.
func (c Cycle) divide(d *Draw) {
	for i := range d.Spans {
		s := &d.Spans[i]
		end := s.Start.Add(s.Length)
		if all := c.Log.Energy(s.Start, end); all.Sign() > 0 {
			s.Solar = s.Energy.Mul(c.Log.solar.Energy(s.Start, end)).Quo(all)
		}
	}
}

// resolveWhole places a cycle without phases.
func (c Cycle) resolveWhole() (Draw, error) {
	kwh, metered := c.KWh.Get()
	switch {
	case !metered && c.Log == nil && c.Running:
		return Draw{Notes: []Note{{Kind: NothingYet}}}, nil
	case !metered && c.Log == nil:
		return Draw{}, ErrNoEnergy
	}
	var d Draw
	span := Span{Start: c.Start}
	if end, ok := c.End.Get(); ok {
		span.Length = end.Sub(c.Start)
		d.Length = exact.Some(span.Length)
	} else if c.Log != nil {
		// d.Length stays open: the log may have gone on after the run, or ended before it.
		span.Length = max(c.Log.Last().Sub(c.Start), 0)
	}
	if c.Log != nil {
		span.Curve = c.Log
		span.Energy = c.Log.Energy(c.Start, c.Start.Add(span.Length))
		d.Notes = c.uncovered(span.Length)
	}
	if metered {
		if span.Curve != nil && span.Energy.IsZero() && !kwh.IsZero() {
			span.Curve = nil // it has no shape that the total could be scaled to
			d.Notes = append(d.Notes, Note{Kind: LogShowsNone})
		}
		span.Energy = exact.RatioOf(kwh)
	}
	if span.Length == 0 && !d.Length.Given() {
		d.Notes = append(d.Notes, Note{Kind: AtStart})
	}
	d.Spans, d.Energy = []Span{span}, span.Energy
	return d, nil
}

// uncovered notes the part of a run that its log has no samples for.
func (c Cycle) uncovered(length time.Duration) (notes []Note) {
	end, first, last := c.Start.Add(length), c.Log.First(), c.Log.Last()
	if !first.Before(end) || !last.After(c.Start) {
		return []Note{{Kind: LogOutside}}
	}
	if late := first.Sub(c.Start); late > 0 {
		notes = append(notes, Note{Kind: LogLate, Length: late})
	}
	// The log of a run that goes on ends before it as a matter of course.
	if early := end.Sub(last); early > 0 && !c.Running {
		notes = append(notes, Note{Kind: LogEarly, Length: early})
	}
	return notes
}
