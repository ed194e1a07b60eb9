package pricing

import (
	"cmp"
	"slices"
	"time"

	"putby/pricing/exact"
)

// An option is one number of packages of a candidate, and how many of its
// cycles, the last ones, dry it out of the freezer.
type option struct {
	row           *Row
	fresh, frozen int          // cycles
	amount        exact.Number // of the food, in base units, that waits in the freezer; 0: none
	room          exact.Number // litres of the freezer that the amount takes
}

// options returns what is worth a place in a plan: what no other beats that
// asks for no more of the machine, the freezer and the budget. The first buys
// none. Fewer packages come first.
func (c Candidate) options(s Shared) ([]option, error) {
	inTime, err := CyclesBefore(c.Due, c.Cycle, s.Turnaround)
	if err != nil {
		return nil, err
	}
	late := c.frozenCycles(s)
	// c is a copy: the caller's sale keeps its limit.
	c.Sale.MaxCycles = exact.Some(min(inTime+late, c.Sale.MaxCycles.Or(inTime+late)))
	d, err := Decide(c.Sale)
	if err != nil {
		return nil, err
	}
	options := []option{{row: &Row{}}}
	for r := range d.Rows() {
		if r.Saving.Sign() <= 0 { // it adds nothing to a sum, and takes room and time
			continue
		}
		// What is not in time has to be frozen, and more may be: that leaves the time
		// before Due to others.
		for frozen := max(0, r.Cycles-inTime); frozen <= min(late, r.Cycles); frozen++ {
			o := option{row: &r, fresh: r.Cycles - frozen, frozen: frozen}
			if frozen > 0 {
				o.amount = r.Dried.Sub(c.Sale.Load.Mul(exact.Int(int64(o.fresh))))
				o.room = c.Litres.Times(o.amount).Round(exact.QuantityPlaces, exact.HalfEven)
			}
			if s.Freezer.Less(o.room) {
				break // with more cycles frozen it takes more room yet
			}
			if !slices.ContainsFunc(options, func(k option) bool { return k.beats(&o, s) }) {
				// The first is never beaten: any food may be left out.
				options = slices.DeleteFunc(options, func(k option) bool { return k.row.Packages > 0 && o.beats(&k, s) })
				options = append(options, o)
			}
		}
	}
	return options, nil
}

// frozenCycles is how many cycles can dry a candidate out of the freezer at
// most: as many as there is time for, and room for what goes into them.
func (c *Candidate) frozenCycles(s Shared) int {
	by, given := c.Frozen.Get()
	load := c.Litres.Times(c.Sale.Load)
	if !given || by <= c.Due || s.Freezer.Sign() <= 0 || load.Sign() <= 0 {
		return 0
	}
	cycles, err := CyclesBefore(by, c.Cycle, s.Turnaround)
	if err != nil {
		return 0
	}
	fit, ok := exact.RatioOf(s.Freezer).Quo(load).Ceil().Int64()
	if !ok {
		return cycles
	}
	return min(cycles, int(min(fit, MaxCycles)))
}

// beats reports whether an option saves as much as another and asks for no more.
func (o *option) beats(other *option, s Shared) bool {
	return o.fresh <= other.fresh && o.frozen <= other.frozen && !other.room.Less(o.room) &&
		(!s.Budget.Given() || o.row.Cost.Food.Cmp(other.row.Cost.Food) <= 0) &&
		o.row.Saving.Cmp(other.row.Saving) >= 0
}

// plan follows a label back to the first and lays the cycles out in time.
func (p *planner) plan(best *label) Plan {
	plan := Plan{Saving: best.saving}
	if given, cut := p.given.Get(); cut && given.Cmp(best.saving) > 0 {
		plan.Short = given.Sub(best.saving)
	}
	var all []Choice
	for l := best; l.before != nil; l = l.before {
		if l.option.row.Packages > 0 {
			all = append(all, Choice{Candidate: l.food, Row: *l.option.row, Frozen: l.option.amount})
			plan.Order = append(plan.Order, p.stretches(l)...)
		}
	}
	slices.Reverse(all)
	// Earliest due date first, as [MakePlan] took for granted when it found the set in time.
	slices.SortStableFunc(plan.Order, func(a, b Stretch) int {
		return cmp.Or(cmp.Compare(p.due(&a), p.due(&b)), cmp.Compare(p.turn(a.Candidate), p.turn(b.Candidate)))
	})
	at := time.Duration(0)
	for i := range plan.Order {
		s := &plan.Order[i]
		takes := time.Duration(s.Cycles) * (p.candidates[s.Candidate].Cycle + p.Turnaround)
		s.Start, s.End = at, at+takes-p.Turnaround // dry before its last turnaround, which others wait for
		at += takes
		plan.Busy = s.End
	}
	plan.Choices = inOrder(all, plan.Order)
	return plan
}

// turn is a candidate's place among those that turn.
func (p *planner) turn(candidate int) int { return slices.Index(p.order, candidate) }

// due is when a stretch must end.
func (p *planner) due(s *Stretch) time.Duration {
	c := &p.candidates[s.Candidate]
	if s.Frozen {
		return c.Frozen.Or(c.Due)
	}
	return c.Due
}

// stretches are the cycles that a label adds, not laid out yet.
func (p *planner) stretches(l *label) (list []Stretch) {
	if o := l.option; o.fresh > 0 {
		list = append(list, Stretch{Candidate: l.food, Cycles: o.fresh})
	}
	if o := l.option; o.frozen > 0 {
		list = append(list, Stretch{Candidate: l.food, First: o.fresh, Cycles: o.frozen, Frozen: true})
	}
	return list
}

// inOrder tells each choice when its cycles run: those that are dried come
// first, as their first cycles do.
func inOrder(all []Choice, order []Stretch) []Choice {
	for i := range all {
		c := &all[i]
		for _, s := range order {
			if s.Candidate != c.Candidate {
				continue
			}
			if s.First == 0 {
				c.Start = s.Start
			}
			c.End = s.End
		}
	}
	slices.SortStableFunc(all, func(a, b Choice) int {
		if dries := cmp.Compare(min(b.Row.Cycles, 1), min(a.Row.Cycles, 1)); dries != 0 {
			return dries
		}
		return cmp.Compare(a.Start, b.Start)
	})
	return all
}
