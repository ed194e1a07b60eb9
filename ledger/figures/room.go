package figures

import (
	"slices"
	"time"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// MostDays is longer than anything keeps, and short enough for a clock.
const MostDays = 36500

// A Freshness is how long the food waits for the machine.
type Freshness struct {
	Turns   exact.Opt[time.Time] // not given: nothing tells
	Unknown bool                 // the food bought has no such days, and none were given
	Longer  int                  // days by which what it is made into at once keeps longer
	Frozen  bool
}

// freshnessOf finds it: so many days after the purchase, at the same hour. The error is a [*FactError].
func freshnessOf(g *ledger.Ledger, q *WorthQuery, m Made, day exact.Date) (f Freshness, err error) {
	f.Frozen = q.Frozen
	if by, ok := q.UseBy.Get(); ok {
		f.Turns = exact.Some(by.Midnight(g.Settings.Zone))
		return f, nil
	}
	days, known := q.FreshDays.Get()
	if !known {
		days, known = f.recorded(g, m)
	}
	if days > MostDays {
		return f, &FactError{Fact: FreshDaysFact, Fault: TooLong, Count: days}
	}
	if known {
		zone := g.Settings.Zone
		f.Turns = exact.Some(day.AddDays(days).Midnight(zone).Add(q.begins(day, zone).Sub(day.Midnight(zone))))
	}
	return f, nil
}

// recorded is how many days the food bought waits: as it is, or longer as what
// it is made into at once.
func (f *Freshness) recorded(g *ledger.Ledger, m Made) (int, bool) {
	keeps := func(food *ledger.Food) exact.Opt[int] {
		if f.Frozen {
			return food.FrozenDays
		}
		return food.FreshDays
	}
	days, known := keeps(&g.Foods[m.Bought]).Get()
	if !known {
		f.Unknown = true
		return 0, false
	}
	made := max(keeps(&g.Foods[m.Dried]).Or(0), days)
	f.Longer = made - days
	return made, true
}

// cyclesIn is how many cycles can end before the food turns. The error is a
// [*FactError] or a [*MissingError].
func (f *Freshness) cyclesIn(q *WorthQuery, food int, free time.Time, length Length) (most exact.Opt[int], err error) {
	turns, known := f.Turns.Get()
	if q.Cycles.Given() || !known {
		return q.Cycles, nil
	}
	if err := length.needed(food); err != nil {
		return most, err
	}
	k, err := pricing.CyclesBefore(turns.Sub(free), length.Time, q.Turnaround)
	if err != nil {
		return most, &FactError{Fact: LengthFact, Fault: NotPossible, Err: err}
	}
	return exact.Some(k), nil
}

// A Use is what will be used of the dried food before its best-by.
type Use struct {
	Month        exact.Opt[exact.Ratio] // not given: no pack was used in the last 12 months
	Used         exact.Number           // in the months that Month is of; 0: Month is given
	Over         int                    // how many those are, 12 at most
	Months       exact.Opt[int]         // that a pack keeps; not given: not known
	Stock        exact.Number           // what the packs in store give
	NotYetPacked []NotYetPacked         // what will be packed before the offer is
}

// useOf finds it, of what goes into the machine first too. The error is a
// [*FactError].
func useOf(g *ledger.Ledger, q *WorthQuery, m Made, day exact.Date, yield exact.Ratio, first []Waiting) (u Use, err error) {
	if u.Months = q.KeepMonths; !u.Months.Given() {
		u.Months = g.Foods[m.Dried].KeepMonths
	}
	u.NotYetPacked = comingOf(g, m.Dried, yield, first)
	var problems problems
	if q.Use.Given() {
		n, err := m.eaten(g, UseFact, q.Use)
		problems.add(err)
		u.Month = exact.Some(exact.RatioOf(n))
	} else {
		u.asRecorded(g, m.Dried, day)
	}
	if q.Stock.Given() {
		u.Stock, err = m.eaten(g, StockFact, q.Stock)
		problems.add(err)
		return u, problems.err()
	}
	for i := range g.Packs {
		if p := &g.Packs[i]; p.Done && p.Food == m.Dried {
			u.Stock = u.Stock.Add(p.MadeLeft())
		}
	}
	return u, problems.err()
}

// Known reports whether both are known, and so set a limit.
func (u *Use) Known() bool { return u.Month.Given() && u.Months.Given() }

// Room is what can be made and still be used in time, where so much is used a
// month.
func (u *Use) Room(month exact.Ratio) exact.Number {
	most := month.Times(exact.Int(int64(u.Months.Or(0)))).Round(exact.QuantityPlaces, exact.Down)
	return most.Sub(u.Held()).Max(exact.Number{})
}

// asRecorded finds the use of a month: what was used in the last 12, over those of
// them since the food was first in store. In the months before nobody could use it.
func (u *Use) asRecorded(g *ledger.Ledger, food int, day exact.Date) {
	since := day.AddMonths(-12)
	for i := range g.Moves {
		if m := &g.Moves[i]; m.Pack >= 0 && m.Food == food && m.Reason == ledger.Used && m.Date > since {
			u.Used = u.Used.Add(m.Amount)
		}
	}
	if u.Used.IsZero() {
		return
	}
	first := day
	for i := range g.Packs {
		if p := &g.Packs[i]; p.Done && p.Food == food {
			first = min(first, g.PackDate(i))
		}
	}
	u.Over = monthsSince(first, day)
	u.Month = exact.Some(u.Used.Over(exact.Int(int64(u.Over))))
}

// monthsSince is how many calendar months two days span: 1 at least, at most 12.
func monthsSince(first, day exact.Date) int {
	n := 1
	for n < 12 && day.Month().AddMonths(-n) >= first.Month() {
		n++
	}
	return n
}

// tooMany refuses to count what nobody buys.
func tooMany(s *pricing.Sale) error {
	bounds := s.Bounds()
	if len(bounds) == 0 {
		return nil // [pricing.Decide] says so
	}
	most := slices.MinFunc(bounds, func(a, b pricing.Bound) int { return a.Packages - b.Packages }).Packages
	dried := s.Size.Mul(exact.Int(int64(most)))
	if most > MostPackages || s.MaxCycles.Or(1) > 0 && exact.Int(MostCycles).Mul(s.Load).Less(dried) {
		return &FactError{Fact: LimitFact, Fault: TooMany, Count: most}
	}
	return nil
}
