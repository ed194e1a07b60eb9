package figures

import (
	"slices"
	"time"

	"putby/pricing/exact"
)

// A Queue is when the machine can take the first load of an offer, and what
// waits for it beside.
type Queue struct {
	Free    time.Time // the time given, else when First is through
	First   []Waiting // in hand, and turns no later: it goes first
	Behind  []Waiting // keeps longer, and waits; its slots are those without the offer
	Losing  []Waiting // a run of it alone would cost more than it is worth: it keeps nothing waiting
	Unknown []Waiting // meant for the machine, but nothing tells how much a cycle takes, or how long one is
	Asked   bool      // the time was given: all of it waits
	from    time.Time // when what goes first begins
}

// ahead is how long what goes first takes.
func (q *Queue) ahead() time.Duration { return q.Free.Sub(q.from) }

// queue is the machine's for food that turns at a time, or never: at the time
// given, else on the day of purchase, or now where that is today, after the last run and what is in hand and
// turns no later. The parts of a food share its cycles.
func (f *Facts) queue(turns exact.Opt[time.Time]) (q Queue) {
	last := exact.LastDate
	if at, turning := turns.Get(); turning {
		last = exact.DateIn(at)
	}
	q.Free, q.Asked = f.Query.Start.Get()
	var first, behind []Waiting
	for _, w := range inHand(f.g) {
		switch {
		case w.Turned(f.Day):
		case !q.Asked && orLast(w.UseBy) <= last:
			first = gather(first, w)
		default:
			behind = gather(behind, w)
		}
	}
	line := f.line()
	if q.from = q.Free; !q.Asked {
		q.from = line.freeAt(f.Dryer.Machine)
		q.First = q.enter(&line, f.Dryer.Machine, first, f.loses)
		q.Free = line.freeAt(f.Dryer.Machine)
	}
	// In the same line and without the offer: their slots are those if nothing is bought.
	q.Behind = q.enter(&line, f.Dryer.Machine, behind, f.loses)
	return q
}

// line is the machines' queue as a question has it.
func (f *Facts) line() timetable {
	return timetable{g: f.g, now: f.Query.begins(f.Day, f.g.Settings.Zone), turnaround: f.Query.Turnaround, usual: f.Length.Time, free: map[int]time.Time{}}
}

// enter gives foods their places in a machine's queue, but those that lose there.
func (q *Queue) enter(line *timetable, machine int, list []Waiting, loses func(*Waiting) bool) (placed []Waiting) {
	for _, w := range list {
		if in, dried := driedIn(line.g, w.Food); !dried || in != machine {
			continue
		}
		free := line.freeAt(machine)
		switch w.Slot = line.enter(&w); {
		case !w.Slot.Given():
			q.Unknown = append(q.Unknown, w)
		case loses(&w):
			// Its place in the line is given back.
			line.free[machine] = free
			q.Losing = append(q.Losing, w)
		default:
			placed = append(placed, w)
		}
	}
	return placed
}

// gather adds food to what waits of it already, which turns first.
func gather(list []Waiting, w Waiting) []Waiting {
	i := slices.IndexFunc(list, func(have Waiting) bool { return have.Food == w.Food })
	if i < 0 {
		i, list = len(list), append(list, Waiting{Food: w.Food, UseBy: w.UseBy})
	}
	have := &list[i]
	have.Quantity = have.Quantity.Add(w.Quantity)
	have.parts = append(have.parts, part{have.Quantity, w.UseBy})
	return list
}

// BehindAfter is what waits behind the offer with its slots after so many cycles
// of that.
func (f *Facts) BehindAfter(cycles int) []Waiting {
	line := f.line()
	line.free[f.Dryer.Machine] = f.begins(cycles)
	var after Queue
	return after.enter(&line, f.Dryer.Machine, f.Queue.Behind, func(*Waiting) bool { return false })
}

// loses reports whether a run of a food in hand alone, in its slot, costs more than
// the food in it is worth: then nobody should run it. Where something of that is not
// known, it does not; nor does more of what is offered, since that is dried with it.
func (f *Facts) loses(w *Waiting) bool {
	slot, _ := w.Slot.Get()
	worth, known := w.value(f.g, f.Day).Get()
	if !known || w.Food == f.Dried {
		return false
	}
	own := f.ownDryer(w.Food)
	energy, err := own.Energy(exact.Opt[exact.Number]{}, slot.load, slot.length)
	if err != nil {
		return false
	}
	price, err := cyclePriceOf(own, &f.Query, slot.First, Length{Time: slot.length}, slot.load)
	if err != nil {
		return false
	}
	amount := w.Quantity.Min(slot.load)
	electricity, err := price.charge(energy.KWh)(0, amount)
	if err != nil {
		return false
	}
	rest := own.CycleCost(&WorthQuery{})
	cost := rest.Total().Add(electricity)
	return worth.Times(amount).Quo(exact.RatioOf(w.Quantity)).Cmp(cost.Ratio()) < 0
}

// RoomBefore is what the run of the same food in hand that goes first has left for the
// offer, where that is a package at least. The offer is counted in runs of its own all
// the same.
func (f *Facts) RoomBefore() (room exact.Opt[exact.Number]) {
	for _, w := range f.Queue.First {
		s, _ := w.Slot.Get()
		if left := s.room(w.Quantity); w.Food == f.Dried && f.Sale.Size.Sign() > 0 && !left.Less(f.Sale.Size) {
			return exact.Some(left)
		}
	}
	return room
}

// begins is when a cycle of the offer does, from 0.
func (f *Facts) begins(cycle int) time.Time {
	return f.Queue.Free.Add(time.Duration(cycle) * (f.Length.Time + f.Query.Turnaround))
}
