package figures

import (
	"cmp"
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// A Stretch is a row of the month report: a period, or the part of a year that
// was asked for, and what moved in it.
type Stretch struct {
	Period
	Months int // whole calendar months in it; 0 for a week
	Tally
}

// PerMonth is money shared by the months of a stretch that has some.
func (s *Stretch) PerMonth(m exact.Money) exact.Ratio { return m.Per(exact.Int(int64(s.Months))) }

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
// nil when nothing is recorded and no dates are asked for. The error is a
// [*FactError] or [ErrUnbalanced].
func newCalendar(g *ledger.Ledger, q Query, scope Scope, each Each) (*calendar, error) {
	from, to, recorded := moneyDays(g)
	if !recorded && (q.From == exact.NoDate || q.To == exact.NoDate) {
		return nil, nil
	}
	if err := within(q, from, to); err != nil {
		return nil, err
	}
	// Shown is from first to last; tallied is all that is recorded, too, since the store
	// of a period is what came in and went out in all before it.
	first, last := cmp.Or(q.From, from), cmp.Or(q.To, to)
	c := &calendar{each: each, since: from}
	if !recorded {
		from, to = first, last
	}
	unit := each
	if each != EachWeek {
		unit = EachMonth
	}
	t, err := tallyUp(g, scope, unit.periods(min(from, first), max(to, last)))
	if err != nil {
		return nil, err
	}
	c.tallier, c.first, c.last = t, t.at(first), t.at(last)
	return c, nil
}

// within refuses dates that lie wholly beyond the records, as [moneyDays] has them.
func within(q Query, first, last exact.Date) error {
	switch {
	case first > last: // nothing is recorded
	case q.From > last && q.To == exact.NoDate:
		return &FactError{Fact: FromFact, Fault: Beyond, Day: q.From, Than: last}
	case q.To != exact.NoDate && q.To < first && q.From == exact.NoDate:
		return &FactError{Fact: ToFact, Fault: Beyond, Day: q.To, Than: first}
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
	for i := range g.Receipts.Len() {
		see(g.Records.ReceiptDate(i), true)
	}
	for i := range g.Batches {
		see(g.Batches[i].Date, true)
	}
	for i := range g.Runs {
		see(g.Runs[i].Date, g.Runs[i].Done)
	}
	for i := range g.Packs {
		see(g.Records.PackDate(i), g.Packs[i].Done)
	}
	for i := range g.Moves {
		see(g.Moves[i].Date, true)
	}
	return first, last, first <= last
}

// stretches returns the rows that are shown.
func (c *calendar) stretches() []Stretch {
	var list []Stretch
	for i := c.first; i <= c.last; i++ {
		s := c.stretch(i)
		if c.each == EachYear {
			year := yearOf(s.From)
			if n := len(list) - 1; n >= 0 && list[n].Key == year.Key {
				list[n] = list[n].then(s)
				continue
			}
			s.Key = year.Key
		}
		list = append(list, s)
	}
	return list
}

func (c *calendar) stretch(i int) Stretch {
	s := Stretch{Period: c.periods[i], Tally: c.tallies[i]}
	if c.each != EachWeek {
		s.Months = 1
	}
	return s
}

// then adds the stretch that follows.
func (s Stretch) then(next Stretch) Stretch {
	s.Tally, s.To, s.Months = s.Tally.Plus(&next.Tally), next.To, s.Months+next.Months
	return s
}

// whole adds all that is shown.
func (c *calendar) whole() Stretch { return c.sum(c.first, c.last) }

// sum adds the periods from one position to another.
func (c *calendar) sum(first, last int) Stretch {
	sum := c.stretch(first)
	for i := first + 1; i <= last; i++ {
		sum = sum.then(c.stretch(i))
	}
	return sum
}

// between adds the periods from that of one day to that of another; false when
// nothing was recorded yet.
func (c *calendar) between(from, to exact.Date) (Stretch, bool) {
	if to < c.since || to < c.periods[0].From {
		return Stretch{}, false
	}
	first, last := c.periods[0].From, c.periods[len(c.periods)-1].To
	return c.sum(c.at(max(from, first)), c.at(min(to, last))), true
}

// before returns what moved in the period before a stretch; for a year the
// same months of the year before it, so that like is set beside like.
func (c *calendar) before(s Stretch) (Stretch, string, bool) {
	if c.each == EachYear {
		from, to := s.From.AddMonths(-12), monthEnd(s.To.AddMonths(-12))
		sum, ok := c.between(from, to)
		key := yearOf(from).Key
		if s.Months < 12 {
			key = monthOf(from).Key + " to " + monthOf(to).Key
		}
		return sum, key, ok
	}
	p := c.each.of(s.From.AddDays(-1))
	sum, ok := c.between(p.From, p.To)
	return sum, p.Key, ok
}

// yearBefore returns what moved in the same month or week a year before.
func (c *calendar) yearBefore(s Stretch) (Stretch, string, bool) {
	p, ok := c.each.yearBefore(s.Period)
	if !ok {
		return Stretch{}, "", false
	}
	sum, ok := c.between(p.From, p.To)
	return sum, p.Key, ok
}

// spendingNotes gathers the notes about what was spent in what is shown.
func (c *calendar) spendingNotes() (all Notes) {
	all.Add(slices.Concat(c.bought[c.first : c.last+1]...)...)
	if c.g.AsOf < c.periods[c.last].To {
		all.Add(Note{Kind: RecordsEnd, Date: c.g.AsOf})
	}
	return all
}

// shownNotes gathers all notes of what is shown.
func (c *calendar) shownNotes() Notes {
	all := c.spendingNotes()
	all.Add(slices.Concat(c.notes[c.first : c.last+1]...)...)
	return all
}

// all returns every period of the records, whatever is shown, and all notes
// about them.
func (c *calendar) all() (list []Stretch, notes Notes) {
	for i := range c.periods {
		list = append(list, c.stretch(i))
	}
	notes.Add(slices.Concat(c.bought...)...)
	notes.Add(slices.Concat(c.notes...)...)
	return list, notes
}
