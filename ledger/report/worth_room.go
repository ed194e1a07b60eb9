package report

import (
	"fmt"
	"time"

	"putby/pricing"
	"putby/pricing/exact"
)

// A filling is the room in the last cycle and what would fill it.
type filling struct {
	pricing.PartLoad
	food  int          // in hand, or -1 for any
	takes exact.Number // of it
	saves exact.Money  // its own cycle, less the electricity that it adds
}

// fillRoom finds what filling the room in the last cycle with a second food
// saves. With food in hand that fits, it is that; else any that fills it, whose
// own cycle is taken to cost what one more of this food would.
func (a *answer) fillRoom() (filling, bool) {
	part, ok := a.PartLoad(a.shown)
	if !ok {
		return filling{}, false
	}
	f := filling{part, -1, exact.Number{}, exact.Money{}}
	fills := part.Spare
	if w, stands := a.second(part); w != nil {
		f.food, f.takes, fills = w.food, w.rest(), stands
		f.saves, ok = a.alone(w)
	} else {
		f.saves = a.CycleAlone(a.shown, fills)
	}
	if charge := a.sale.Electricity; charge != nil {
		f.saves = f.saves.Sub(charge(part.Cycle, part.Load.Add(fills)).Sub(charge(part.Cycle, part.Load)))
	}
	return f, ok
}

// second is the food in hand whose last, part-filled cycle fills most of the
// room, and how much of this food's load that stands for; nil where none fits.
func (a *answer) second(part pricing.PartLoad) (food *waiting, fills exact.Number) {
	for i := range a.waits {
		w := &a.waits[i]
		if w.food == a.dried {
			continue
		}
		stands := rounded(w.rest().Over(w.load).Times(a.sale.Load))
		if !part.Spare.Less(stands) && fills.Less(stands) {
			food, fills = w, stands
		}
	}
	return food, fills
}

// alone is what the last, part-filled cycle of a food in hand costs by itself:
// by its own runs, at the time when it would begin. It reports false where
// nothing tells.
func (a *answer) alone(w *waiting) (exact.Money, bool) {
	q := WorthQuery{Item: a.g.Foods[w.food].ID, Machine: a.q.Machine, Wear: a.q.Wear, Without: a.q.Without, Rate: a.q.Rate}
	own := &facts{g: a.g, q: q, day: a.day, bought: w.food, dried: w.food, machine: a.machine, cycle: w.length, free: w.last}
	own.sale.Load = w.load
	if own.runs = own.runsOf(w.food); len(own.runs) == 0 {
		own.runs = a.runs
	}
	own.findCycleCosts()
	sum := own.sale.Supplies.Add(own.sale.Wear).Add(own.sale.Labour)
	switch {
	case a.power.kwh == nil: // electricity is left out
		return sum, true
	case !own.estimate():
		return sum, false
	case a.power.biller == nil:
		return sum.Add(own.post(exact.RatioOf(own.power.kwh(w.rest()).Mul(a.q.Rate.Or(exact.Number{}))))), true
	}
	own.power.phases = usualPhases(a.g, own.runs, own.cycle)
	meter := a.power.biller.before(0)
	if w.last.IsZero() { // the offer's cycles go first
		own.free, meter = a.free.Add(time.Duration(a.shown.Cycles)*(a.cycle+a.q.Turnaround)), a.power.biller.before(a.shown.Cycles)
	}
	cost, err := billed(meter.Fork(), a.power.tariff, own.legs(own.power.kwh(w.rest())), own.free, a.g.Places())
	return sum.Add(own.post(cost)), err == nil
}

// partLoad lays it out for machines; people read it in words.
func (a *answer) partLoad() Field {
	f, ok := a.fillRoom()
	if !ok {
		return Field{"part_load", "", None}
	}
	with, takes := None, None
	if f.food >= 0 {
		food := &a.g.Foods[f.food]
		with, takes = foodValue(food), AmountOf(f.takes, food.Basis)
	}
	return Field{"part_load", "", Object{
		{"cycle", "", CountOf(f.Cycle + 1)}, {"load", "", AmountOf(f.Load, a.unit())}, {"spare", "", AmountOf(f.Spare, a.unit())},
		{"with", "", with}, {"with_amount", "", takes}, {"saves", "", a.guess(MoneyOf(f.saves), a.shown)},
	}}
}

// roomWords say it, where the room is worth a second food.
func (a *answer) roomWords() string {
	f, ok := a.fillRoom()
	if !ok || a.Best.Packages == 0 || f.saves.Sign() <= 0 || f.Spare.Mul(whole(10)).Less(a.sale.Load) {
		return ""
	}
	s, what := a.say(), "a second food"
	if f.food >= 0 {
		what = fmt.Sprintf("the %s of %s in hand", s.amount(f.takes, a.g.Foods[f.food].Basis), a.g.Foods[f.food].Title())
	}
	return fmt.Sprintf("The last cycle has room for %s more: filling it with %s, instead of a cycle of its own, saves %s.",
		s.amount(f.Spare, a.unit()), what, a.sum(ratioOf(f.saves), a.shown))
}
