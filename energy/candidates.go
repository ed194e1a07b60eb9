package energy

import (
	"slices"
	"time"

	"putby/pricing/exact"
)

// A profile is the legs of a search, added up.
type profile struct {
	legs    []Leg
	offsets []time.Duration // where legs begin, and where the last one ends
	before  []exact.Ratio   // kWh up to each offset
	instant bool            // a leg has energy and no length
}

func newProfile(legs []Leg) profile {
	p := profile{legs: legs, offsets: []time.Duration{0}, before: []exact.Ratio{{}}}
	for i, leg := range legs {
		p.offsets = append(p.offsets, p.offsets[i]+leg.Length)
		p.before = append(p.before, p.before[i].Add(leg.Energy))
		p.instant = p.instant || leg.Length == 0 && !leg.Energy.IsZero()
	}
	return p
}

// length is that of the whole profile.
func (p profile) length() time.Duration { return p.offsets[len(p.offsets)-1] }

// candidates returns the starts among which the cheapest one is, in order.
func (s Search) candidates() []time.Time {
	p, step := newProfile(s.Profile), max(int64(s.Step/time.Second), 1)
	_, east := s.From.In(s.Tariff.zone).Zone()
	grid := startGrid{from: s.From, to: s.To, step: step, east: int64(east), instant: p.instant}
	grid.add(s.To)
	edges := newWalker(s.Tariff).edges(s.From, s.To.Add(p.length()))
	for _, edge := range edges {
		for _, offset := range p.offsets {
			grid.add(edge.at.Add(-offset))
		}
	}
	if s.Tariff.blocks {
		for _, at := range s.blockStarts(p, edges) {
			grid.add(at)
		}
	}
	starts := s.within(s.Begin, 0, &grid)
	finishes := s.within(s.Finish, p.length(), &grid)
	return slices.DeleteFunc(grid.starts(), func(at time.Time) bool { return !starts(at) || !finishes(at) })
}

// within adds the starts at which what is so long after them enters or leaves
// a window, and returns whether it is inside for a start.
func (s Search) within(window exact.Opt[Window], after time.Duration, grid *startGrid) func(time.Time) bool {
	w, limited := window.Get()
	if !limited {
		return func(time.Time) bool { return true }
	}
	for _, edge := range w.edges(s.From.Add(after), s.To.Add(after), s.Tariff.zone) {
		grid.add(edge.at.Add(-after))
		// A window that the clocks cut short ends before its edge: the last start
		// inside is then a step earlier.
		grid.add(edge.at.Add(-after - time.Second))
	}
	return func(at time.Time) bool { return w.Has(at.Add(after), s.Tariff.zone) }
}

// An edge is an instant at which a band, a local day or the offset of the
// clock changes.
type edge struct {
	at    time.Time
	month bool // a calendar month begins
}

// edges returns the edges of a tariff after from and up to to.
func (w *walker) edges(from, to time.Time) []edge {
	var edges []edge
	second := from.Unix()
	_, month, end := w.at(second)
	for end <= to.Unix() {
		second = end
		var next monthKey
		_, next, end = w.at(second)
		edges = append(edges, edge{time.Unix(second, 0), next != month})
		month = next
	}
	return edges
}

// A startGrid gathers starts on whole multiples of a step of the local clock,
// as it is set at the first of them.
type startGrid struct {
	from, to time.Time
	step     int64 // seconds
	east     int64 // seconds that the local clock is ahead of universal time
	instant  bool
	list     []time.Time
}

// add adds the steps before and after an instant, or the instant itself where
// it is on a step. Energy without length jumps from one price to another, so
// the last step before the jump counts too.
func (g *startGrid) add(at time.Time) {
	down := floorDiv(at.Unix()+g.east, g.step)*g.step - g.east
	g.keep(time.Unix(down, 0))
	if !at.Equal(time.Unix(down, 0)) {
		g.keep(time.Unix(down+g.step, 0))
	} else if g.instant {
		g.keep(time.Unix(down-g.step, 0))
	}
}

func (g *startGrid) keep(at time.Time) {
	if !at.Before(g.from) && !at.After(g.to) {
		g.list = append(g.list, at)
	}
}

// starts returns what was gathered and the start of the window, in order.
func (g *startGrid) starts() []time.Time {
	// The first step after From, where From itself is not on one.
	g.add(g.from)
	list := append(g.list, g.from)
	slices.SortFunc(list, time.Time.Compare)
	return slices.CompactFunc(list, time.Time.Equal)
}

// between returns the pieces that cuts make of the length from low to high.
func between(cuts []time.Duration, low, high time.Duration) [][2]time.Duration {
	cuts = append(slices.Clone(cuts), low, high)
	slices.Sort(cuts)
	cuts = slices.Compact(cuts)
	var pieces [][2]time.Duration
	for i := 1; i < len(cuts); i++ {
		if low <= cuts[i-1] && cuts[i] <= high {
			pieces = append(pieces, [2]time.Duration{cuts[i-1], cuts[i]})
		}
	}
	return pieces
}
