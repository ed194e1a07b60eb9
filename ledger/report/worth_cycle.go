package report

import (
	"cmp"
	"slices"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// findMachine takes the machine named, else that of the food's last run, else
// the first one; and the runs that say what is usual for it.
func (f *facts) findMachine() {
	if f.q.Machine != "" {
		i, ok := f.g.FindMachine(f.q.Machine)
		if !ok {
			f.wrong("machine", "machines are in "+ledger.MachinesFile, "no machine is called %s", exact.Quote(f.q.Machine))
			return
		}
		f.machine = i
	} else {
		f.machine = f.usualMachine()
	}
	f.runs = f.runsOf(f.dried)
	if len(f.runs) == 0 {
		f.runs = f.runsOf(-1)
	}
}

// usualMachine is that of the food's latest run, else the first one; -1 where
// none is recorded.
func (f *facts) usualMachine() int {
	if m := f.lastMachine(f.dried); m >= 0 {
		return m
	}
	return min(len(f.g.Machines)-1, 0)
}

// lastMachine is that of a food's latest run; -1 where it was never in one.
func (f *facts) lastMachine(food int) int {
	last := -1
	for i := range f.g.Runs {
		run := &f.g.Records.Runs[i]
		if !f.g.Runs[i].Done || !f.g.Runs[i].Loaded(food) || last >= 0 && run.Start.Before(f.g.Records.Runs[last].Start) {
			continue
		}
		last = i
	}
	if last < 0 {
		return -1
	}
	m, _ := f.g.FindMachine(f.g.Records.Runs[last].Machine)
	return m
}

// runsOf are the finished good runs on the machine that dried a food; -1 is any.
func (f *facts) runsOf(food int) []int {
	var list []int
	for i := range f.g.Runs {
		run := &f.g.Records.Runs[i]
		if f.g.Runs[i].Done && run.Good() && f.onMachine(run) && (food < 0 || f.g.Runs[i].Loaded(food)) {
			list = append(list, i)
		}
	}
	return list
}

func (f *facts) onMachine(run *ledger.Run) bool {
	return f.machine >= 0 && run.Machine == f.g.Machines[f.machine].ID
}

// findLoad finds the most of the food that a cycle takes.
func (f *facts) findLoad() {
	if f.q.Load.Given() {
		f.sale.Load = f.eaten("load", f.q.Load)
		return
	}
	record := "load_volume or load_mass of the machine"
	if f.machine >= 0 {
		m := &f.g.Machines[f.machine]
		capacity := m.Capacity(f.food())
		for _, p := range capacity.Passed {
			f.note("the %s of %s (%v) is passed over: %s has no %s to convert it by", p.Column, cmp.Or(m.Name, m.ID), p.Most, f.food().Title(), p.Lacks)
			record = "the " + p.Lacks + " of " + f.food().ID + " in " + ledger.FoodsFile
		}
		if n, ok := capacity.Most.Get(); ok {
			f.sale.Load = n
			return
		}
	}
	f.lack("the most that a cycle takes", "--load", record)
}

// findCycle finds how long a cycle takes: the median of the food's good runs
// on the machine, else of all of the machine's.
func (f *facts) findCycle() {
	if t, ok := f.q.CycleTime.Get(); ok {
		f.cycle = t
		return
	}
	var ok bool
	if f.cycle, ok = f.usualLength(f.dried); !ok {
		if f.cycle, ok = f.usualLength(-1); ok {
			f.note("no good run of %s tells how long a cycle takes: the median of all is taken", f.food().Title())
		}
	}
}

// needCycle says that a cycle's length is missing where something depends on
// it.
func (f *facts) needCycle() bool {
	if f.cycle > 0 {
		return true
	}
	missing := MissingFact{"how long a cycle takes", "--cycle-hours", "a run with its phases"}
	if !slices.Contains(f.missing, missing) {
		f.missing = append(f.missing, missing)
	}
	return false
}

// usualLength is the median length of the good runs of a food; -1 is any.
func (f *facts) usualLength(food int) (time.Duration, bool) {
	var list []time.Duration
	for _, i := range f.runsOf(food) {
		if length, ok := f.g.Runs[i].Length.Get(); ok && length > 0 {
			list = append(list, length)
		}
	}
	return medianTime(list)
}

// medianTime is the middle of a list, which it sorts.
func medianTime(list []time.Duration) (time.Duration, bool) {
	if len(list) == 0 {
		return 0, false
	}
	slices.Sort(list)
	n := len(list)
	return (list[(n-1)/2] + list[n/2]) / 2, true
}

// findYield is what was reconstituted over what was loaded, of packed runs.
func (f *facts) findYield() {
	if y, ok := f.q.Yield.Get(); ok {
		f.sale.Yield = exact.RatioOf(y)
		return
	}
	var loaded, made exact.Number
	for i := range f.g.Runs {
		for j := range f.g.Runs[i].Items {
			if item := &f.g.Runs[i].Items[j]; f.g.Runs[i].Done && item.Food == f.dried && item.Made.Sign() > 0 && !item.Short {
				loaded, made = loaded.Add(item.Loaded), made.Add(item.Made)
			}
		}
	}
	if f.sale.Yield = exact.RatioOf(exact.Int(1)); loaded.Sign() > 0 {
		f.sale.Yield = made.Over(loaded)
		return
	}
	f.note("no run of %s is packed yet: all that is dried is taken to come back (--yield)", f.food().Title())
}

// findCycleCosts finds what a cycle costs beside food and electricity.
func (f *facts) findCycleCosts() {
	if !f.leaves(ledger.WearCost) {
		f.sale.Wear = f.wear()
	}
	if !f.leaves(ledger.SuppliesCost) && f.machine >= 0 {
		var notes []string
		f.sale.Supplies, notes = f.supplies(f.g.Machines[f.machine].With, 1)
		f.notes = append(f.notes, notes...)
	}
	if !f.leaves(ledger.LabourCost) {
		f.sale.Labour = f.labour()
	}
}

// wear is that of the machine's next cycle.
func (f *facts) wear() exact.Money {
	if w, ok := f.q.Wear.Get(); ok {
		return f.post(ratioOf(w))
	}
	if f.machine < 0 {
		f.note("no machine is recorded: no wear is counted (--wear)")
		return exact.Money{}
	}
	wear, ok := f.g.NextCycle(f.machine)
	if !ok {
		m := &f.g.Machines[f.machine]
		f.note("no expected cycle of %s is left in the books: no wear is counted (--wear)", cmp.Or(m.Name, m.ID))
	}
	return wear
}

// labour is the median hands-on time of the runs, at the settings' value of an
// hour.
func (f *facts) labour() exact.Money {
	hands, given := f.q.Hands.Get()
	if !given {
		var list []time.Duration
		for _, i := range f.runs {
			list = append(list, f.g.Records.Runs[i].Hands)
		}
		hands, _ = medianTime(list)
	}
	return f.g.Labour(exact.Int(int64(hands / time.Second)).Over(exact.Int(3600)))
}
