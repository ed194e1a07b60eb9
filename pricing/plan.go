package pricing

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"putby/pricing/exact"
)

// A Candidate is one of several foods on offer at once, to be dried in one
// machine.
type Candidate struct {
	Sale  Sale          // its MaxCycles, where given, holds beside the times
	Cycle time.Duration // how long one of its cycles takes; above 0
	Due   time.Duration // when it turns, from when the machine is free

	// Frozen is when what is frozen at once must be dried, from when the machine
	// is free; not given: it is not frozen.
	Frozen exact.Opt[time.Duration]
	Litres exact.Ratio // of the freezer, that a unit of it takes; above 0 where Frozen is given
}

// Shared is what several offers share.
type Shared struct {
	Turnaround time.Duration          // between two cycles
	Freezer    exact.Number           // litres free in the freezer; 0: nothing is frozen
	Budget     exact.Opt[exact.Money] // most that all the food may cost
}

// A Choice is what a [Plan] says of one candidate.
type Choice struct {
	Candidate int          // its index
	Row       Row          // how many packages, and what they come to
	Frozen    exact.Number // the amount of it that waits in the freezer
	// Start and End are when its first cycle begins and its last one ends,
	// from when the machine is free; both 0 where nothing is dried.
	Start, End time.Duration
}

// A Stretch is cycles of one food that follow each other.
type Stretch struct {
	Candidate  int           // its position
	First      int           // of the food's cycles, from 0
	Cycles     int           // 1 at least
	Frozen     bool          // what they dry comes out of the freezer
	Start, End time.Duration // from when the machine is free
}

// A Plan says which of several offers to buy and in what order to dry them.
type Plan struct {
	Choices []Choice      // what to buy: the foods to dry in their order, then those eaten fresh alone
	Order   []Stretch     // of the machine
	Saving  exact.Ratio   // of all together
	Busy    time.Duration // when the last cycle ends
	// Short is the most that a better plan could save beyond this one: above 0
	// where there was too much to search.
	Short exact.Ratio
}

// MakePlan returns the plan of the greatest total saving, and of equal ones one
// that ends earliest. It is exact under these assumptions: all foods are in
// hand when the machine is free; what is frozen is frozen then, and stays in the
// freezer until its cycle begins, so all of it has to fit; a cycle dries one
// food; a turnaround lies between cycles; and what a food's k-th cycle costs in
// electricity depends on k and its load, not on when it runs in the plan.
//
// For a fixed set of cycles, drying what is due first is in time whenever any
// order is (Jackson 1955: earliest due date first); so a set is in time if, for
// every date, what is due by it takes no longer. Foods are taken in order of
// Due, and of the ways to have taken them each is kept that none beats in
// everything: in what it saves and in the time, room and money that it leaves.
// Where those are too many, Short says what was given up at most. An error names the
// candidate and is one of [Decide]'s.
func MakePlan(candidates []Candidate, s Shared) (Plan, error) {
	return makePlan(candidates, s, mostLabels)
}

// mostLabels is how many ways to have taken some foods are kept.
const mostLabels = 3000

func makePlan(candidates []Candidate, s Shared, keep int) (Plan, error) {
	p := planner{candidates: candidates, Shared: s, keep: keep, options: make([][]option, len(candidates))}
	for i, c := range candidates {
		options, err := c.options(s)
		if err != nil {
			return Plan{}, fmt.Errorf("candidate %d: %w", i+1, err)
		}
		p.options[i] = options
		p.order = append(p.order, i)
		p.dates = append(p.dates, c.Due, c.Frozen.Or(c.Due))
	}
	slices.Sort(p.dates)
	p.dates = slices.Compact(p.dates)
	slices.SortStableFunc(p.order, func(i, j int) int { return cmp.Compare(candidates[i].Due, candidates[j].Due) })
	labels := []*label{{loads: make([]time.Duration, len(p.dates))}}
	for taken := range p.order {
		labels = p.extend(labels, taken)
	}
	return p.plan(labels[0]), nil
}

// A planner searches for a plan.
type planner struct {
	Shared
	candidates []Candidate
	options    [][]option             // by candidate
	order      []int                  // of the candidates, as they turn
	dates      []time.Duration        // by which something must be dry, from when the machine is free; rising
	keep       int                    // labels after each food, at most
	given      exact.Opt[exact.Ratio] // the most that any plan saves of what was not looked at
}

