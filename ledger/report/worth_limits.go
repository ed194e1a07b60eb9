package report

import (
	"time"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// findLimits finds what keeps the number of packages down: what is eaten
// fresh, the cycles that fit before the food turns, and what will be used in
// time.
func (f *facts) findLimits() {
	f.sale.FreshUse = f.eaten("fresh", f.q.Fresh)
	f.findCycles()
	f.findUse()
}

// findCycles sets K, the cycles that can end before the food turns.
func (f *facts) findCycles() {
	if k, ok := f.q.Cycles.Get(); ok {
		f.sale.MaxCycles = exact.Some(k)
		return
	}
	turns, ok := f.turns()
	if !ok || !f.needCycle() {
		return
	}
	k, err := pricing.CyclesBefore(turns.Sub(f.free), f.cycle, f.q.Turnaround)
	if err != nil {
		f.wrong("cycle-hours", "write it as 30h", "%v", err)
		return
	}
	f.sale.MaxCycles = exact.Some(k)
}

// mostDays is longer than anything keeps, and short enough for a clock.
const mostDays = 36500

// turns is when the food turns: so many days after the midnight that the day
// of purchase begins with. It reports false where nothing tells.
func (f *facts) turns() (time.Time, bool) {
	if day, ok := f.q.UseBy.Get(); ok {
		return day.Midnight(f.g.Settings.Zone), true
	}
	days, known := f.q.FreshDays.Get()
	if !known {
		days, known = f.keepsFresh()
	}
	if days > mostDays {
		f.wrong("fresh-days", "", "%d days is more than %d", days, mostDays)
	}
	return f.day.AddDays(min(days, mostDays)).Midnight(f.g.Settings.Zone), known && f.err == nil
}

// keepsFresh is how many days the food bought waits: as it is, or longer as
// what it is made into at once.
func (f *facts) keepsFresh() (int, bool) {
	column, keeps := "fresh_days", func(food *ledger.Food) exact.Opt[int] { return food.FreshDays }
	if f.q.Frozen {
		column, keeps = "frozen_days", func(food *ledger.Food) exact.Opt[int] { return food.FrozenDays }
	}
	bought := &f.g.Foods[f.bought]
	days, known := keeps(bought).Get()
	if !known {
		f.note("%s has no %s: nothing says how long it waits, so that sets no limit (--fresh-days, --cycles)", bought.Title(), column)
	}
	if made := keeps(f.food()).Or(0); known && made > days {
		f.note("%s keeps %s longer than %s: it is made at once", f.food().Title(), counted(made-days, "day"), bought.Title())
		days = made
	}
	return days, known
}

// findUse sets what will be used before the packs' best-by: monthly use times
// the months they keep, less the stock.
func (f *facts) findUse() {
	use, keep, known := f.usage()
	if !known {
		return
	}
	f.sale.MaxMade = exact.Some(f.roomFor(use, keep))
}

// usage is the monthly use and how many months a pack keeps. It reports false,
// and says so, where one of them is unknown.
func (f *facts) usage() (use exact.Ratio, keep int, known bool) {
	keep, known = f.q.KeepMonths.Get()
	if !known {
		keep, known = f.food().KeepMonths.Get()
	}
	use, used := f.monthlyUse()
	if !known {
		f.note("%s has no keep_months: what is used in time sets no limit (--keep-months)", f.food().Title())
	}
	if !used {
		f.note("no pack of %s was used in the last 12 months: what is used in time sets no limit (--use)", f.food().Title())
	}
	return use, keep, known && used
}

// roomFor is what can be made and still be used in time.
func (f *facts) roomFor(use exact.Ratio, keep int) exact.Number {
	most := use.Times(whole(keep)).Round(exact.QuantityPlaces, exact.Down)
	return most.Sub(f.stock()).Max(exact.Number{})
}

// monthlyUse is what was used in the last 12 months over the months recorded.
func (f *facts) monthlyUse() (exact.Ratio, bool) {
	if q := f.q.Use; q.Given() {
		return exact.RatioOf(f.eaten("use", q)), true
	}
	since := f.day.AddMonths(-12)
	var sum exact.Number
	for i := range f.g.Moves {
		if m := &f.g.Moves[i]; m.Pack >= 0 && m.Food == f.dried && m.Reason == ledger.Used && m.Date > since {
			sum = sum.Add(m.Amount)
		}
	}
	if sum.IsZero() {
		return exact.Ratio{}, false
	}
	return sum.Over(whole(f.monthsRecorded())), true
}

// monthsRecorded is how many calendar months the ledger has been kept, at most
// 12.
func (f *facts) monthsRecorded() int {
	first := ledger.FirstDate(f.g.Records).Month()
	n := 1
	for n < 12 && f.day.Month().AddMonths(-n) >= first {
		n++
	}
	return n
}

// stock is what the packs in store give.
func (f *facts) stock() exact.Number {
	if q := f.q.Stock; q.Given() {
		return f.eaten("stock", q)
	}
	var sum exact.Number
	for i := range f.g.Packs {
		if p := &f.g.Packs[i]; p.Done && p.Food == f.dried {
			sum = sum.Add(p.Each.Mul(whole(p.Left())))
		}
	}
	return sum
}
