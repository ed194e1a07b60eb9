package report

import (
	"time"

	"putby/ledger/figures"
	"putby/pricing/exact"
)

// waiting is food in hand that goes into the machine first.
type waiting struct {
	food   int
	amount exact.Number
	load   exact.Number // of it in a cycle
	cycles int
	length time.Duration // of a cycle
	last   time.Time     // when its last cycle begins; not known where the first load of the offer is timed
}

// rest is what its last cycle holds.
func (w *waiting) rest() exact.Number { return w.amount.Sub(w.load.Mul(whole(w.cycles - 1))) }

// findFree finds when the machine can take the first load: as asked, else on
// the day of purchase, after its last run and the food already waiting for it.
func (f *facts) findFree() {
	f.waits = f.waitingFoods()
	f.free = f.day.Midnight(f.g.Settings.Zone)
	if f.q.Start != "" {
		t, err := exact.ParseMoment(f.q.Start, f.g.Settings.Zone)
		if err != nil {
			f.wrong("start", "write it as \"2025-02-28 18:30\", or with an offset", "%v", err)
		}
		f.free = t
		return
	}
	for _, i := range f.runsOnMachine() {
		if ready := figures.BusyUntil(f.g, i, f.cycle).Add(f.q.Turnaround); ready.After(f.free) {
			f.free = ready
		}
	}
	for i := range f.waits {
		w := &f.waits[i]
		w.last = f.free.Add(time.Duration(w.cycles-1) * (w.length + f.q.Turnaround))
		f.free = w.last.Add(w.length + f.q.Turnaround)
		f.note("%s of %s in hand goes into the machine first: %s", f.say().amount(w.amount, f.g.Foods[w.food].Basis),
			f.g.Foods[w.food].Title(), counted(w.cycles, "cycle"))
	}
}

// runsOnMachine are all its runs, good or not.
func (f *facts) runsOnMachine() []int {
	var list []int
	for i := range f.g.Runs {
		if f.g.Runs[i].Done && f.onMachine(&f.g.Records.Runs[i]) {
			list = append(list, i)
		}
	}
	return list
}

// waitingFoods are the foods in hand that are dried as they are: that have
// been before, in this machine when last, and have not turned by the day of
// purchase.
func (f *facts) waitingFoods() []waiting {
	if f.machine < 0 {
		return nil
	}
	var list []waiting
	for food := range f.g.Foods {
		amount := f.stillGood(food)
		if amount.Sign() <= 0 || f.lastMachine(food) != f.machine {
			continue
		}
		load, ok := f.g.Machines[f.machine].Capacity(&f.g.Foods[food]).Most.Get()
		if !ok || load.Sign() <= 0 {
			continue
		}
		cycles, _ := amount.Over(load).Ceil().Int64()
		length, ok := f.usualLength(food)
		if !ok {
			length = f.cycle
		}
		list = append(list, waiting{food: food, amount: amount, load: load, cycles: int(cycles), length: length})
	}
	return list
}

// stillGood is how much is in hand of a food that has not turned by the day of
// purchase, crumbs left out.
func (f *facts) stillGood(food int) (sum exact.Number) {
	for _, p := range f.g.FreshParts(food) {
		if !p.Crumb && (p.UseBy == exact.NoDate || p.UseBy >= f.day) {
			sum = sum.Add(p.Quantity)
		}
	}
	return sum
}
