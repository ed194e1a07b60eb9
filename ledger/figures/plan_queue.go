package figures

import (
	"slices"
	"time"

	"putby/pricing"
	"putby/pricing/exact"
)

// This file counts the time of a plan without that which food in hand takes: of
// what turns by a day, the food in hand goes before the offers, so an offer has
// what is left until it turns.

// farAway stands for a food that never turns.
const farAway = 10 * 366 * 24 * time.Hour

// left is how long an offer that turns at a time, or never, has the machine.
func (p *PlanResult) left(f *Facts, turns exact.Opt[time.Time]) time.Duration {
	at, known := turns.Get()
	if !known || f.Query.Cycles.Given() {
		return farAway
	}
	q := f.queue(turns)
	return min(at.Sub(p.from.Add(q.ahead())), farAway)
}

// freeFor is when the machine is free for an offer that is first in its order:
// behind the food in hand that turns no later.
func (p *PlanResult) freeFor(f *Facts, frozen bool) time.Time {
	q := f.Queue
	if frozen {
		q = f.queue(f.frozenUntil())
	}
	return p.from.Add(q.ahead())
}

// candidates are the offers as they compete. Food in hand may take more time
// between two of them than lies between the days on which they turn: so that the
// later one is in time, the sooner one then has no longer than that.
func (p *PlanResult) candidates() []pricing.Candidate {
	list, order := make([]pricing.Candidate, len(p.Offers)), make([]int, len(p.Offers))
	turns := func(i int) time.Time {
		f := p.Offers[i]
		if at, known := f.Freshness.Turns.Get(); known && !f.Query.Cycles.Given() {
			return at
		}
		return p.from.Add(farAway)
	}
	for i := range list {
		list[i], order[i] = p.candidate(i), i
	}
	slices.SortStableFunc(order, func(a, b int) int { return turns(b).Compare(turns(a)) })
	least := 2 * farAway
	for n, i := range order {
		c := &list[i]
		if n > 0 && turns(i).Before(turns(order[n-1])) && c.Due >= least {
			c.Due = least - 1 // sooner, and so before it
		}
		if c.Cycle <= c.Due {
			least = min(least, c.Due)
		}
	}
	return list
}
