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
	Sale  Sale          // its MaxCycles, where given, holds beside Due
	Cycle time.Duration // how long one of its cycles takes; above 0
	Due   time.Duration // when it turns, from when the machine is free
}

// A Choice is what a [Plan] says of one candidate.
type Choice struct {
	Candidate int // its index
	Row       Row // how many packages, and what they come to
	// Start and End are when its first cycle begins and its last one ends,
	// from when the machine is free; both 0 where nothing is dried.
	Start, End time.Duration
}

// A Plan says which of several offers to buy and in what order to dry them.
type Plan struct {
	Choices []Choice      // what to buy: the foods to dry in their order, then those eaten fresh alone
	Saving  exact.Ratio   // of all together
	Busy    time.Duration // when the last cycle ends
}

// MakePlan returns the plan of the greatest total saving, and of equal ones one
// that ends earliest. It is exact under these assumptions: all foods are in
// hand when the machine is free; a cycle dries one food; a turnaround lies
// between cycles; and what a food's k-th cycle costs in electricity depends on
// k and its load, not on when it runs in the plan.
//
// For a fixed set of cycles, drying what is due first is in time whenever any
// order is (Jackson 1955: earliest due date first); so the foods are taken in
// order of Due, and for each length of time that the machine can be busy the
// greatest saving is kept. An error names the candidate and is one of
// [Decide]'s, or [ErrTooMany].
func MakePlan(candidates []Candidate, turnaround time.Duration) (Plan, error) {
	order := make([]int, len(candidates))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(candidates[i].Due, candidates[j].Due) })
	ends := []*label{{}}
	for _, i := range order {
		options, err := candidates[i].options(turnaround)
		if err != nil {
			return Plan{}, fmt.Errorf("candidate %d: %w", i+1, err)
		}
		step := step{i, candidates[i], turnaround}
		if len(ends)*len(options) > maxLabels {
			return Plan{}, fmt.Errorf("candidate %d: %w", i+1, ErrTooMany)
		}
		ends = step.extend(ends, options)
	}
	return ends[len(ends)-1].plan(turnaround), nil
}

// maxLabels bounds the work for one candidate.
const maxLabels = 2_000_000

// options returns the rows of a candidate that are worth a place in a plan, by
// cycles: each saves more than any with as many cycles or fewer. The first is
// the best that dries nothing.
func (c Candidate) options(turnaround time.Duration) ([]Row, error) {
	cycles, err := CyclesBefore(c.Due, c.Cycle, turnaround)
	if err != nil {
		return nil, err
	}
	c.Sale.MaxCycles = exact.Some(min(cycles, c.Sale.MaxCycles.Or(cycles)))
	d, err := Decide(c.Sale)
	if err != nil {
		return nil, err
	}
	options := []Row{{}}
	for r := range d.Rows() {
		last := &options[len(options)-1]
		switch {
		case r.Saving.Cmp(last.Saving) <= 0:
		case r.Cycles == last.Cycles:
			*last = r
		default:
			options = append(options, r)
		}
	}
	return options, nil
}

// A label is one way to have taken the foods so far: how long the machine is
// busy, counting a turnaround after every cycle, and what is saved.
type label struct {
	busy   time.Duration
	saving exact.Ratio
	food   int
	row    *Row
	before *label // nil for the first, which has taken none
}

// A step takes one more food.
type step struct {
	food       int
	candidate  Candidate
	turnaround time.Duration
}

// extend returns the labels after the step that no other beats: in order of
// busy time, each saving more than those before it.
func (s step) extend(ends []*label, options []Row) []*label {
	var next []*label
	for i := range options {
		r := &options[i]
		takes := time.Duration(r.Cycles) * (s.candidate.Cycle + s.turnaround)
		for _, l := range ends {
			busy := l.busy + takes
			if r.Cycles > 0 && busy > s.candidate.Due+s.turnaround {
				break
			}
			next = append(next, &label{busy, l.saving.Add(r.Saving), s.food, r, l})
		}
	}
	slices.SortStableFunc(next, func(a, b *label) int {
		return cmp.Or(cmp.Compare(a.busy, b.busy), b.saving.Cmp(a.saving))
	})
	kept := next[:0]
	for _, l := range next {
		if len(kept) == 0 || kept[len(kept)-1].saving.Cmp(l.saving) < 0 {
			kept = append(kept, l)
		}
	}
	return kept
}

// plan follows a label back to the first and lays the cycles out in time.
func (l *label) plan(turnaround time.Duration) Plan {
	p := Plan{Saving: l.saving}
	var dry, fresh []Choice
	for ; l.before != nil; l = l.before {
		choice := Choice{Candidate: l.food, Row: *l.row}
		switch {
		case l.row.Cycles > 0:
			choice.Start, choice.End = l.before.busy, l.busy-turnaround
			p.Busy = max(p.Busy, choice.End)
			dry = append(dry, choice)
		case l.row.Packages > 0:
			fresh = append(fresh, choice)
		}
	}
	slices.Reverse(dry)
	slices.Reverse(fresh)
	p.Choices = slices.Concat(dry, fresh)
	return p
}
