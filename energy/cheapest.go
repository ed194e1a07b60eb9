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

// lasting is the length of a leg; of energy without length the least there is.
func (l Leg) lasting() time.Duration { return max(l.Length, 1) }

// Watts is the mean draw of a leg; not given where it takes no time.
func (l Leg) Watts() (w exact.Opt[exact.Ratio]) {
	if l.Length > 0 {
		w = exact.Some(l.Energy.Times(wattSecondsPerKWh).Quo(exact.RatioOf(seconds(l.Length))))
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
	At, Finish time.Time   // first instant of the first leg; end of the last, not in it
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
	// Under blocks a cost depends on how much was used before too, so that prices over time do not
	// tell which start is cheaper. TestCheapestIsBruteForce holds both ways to every start.
	cheaper := s.byWeight()
	if s.Tariff.blocks {
		cheaper = s.byCost()
	}
	// From counts even where it is no multiple of a step: it is the earliest there is.
	for at, next := s.From, s.second(); !at.After(s.To); at, next = next, next.Add(s.step()) {
		if !s.allows(at) {
			continue
		}
		less, err := cheaper(at)
		if err != nil {
			return Start{}, false, err
		}
		if less {
			best.At, found = at, true
		}
	}
	if found {
		best, err = s.Price(best.At)
	}
	return best, found, err
}

// byCost returns a function that tells whether a start costs less than all that it
// was asked about before.
func (s Search) byCost() func(time.Time) (bool, error) {
	var least exact.Opt[exact.Ratio]
	return func(at time.Time) (bool, error) {
		start, err := s.Price(at)
		so, later := least.Get()
		less := err == nil && (!later || start.cost.Cmp(so) < 0)
		if less {
			least = exact.Some(start.cost)
		}
		return less, err
	}
}

// byWeight is byCost without blocks. A leg costs its energy by the second, times
// the sum of prices over its seconds. The former is the same for all starts, so
// whole numbers of it compare them as exactly, and no ratio is taken.
func (s Search) byWeight() func(time.Time) (bool, error) {
	rates := make([]exact.Ratio, len(s.Profile))
	for i, leg := range s.Profile {
		rates[i] = leg.Energy.Quo(exact.RatioOf(seconds(leg.lasting())))
	}
	weights, _ := exact.Whole(rates)
	var least exact.Opt[exact.Number]
	return func(at time.Time) (bool, error) {
		b := s.Meter.begin(s.Tariff)
		var sum exact.Number
		for i, leg := range s.Profile {
			// Energy without length is priced at its instant, and the next leg begins there too.
			span := Span{Start: at, Length: leg.lasting()}
			parts := b.cut(span)
			if err := b.priced(span, parts); err != nil {
				return false, err
			}
			sum = sum.Add(b.overTime(parts).Mul(weights[i]))
			at = at.Add(leg.Length)
		}
		so, later := least.Get()
		less := !later || sum.Less(so)
		if less {
			least = exact.Some(sum)
		}
		return less, nil
	}
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
	// Multiples are of what the clock shows, so that a step of a quarter starts on the quarter also
	// in a zone that is no whole number of them from UTC.
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
	if s.Meter == nil {
		s.Meter = NewMeter([12]exact.Number{})
	}
	b := s.Meter.begin(s.Tariff)
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
