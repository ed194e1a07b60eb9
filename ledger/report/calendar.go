package report

import (
	"fmt"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// A stretch is a row of the month report: a period, or the part of a year that
// was asked for, and what moved in it.
type stretch struct {
	period
	months int // whole calendar months in it; 0 for a week
	tally
}

// A calendar is what moved in each period of all that is recorded, and which
// of them a report shows.
type calendar struct {
	*tallier
	each        Each
	first, last int        // positions of the periods shown
	since       exact.Date // of the first record that moves money; LastDate where there is none
}

// newCalendar tallies the ledger by months, or weeks, from the first that moves
// money to the last, or as far as the query widens or narrows that. It returns
// nil when nothing is recorded and no dates are asked for.
func newCalendar(g *ledger.Ledger, q figures.Query, food int, each Each) (*calendar, error) {
	from, to, recorded := moneyDays(g)
	if !recorded && (q.From == exact.NoDate || q.To == exact.NoDate) {
		return nil, nil
	}
	if err := within(q, from, to, recorded); err != nil {
		return nil, err
	}
	first, last := from, to
	if q.From != exact.NoDate {
		first = q.From
	}
	if q.To != exact.NoDate {
		last = q.To
	}
	c := &calendar{each: each, since: from}
	if !recorded {
		from, to = first, last
	}
	unit := each
	if each != EachWeek {
		unit = EachMonth
	}
	t, err := tallyUp(g, food, unit.periods(min(from, first), max(to, last)))
	if err != nil {
		return nil, err
	}
	c.tallier, c.first, c.last = t, t.at(first), t.at(last)
	return c, nil
}

// within refuses dates that lie wholly beyond the records.
func within(q figures.Query, first, last exact.Date, recorded bool) error {
	switch {
	case !recorded:
	case q.From > last && q.To == exact.NoDate:
		return &QueryError{"from", fmt.Sprintf("%v is after the last record that moves money, of %v", q.From, last), "give --to as well to see months without records"}
	case q.To != exact.NoDate && q.To < first && q.From == exact.NoDate:
		return &QueryError{"to", fmt.Sprintf("%v is before the first record that moves money, of %v", q.To, first), "give --from as well to see months without records"}
	}
	return nil
}

// moneyDays returns the days of the first and of the last record that moves
// money, and false when there is none.
func moneyDays(g *ledger.Ledger) (first, last exact.Date, any bool) {
	first, last = exact.LastDate, exact.NoDate
	see := func(d exact.Date, counts bool) {
		if counts && d <= g.AsOf {
			first, last = min(first, d), max(last, d)
		}
	}
	for i := range g.Receipts {
		see(g.Receipts[i].Date, true)
	}
	for i := range g.Batches {
		see(g.Batches[i].Date, true)
	}
	for i := range g.Runs {
		see(g.Runs[i].Date, g.Runs[i].Done)
	}
	for i := range g.Packs {
		see(g.Records.Packs[i].Date, g.Packs[i].Done)
	}
	for i := range g.Moves {
		see(g.Moves[i].Date, true)
	}
	return first, last, first <= last
}

// stretches returns the rows that are shown.
func (c *calendar) stretches() []stretch {
	var list []stretch
	for i := c.first; i <= c.last; i++ {
		s := c.stretch(i)
		if c.each == EachYear {
			year := yearOf(s.from)
			if n := len(list) - 1; n >= 0 && list[n].key == year.key {
				list[n] = list[n].then(s)
				continue
			}
			s.key = year.key
		}
		list = append(list, s)
	}
	return list
}

func (c *calendar) stretch(i int) stretch {
	s := stretch{period: c.periods[i], tally: c.tallies[i]}
	if c.each != EachWeek {
		s.months = 1
	}
	return s
}

// then adds the stretch that follows.
func (s stretch) then(next stretch) stretch {
	s.tally, s.to, s.months = s.tally.plus(&next.tally), next.to, s.months+next.months
	return s
}

// whole adds all that is shown.
func (c *calendar) whole() stretch { return c.sum(c.first, c.last) }

// sum adds the periods from one position to another.
func (c *calendar) sum(first, last int) stretch {
	sum := c.stretch(first)
	for i := first + 1; i <= last; i++ {
		sum = sum.then(c.stretch(i))
	}
	return sum
}

// between adds the periods from that of one day to that of another; false when
// nothing was recorded yet.
func (c *calendar) between(from, to exact.Date) (stretch, bool) {
	if to < c.since || to < c.periods[0].from {
		return stretch{}, false
	}
	first, last := c.periods[0].from, c.periods[len(c.periods)-1].to
	return c.sum(c.at(max(from, first)), c.at(min(to, last))), true
}

// before returns what moved in the period before a stretch; for a year the
// same months of the year before it, so that like is set beside like.
func (c *calendar) before(s stretch) (stretch, string, bool) {
	if c.each == EachYear {
		from, to := s.from.AddMonths(-12), monthEnd(s.to.AddMonths(-12))
		sum, ok := c.between(from, to)
		key := yearOf(from).key
		if s.months < 12 {
			key = monthOf(from).key + " to " + monthOf(to).key
		}
		return sum, key, ok
	}
	p := c.each.of(s.from.AddDays(-1))
	sum, ok := c.between(p.from, p.to)
	return sum, p.key, ok
}

// yearBefore returns what moved in the same month or week a year before.
func (c *calendar) yearBefore(s stretch) (stretch, string, bool) {
	p, ok := c.each.yearBefore(s.period)
	if !ok {
		return stretch{}, "", false
	}
	sum, ok := c.between(p.from, p.to)
	return sum, p.key, ok
}

// spendingDoubts gathers the notes about what was spent in what is shown.
func (c *calendar) spendingDoubts() (all doubts) {
	for i := c.first; i <= c.last; i++ {
		all.add(c.bought[i]...)
	}
	if c.g.AsOf < c.periods[c.last].to {
		all.addf("records count up to %v; later days stand empty", c.g.AsOf)
	}
	return all
}

// doubts gathers all notes of what is shown.
func (c *calendar) doubts() doubts {
	all := c.spendingDoubts()
	for i := c.first; i <= c.last; i++ {
		all.add(c.notes[i]...)
	}
	return all
}
