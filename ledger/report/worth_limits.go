package report

import (
	"time"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// limits finds what keeps the number of packages down: what is eaten fresh,
// the cycles that fit before the food turns, and what will be used in time.
func (f *facts) limits() {
	if q := f.q.Fresh; q.Given() || q.Sign() != 0 {
		f.sale.FreshUse = f.eaten("fresh", q)
	}
	f.cyclesInTime()
	f.usedInTime()
}

// eaten reads an amount in the dried food's unit, or in that of the food
// bought.
func (f *facts) eaten(option string, q exact.Quantity) exact.Number {
	if n, err := f.food().InBasis(q); err == nil {
		return n
	}
	return f.amount(option, &f.g.Foods[f.bought], q).Mul(f.ratio)
}

// cyclesInTime is K of design section 6.
func (f *facts) cyclesInTime() {
	if k, ok := f.q.Cycles.Get(); ok {
		f.sale.MaxCycles = exact.Some(k)
		return
	}
	bought, column, flag := &f.g.Foods[f.bought], "fresh_days", "--fresh-days"
	days, ok := bought.FreshDays.Get()
	if f.q.Frozen {
		days, ok = bought.FrozenDays.Get()
		column = "frozen_days"
	}
	if given, is := f.q.FreshDays.Get(); is {
		days, ok = given, true
	}
	if !ok {
		f.note("%s has no %s, so nothing says how long it waits: no limit is set by that (%s, or --cycles, would)", bought.ID, column, flag)
		return
	}
	if f.cycle == 0 {
		return // missing, as cycleTime has said
	}
	zone := f.g.Settings.Zone
	turns := f.g.AsOf.AddDays(days).Midnight(zone)
	k, err := pricing.CyclesBefore(turns.Sub(f.start()), f.cycle, f.q.Turnaround)
	if err != nil {
		f.wrong("cycle-hours", "write it as 30h", "%v", err)
		return
	}
	f.sale.MaxCycles = exact.Some(k)
}

// start is when the machine can take the first load: as asked, else after its
// last run and the cycles that the fresh food in hand needs.
func (f *facts) start() time.Time {
	if t, ok := f.q.Start.Get(); ok {
		return t
	}
	free := f.g.AsOf.Midnight(f.g.Settings.Zone)
	for i := range f.g.Runs {
		run := &f.g.Records.Runs[i]
		if !f.g.Runs[i].Done || f.machine < 0 || run.Machine != f.g.Machines[f.machine].ID {
			continue
		}
		if end := run.Start.Add(f.g.Runs[i].Length.Or(0)); end.After(free) {
			free = end.Add(f.q.Turnaround)
		}
	}
	for food := range f.g.Foods {
		if n := f.waiting(food); n > 0 {
			free = free.Add(time.Duration(n) * (f.lengthOf(food) + f.q.Turnaround))
			f.note("%s in hand goes first: %d cycles", f.g.Foods[food].ID, n)
		}
	}
	return free
}

// waiting is how many cycles the fresh food in hand needs: of foods that have
// been dried as they are before, and that have not turned yet.
func (f *facts) waiting(food int) int {
	stock := f.g.FoodStock(food)
	lot := f.g.OldestLeft(stock)
	if lot == nil || f.machine < 0 || !f.everLoaded(food) {
		return 0
	}
	if days, ok := f.g.Foods[food].FreshDays.Get(); ok && lot.Date.AddDays(days) < f.g.AsOf {
		return 0
	}
	load, ok := loadOf(&f.g.Foods[food], &f.g.Machines[f.machine])
	if !ok {
		return 0
	}
	n, _ := stock.Left.Over(load).Ceil().Int64()
	return int(n)
}

func (f *facts) everLoaded(food int) bool {
	for i := range f.g.Runs {
		if f.g.Runs[i].Done && f.g.Runs[i].Loaded(food) {
			return true
		}
	}
	return false
}

// lengthOf is the usual length of a cycle of another food.
func (f *facts) lengthOf(food int) time.Duration {
	other := *f
	other.dried = food
	if t, ok := medianLength(other.lengths(true)); ok {
		return t
	}
	return f.cycle
}

// usedInTime is what will be used before the packs' best-by: monthly use times
// the months they keep, less the stock.
func (f *facts) usedInTime() {
	keep, known := f.q.KeepMonths.Get()
	if !known {
		keep, known = f.food().KeepMonths.Get()
	}
	use, used := f.monthlyUse()
	switch {
	case !known:
		f.note("%s has no keep_months: no limit is set by what will be used in time (--keep-months would)", f.food().ID)
		return
	case !used:
		f.note("no pack of %s was used in the last 12 months: no limit is set by what will be used in time (--use would)", f.food().ID)
		return
	}
	stock := f.stock()
	most := use.Times(exact.Int(int64(keep))).Round(exact.QuantityPlaces, exact.Down)
	f.sale.MaxMade = exact.Some(most.Sub(stock).Max(exact.Number{}))
}

// monthlyUse is what was used in the last 12 months over the months recorded.
func (f *facts) monthlyUse() (exact.Ratio, bool) {
	if q := f.q.Use; q.Given() || q.Sign() != 0 {
		return exact.RatioOf(f.eaten("use", q)), true
	}
	since := f.g.AsOf.AddMonths(-12)
	var sum exact.Number
	for i := range f.g.Moves {
		if m := &f.g.Moves[i]; m.Pack >= 0 && m.Food == f.dried && m.Reason == ledger.Used && m.Date > since {
			sum = sum.Add(m.Amount)
		}
	}
	if sum.IsZero() {
		return exact.Ratio{}, false
	}
	return sum.Over(exact.Int(int64(f.monthsRecorded()))), true
}

// monthsRecorded is how many calendar months the ledger has been kept, at most
// 12.
func (f *facts) monthsRecorded() int {
	first := ledger.FirstDate(f.g.Records)
	for n := 1; n < 12; n++ {
		if f.g.AsOf.Month().AddMonths(-n) < first.Month() {
			return n
		}
	}
	return 12
}

// stock is what the packs in store give.
func (f *facts) stock() exact.Number {
	if q := f.q.Stock; q.Given() || q.Sign() != 0 {
		return f.eaten("stock", q)
	}
	var sum exact.Number
	for i := range f.g.Packs {
		if p := &f.g.Packs[i]; p.Done && p.Food == f.dried {
			sum = sum.Add(p.Each.Mul(exact.Int(int64(p.Left()))))
		}
	}
	return sum
}