// A label is one way to have taken the foods so far.
type label struct {
	loads  []time.Duration // by date: the cycles that are due by it, each with a turnaround
	room   exact.Number    // litres of the freezer
	paid   exact.Money     // for all the food so far
	saving exact.Ratio     // money against the shelf so far; 0: nothing is bought
	food   int             // index of the candidate that option is of; of the first label none
	option *option
	before *label // nil for the first, which has taken none
}

// with is a label with one more option, false where it leaves too little time,
// room or money.
func (p *planner) with(l *label, food int, o *option) (*label, bool) {
	n := &label{room: l.room.Add(o.room), paid: l.paid.Add(o.row.Cost.Food), food: food, option: o, before: l}
	if budget, given := p.Budget.Get(); given && n.paid.Cmp(budget) > 0 || p.Freezer.Less(n.room) {
		return nil, false
	}
	c := &p.candidates[food]
	each := c.Cycle + p.Turnaround
	n.loads = slices.Clone(l.loads)
	for i, date := range p.dates {
		if date >= c.Due {
			n.loads[i] += time.Duration(o.fresh) * each
		}
		if o.frozen > 0 && date >= c.Frozen.Or(0) {
			n.loads[i] += time.Duration(o.frozen) * each
		}
		// The turnaround after the last cycle may lie beyond the date. Where nothing is
		// due any date will do, one that is past too.
		if n.loads[i] > 0 && n.loads[i] > date+p.Turnaround {
			return nil, false
		}
	}
	n.saving = l.saving.Add(o.row.Saving)
	return n, true
}

// extend returns the ways to have taken one more food that no other beats, what
// saves most first and of equals what ends earliest.
func (p *planner) extend(labels []*label, taken int) []*label {
	food := p.order[taken]
	var next []*label
	for i := range p.options[food] {
		for _, l := range labels {
			if n, ok := p.with(l, food, &p.options[food][i]); ok {
				next = append(next, n)
			}
		}
	}
	// The first is the best so far: makePlan ends with it, and cut never drops it.
	slices.SortStableFunc(next, func(a, b *label) int {
		return cmp.Or(b.saving.Cmp(a.saving), cmp.Compare(a.busy(), b.busy()))
	})
	open, _ := slices.BinarySearch(p.dates, p.candidates[food].Due) // no later food is due before
	kept := next[:0:0]
	for _, l := range next {
		if !slices.ContainsFunc(kept, func(k *label) bool { return p.beats(k, l, open) }) {
			kept = append(kept, l)
		}
	}
	return p.cut(kept, taken)
}

// busy is how long the machine is, with a turnaround after each cycle.
func (l *label) busy() time.Duration {
	if len(l.loads) == 0 {
		return 0
	}
	return l.loads[len(l.loads)-1]
}

// beats reports whether a label that saves as much leaves as much of everything
// that later foods may want: of the time until each date still open.
func (p *planner) beats(a, b *label, open int) bool {
	for i := open; i < len(a.loads); i++ {
		if a.loads[i] > b.loads[i] {
			return false
		}
	}
	return !b.room.Less(a.room) && (!p.Budget.Given() || a.paid.Cmp(b.paid) <= 0)
}

// cut leaves no more labels than are kept: that which saves most, which stays the
// first, and those of which most may come. What the others may come to is remembered.
func (p *planner) cut(labels []*label, taken int) []*label {
	if len(labels) <= p.keep {
		return labels
	}
	hopes := make(map[*label]exact.Ratio, len(labels))
	for _, l := range labels {
		hopes[l] = p.hope(l, taken)
	}
	rest := slices.Clone(labels[1:])
	slices.SortStableFunc(rest, func(a, b *label) int { return hopes[b].Cmp(hopes[a]) })
	kept := append(labels[:1:1], rest[:p.keep-1]...)
	// The first that is dropped has the greatest hope of those: [Plan.Short] is measured by it.
	if most := hopes[rest[p.keep-1]]; most.Cmp(p.given.Or(most)) >= 0 {
		p.given = exact.Some(most)
	}
	return kept
}

// hope is more than a label can come to, or as much: each later food as if it
// alone took what is left.
func (p *planner) hope(l *label, taken int) exact.Ratio {
	sum := l.saving
	for _, food := range p.order[taken+1:] {
		var best exact.Ratio
		for i := range p.options[food] {
			o := &p.options[food][i]
			if o.row.Saving.Cmp(best) <= 0 {
				continue
			}
			if _, ok := p.with(l, food, o); ok {
				best = o.row.Saving
			}
		}
		sum = sum.Add(best)
	}
	return sum
}
