package energy

import (
	"cmp"
	"errors"
	"slices"
	"time"

	"putby/pricing/exact"
)

// A Leg is one phase of a profile: so much energy, even over so long.
type Leg struct {
	Length time.Duration // elapsed time, at least 0
	Energy exact.Ratio   // kWh, at least 0
}

// A Search asks when it costs least to start a cycle.
type Search struct {
	Tariff  *Tariff
	Meter   *Meter // what the months have used, for blocks; nil: nothing. It is not changed.
	Profile []Leg
	From    time.Time         // the first start asked about, and the one that savings are counted against
	To      time.Time         // the last
	Step    time.Duration     // what starts are multiples of, in whole seconds; 0: a second
	Begin   exact.Opt[Window] // when somebody is there to load; it limits From and To too
	Finish  exact.Opt[Window] // when somebody is there to unload
	Places  int               // digits at which each leg is posted
}

// A Start is one time to start at. Its times are in the tariff's zone.
type Start struct {
	At, Finish time.Time
	Cost       exact.Money // as it would be posted, leg by leg
	Saving     exact.Money // against starting at Search.From; negative: it costs more
	cost       exact.Ratio // unrounded
}

// The errors of a [Search].
var (
	ErrNoProfile = errors.New("there is no phase to place")
	ErrNoWindow  = errors.New("the last start is before the first")
	ErrTooLong   = errors.New("the starts span more than a year")
)

const longestSearch = 366 * 24 * time.Hour

// Starts returns starts from the cheapest to the dearest, of equal ones the
// earlier first. Every start lies on a whole multiple of Step on the local clock,
// as it is set at From, but for From itself; the first of the list is the
// cheapest of all such starts in the window, with none left out.
//
// Cost is a piecewise linear function of the start: it bends only where the
// edge of a leg meets the edge of a band (or, with blocks, where the use of a
// month reaches a block at such an edge). So it is enough to look at those
// starts and at the ends of the windows. The list has all of them that begin
// within Begin and finish within Finish; it is empty when no start does.
func (s Search) Starts() ([]Start, error) {
	if err := s.check(); err != nil {
		return nil, err
	}
	now, err := s.Price(s.From)
	if err != nil {
		return nil, err
	}
	var starts []Start
	for _, at := range s.candidates() {
		start, err := s.Price(at)
		if err != nil {
			return nil, err
		}
		start.Saving = now.Cost.Sub(start.Cost)
		starts = append(starts, start)
	}
	slices.SortStableFunc(starts, func(a, b Start) int {
		return cmp.Or(a.cost.Cmp(b.cost), a.At.Compare(b.At))
	})
	return starts, nil
}

func (s Search) check() error {
	switch {
	case len(s.Profile) == 0:
		return ErrNoProfile
	case s.To.Before(s.From):
		return ErrNoWindow
	case s.To.Sub(s.From) > longestSearch:
		return ErrTooLong
	}
	return nil
}

// Price returns what it costs to start at one time, whether or not it is in
// the window. Its Saving is not set.
func (s Search) Price(at time.Time) (Start, error) {
	m := s.Meter
	if m == nil {
		m = NewMeter([12]exact.Number{})
	}
	b := m.begin(s.Tariff)
	start := Start{At: at.In(s.Tariff.zone)}
	for _, leg := range s.Profile {
		cost, err := b.cost(Span{Start: at, Length: leg.Length, Energy: leg.Energy})
		if err != nil {
			return Start{}, b.undo(err)
		}
		start.cost = start.cost.Add(cost)
		start.Cost = start.Cost.Add(posted(cost, s.Places))
		at = at.Add(leg.Length)
	}
	start.Finish = at.In(s.Tariff.zone)
	return start, b.undo(nil) // asking uses nothing
}
