package energy

import (
	"errors"
	"time"

	"putby/pricing/exact"
)

// A Leg is one phase of a profile: so much energy, even over so long.
type Leg struct {
	Length time.Duration // elapsed time, at least 0
	Energy exact.Ratio   // kWh, at least 0
}

// Watts is the mean draw of a leg; not given where it takes no time.
func (l Leg) Watts() (w exact.Opt[exact.Ratio]) {
	if l.Length > 0 {
		w = exact.Some(l.Energy.Mul(exact.Int(3_600_000).Over(exact.Int(int64(l.Length / time.Second)))))
	}
	return w
}

// A Search asks when it costs least to start a cycle.
type Search struct {
	Tariff  *Tariff
	Meter   *Meter // what the months have used, for blocks; nil: nothing. It is not changed.
	Profile []Leg
	From    time.Time         // the first start
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
	cost       exact.Ratio // unrounded
}

// The errors of a [Search].
var (
	ErrNoProfile = errors.New("there is no phase to place")
	ErrNoWindow  = errors.New("the last start is before the first")
	ErrTooLong   = errors.New("the starts span more than a year")
)

const longestSearch = 366 * 24 * time.Hour

// Cheapest returns the start that costs least, before rounding, of equal ones
// the earliest; false where no start begins within Begin and finishes within
// Finish. Every start is priced: From itself, and each whole multiple of Step on
// the local clock, as it is set at From, up to To.
func (s Search) Cheapest() (best Start, found bool, err error) {
	if err := s.check(); err != nil {
		return Start{}, false, err
	}
	if s.Meter == nil {
		s.Meter = NewMeter([12]exact.Number{}) // one for all starts
	}
	for at, next := s.From, s.second(); !at.After(s.To); at, next = next, next.Add(s.step()) {
		if !s.allows(at) {
			continue
		}
		start, err := s.Price(at)
		if err != nil {
			return Start{}, false, err
		}
		if !found || start.cost.Cmp(best.cost) < 0 {
			best, found = start, true
		}
	}
	return best, found, nil
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

func (s Search) step() time.Duration { return max(s.Step.Truncate(time.Second), time.Second) }

// second is the first multiple of a step after From.
func (s Search) second() time.Time {
	_, east := s.From.In(s.Tariff.zone).Zone()
	step := int64(s.step() / time.Second)
	return time.Unix((floorDiv(s.From.Unix()+int64(east), step)+1)*step-int64(east), 0)
}

// allows reports whether a start and its finish are within the windows.
func (s Search) allows(at time.Time) bool {
	zone, finish := s.Tariff.zone, at
	for _, leg := range s.Profile {
		finish = finish.Add(leg.Length)
	}
	all := Window{}
	return s.Begin.Or(all).Has(at, zone) && s.Finish.Or(all).Has(finish, zone)
}

// Price returns what it costs to start at one time, whether or not it is in
// the window.
func (s Search) Price(at time.Time) (Start, error) {
	m := s.Meter
	if m == nil {
		m = NewMeter([12]exact.Number{})
	}
	b := m.begin(s.Tariff)
	b.asking = true
	start := Start{At: at.In(s.Tariff.zone)}
	for _, leg := range s.Profile {
		cost, err := b.cost(Span{Start: at, Length: leg.Length, Energy: leg.Energy})
		if err != nil {
			return Start{}, err
		}
		start.cost = start.cost.Add(cost)
		start.Cost = start.Cost.Add(posted(cost, s.Places))
		at = at.Add(leg.Length)
	}
	start.Finish = at.In(s.Tariff.zone)
	return start, nil
}
