package energy

import (
	"slices"
	"time"

	"putby/pricing/exact"
)

// A dayKind is all that a tariff wants to know of a local date: two dates of
// one kind have the same bands at the same readings of the clock.
type dayKind struct {
	from    exact.Date // the newest From not after the date, or exact.NoDate
	month   time.Month
	weekday time.Weekday
	holiday bool
}

// kind returns the kind of a local date.
func (t *Tariff) kind(d exact.Date) dayKind {
	at, found := slices.BinarySearch(t.froms, d)
	if found {
		at++
	}
	from := exact.NoDate
	if at > 0 {
		from = t.froms[at-1]
	}
	_, month, _ := d.Civil()
	return dayKind{from, month, d.Weekday(), t.holidays[d]}
}

// A dayPlan is a local day cut at the readings of the clock where the bands
// change, in order; the last segment ends at 24:00.
type dayPlan []segment

// A segment is a stretch of the local clock with the same bands throughout.
type segment struct {
	end    int64 // seconds after midnight, exclusive
	steps  []step
	hourly bool // a band of them is
}

// A step is a band and the use of the month from which it holds. The steps of
// a segment rise; each holds up to the next. No steps: no band holds.
type step struct {
	above exact.Number // kWh of the month; 0: from the first
	band  int          // index in the tariff
}

// plan works a kind of day out.
func (t *Tariff) plan(k dayKind) dayPlan {
	var rows []int
	edges := []int64{DayEnd.seconds()} // walker.at relies on a segment that ends there
	for _, i := range t.from[k.from] {
		b := &t.bands[i]
		if !b.Months.Has(int(k.month)) || !b.Days.Has(k.weekday, k.holiday) {
			continue
		}
		rows = append(rows, i)
		edges = append(edges, b.Start.seconds(), b.End.seconds())
	}
	slices.Sort(edges)
	var plan dayPlan
	start := int64(0)
	for _, end := range slices.Compact(edges) {
		if end == start {
			continue
		}
		// Between two edges nothing changes, so its first second tells of all of it.
		steps := t.stepsAt(rows, start)
		if last := len(plan) - 1; last >= 0 && slices.EqualFunc(plan[last].steps, steps, sameStep) {
			plan[last].end = end
		} else {
			hourly := slices.ContainsFunc(steps, func(s step) bool { return t.bands[s.band].Hourly })
			plan = append(plan, segment{end, steps, hourly})
		}
		start = end
	}
	return plan
}

func sameStep(a, b step) bool { return a.band == b.band }

// stepsAt returns the bands among rows that hold at a second of the day: for
// each amount of use the first in file order.
func (t *Tariff) stepsAt(rows []int, second int64) []step {
	var steps []step
	for _, i := range rows {
		if b := &t.bands[i]; b.covers(second) {
			steps = append(steps, step{b.Above, i})
			if !t.blocks { // all hold from the first kWh, so that the first in the file is the one
				return steps
			}
		}
	}
	// Stable, and the first of equal ones kept: that is the first in the file.
	slices.SortStableFunc(steps, func(a, b step) int { return a.above.Cmp(b.above) })
	return slices.CompactFunc(steps, func(a, b step) bool { return a.above.Equal(b.above) })
}

// reached returns the place of the step that holds at a use, or -1.
func (s *segment) reached(use exact.Ratio) int {
	for i, step := range s.steps {
		if exact.RatioOf(step.above).Cmp(use) > 0 {
			return i - 1
		}
	}
	return len(s.steps) - 1
}
