package figures

import (
	"cmp"
	"slices"
	"time"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// This file says of the fresh food in hand whether the machine can take it
// before it turns. How long cycles will take is an estimate.

// A Waiting is fresh food in hand: all of a food that turns on one day.
type Waiting struct {
	Food     int          // position in Foods
	Quantity exact.Number // in the food's basis unit
	UseBy    exact.Date   // the last day; NoDate: nobody knows
	Frozen   bool
	// Freezable says that it would keep longer in the freezer.
	Freezable bool
	// Slot is when the machine can take it. It is not given for what is not dried
	// as it is or has turned, or where nothing tells how much a cycle takes.
	Slot  exact.Opt[Slot]
	parts []part // of it, soonest first, where several share its cycles
}

// A part is how much of a food there is up to it, and its last day.
type part struct {
	upTo  exact.Number // in the food's basis unit, with all parts before it
	useBy exact.Date   // NoDate: nobody knows
}

// Turned reports whether the food's last day is before a day.
func (w *Waiting) Turned(day exact.Date) bool { return w.UseBy != exact.NoDate && w.UseBy < day }

// value is what the shelf asks on a day for as much; not given where no price is
// known.
func (w *Waiting) value(g *ledger.Ledger, day exact.Date) (value exact.Opt[exact.Ratio]) {
	if p, ok := g.ShelfPrice(w.Food, day, pricing.Fresh); ok {
		return exact.Some(p.PerUnit.Times(w.Quantity))
	}
	return value
}

// endOf is when a last day is over.
func endOf(g *ledger.Ledger, useBy exact.Date) time.Time {
	return orLast(useBy).AddDays(1).Midnight(g.Settings.Zone)
}

// A Slot is when a machine can take food: after all that turns sooner, each food
// in cycles of its own, back to back.
type Slot struct {
	Machine int           // position in Machines
	Cycles  int           // 1 at least
	First   time.Time     // when its first cycle can begin
	Last    time.Time     // and its last
	InTime  bool          // its last can begin before the food's last day is over
	load    exact.Number  // of a full cycle, in the food's basis unit, above 0
	length  time.Duration // of one cycle, above 0
}

// rest is what the last cycle of so much holds.
func (s *Slot) rest(of exact.Number) exact.Number {
	return of.Sub(s.load.Mul(exact.Int(int64(s.Cycles - 1))))
}

// room is what the last cycle of so much has left.
func (s *Slot) room(of exact.Number) exact.Number { return s.load.Sub(s.rest(of)) }

// WaitingFood lists the fresh food in hand, what turns soonest first, without
// crumbs, and from now on gives each that is dried a place in its machine's
// queue.
func WaitingFood(g *ledger.Ledger, now time.Time) []Waiting {
	list := inHand(g)
	q := timetable{g: g, now: now, free: map[int]time.Time{}}
	for i := range list {
		list[i].Slot = q.enter(&list[i])
	}
	return list
}

// FirstToDry is the fresh food in hand that a machine which is wanted should take
// first: what turns soonest and is in time, as far as anything tells. It reports
// false where none waits that has not turned.
func FirstToDry(g *ledger.Ledger, now time.Time, wanted func(machine int) bool) (first Waiting, ok bool) {
	for _, w := range WaitingFood(g, now) {
		slot, timed := w.Slot.Get()
		machine, dried := driedIn(g, w.Food)
		if dried && wanted(machine) && !w.Turned(exact.DateIn(now)) && (!timed || slot.InTime) {
			return w, true
		}
	}
	return first, false
}

// inHand lists the fresh food in hand, what turns soonest first.
func inHand(g *ledger.Ledger) (list []Waiting) {
	for food := range g.Foods {
		list = append(list, waitingOf(g, food)...)
	}
	slices.SortStableFunc(list, func(a, b Waiting) int { return cmp.Compare(orLast(a.UseBy), orLast(b.UseBy)) })
	return list
}

// waitingOf gathers the parts of a food's lots by the day they turn.
func waitingOf(g *ledger.Ledger, food int) (list []Waiting) {
	for _, p := range g.FreshParts(food) {
		if p.Crumb {
			continue
		}
		i := slices.IndexFunc(list, func(w Waiting) bool { return w.UseBy == p.UseBy && w.Frozen == p.Frozen })
		if i < 0 {
			i = len(list)
			list = append(list, Waiting{Food: food, UseBy: p.UseBy, Frozen: p.Frozen})
		}
		list[i].Quantity = list[i].Quantity.Add(p.Quantity)
		days, known := g.Foods[food].FrozenDays.Get()
		if !p.Frozen && known && p.UseBy != exact.NoDate && p.UseBy < g.Lots[p.Lot].Date.AddDays(days) {
			list[i].Freezable = true
		}
	}
	return list
}

// A timetable is the machines with the food that waits for them.
type timetable struct {
	g          *ledger.Ledger
	now        time.Time         // before which no cycle begins
	turnaround time.Duration     // between two cycles
	usual      time.Duration     // what a cycle asked about takes, and any of which no run tells; 0: not known
	free       map[int]time.Time // when each machine that was asked for is free
}

// enter gives food the next place in its machine's queue.
func (q *timetable) enter(w *Waiting) (none exact.Opt[Slot]) {
	machine, dried := driedIn(q.g, w.Food)
	if !dried || w.Turned(exact.DateIn(q.now)) {
		return none
	}
	load, ok := q.g.Machines[machine].Capacity(&q.g.Foods[w.Food]).Most.Get()
	length := q.length(machine, w.Food)
	if !ok || load.Sign() <= 0 || length <= 0 {
		return none
	}
	cycles, fits := cyclesOf(w.Quantity, load)
	if !fits || cycles > longestWait {
		return none
	}
	s := Slot{Machine: machine, Cycles: int(cycles), First: q.freeAt(machine), load: load, length: length}
	s.Last = s.First.Add(time.Duration(cycles-1) * (length + q.turnaround))
	q.free[machine] = s.Last.Add(length + q.turnaround)
	parts := w.parts
	if len(parts) == 0 {
		parts = []part{{w.Quantity, w.UseBy}}
	}
	// Each part by its own day: the cycle that takes the last of it must begin before that is over.
	s.InTime = !slices.ContainsFunc(parts, func(p part) bool {
		n, _ := cyclesOf(p.upTo, load)
		return !s.First.Add(time.Duration(n-1) * (length + q.turnaround)).Before(endOf(q.g, p.useBy))
	})
	return exact.Some(s)
}

// cyclesOf is how many cycles so much takes: nobody begins another for under 1 %
// of a load (this project's own line).
func cyclesOf(amount, load exact.Number) (int64, bool) {
	n, fits := amount.Over(load).Sub(exact.Int(1).Over(exact.Int(100))).Ceil().Int64()
	return max(n, 1), fits
}

// longestWait is more cycles than anybody waits for.
const longestWait = 1000

// freeAt is when a machine has dried what is in it now and what entered before.
func (q *timetable) freeAt(machine int) time.Time {
	if at, ok := q.free[machine]; ok {
		return at
	}
	free := q.now
	d := Dryer{g: q.g, Machine: machine}
	usual := cmp.Or(q.usual, q.length(machine, -1))
	for _, i := range d.AllRuns() {
		if ready := busyUntil(q.g, i, usual).Add(q.turnaround); ready.After(free) {
			free = ready
		}
	}
	return free
}

// length is how long a cycle of a food takes on a machine; 0: nothing tells.
func (q *timetable) length(machine, food int) time.Duration {
	length, ok := UsualLength(q.g, machine, food)
	if !ok {
		return q.usual
	}
	return length
}

// driedIn is the machine that a food is dried in: that of its latest run, or the
// first one for what is only meant to be dried, since it is known how long it
// keeps once it is packed.
func driedIn(g *ledger.Ledger, food int) (machine int, ok bool) {
	if m := lastMachine(g, food); m >= 0 && m < len(g.Machines) { // where records have faults it may be none of them
		return m, true
	}
	return 0, len(g.Machines) > 0 && g.Foods[food].KeepMonths.Given()
}

// UsualLength is how long a cycle of a food takes on a machine: the median of
// its good runs there, else of all good runs there. It reports false where
// none tells. Of -1, any food, it is that of all.
func UsualLength(g *ledger.Ledger, machine, food int) (time.Duration, bool) {
	length := Dryer{g: g, Food: food, Machine: machine}.Length(exact.Opt[time.Duration]{}).Time
	return length, length > 0
}
