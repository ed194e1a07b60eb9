package figures

import (
	"time"

	"putby/pricing/exact"
)

// A FirstFood is food in hand that goes into the machine first.
type FirstFood struct {
	Food   int
	Amount exact.Number
	Cycles int
	load   exact.Number // of it in a cycle
	length time.Duration
	last   time.Time // when its last cycle begins; not known where the first load of the offer is timed
}

// rest is what its last cycle holds.
func (w *FirstFood) rest() exact.Number {
	return w.Amount.Sub(w.load.Mul(exact.Int(int64(w.Cycles - 1))))
}

// A Queue is when the machine can take the first load, and what goes first.
type Queue struct {
	Free  time.Time
	First []FirstFood
	Asked bool // the time was given: nothing goes first
}

// Queue finds it: at the time given, else on the day of purchase, after the
// machine's last run and the food already waiting for it. A cycle takes usual
// where nothing tells how long one does.
func (d Dryer) Queue(q *WorthQuery, day exact.Date, usual time.Duration) Queue {
	queue := Queue{First: d.waiting(day, usual)}
	if queue.Free, queue.Asked = q.Start.Get(); queue.Asked {
		return queue
	}
	queue.Free = day.Midnight(d.g.Settings.Zone)
	for _, i := range d.AllRuns() {
		if ready := BusyUntil(d.g, i, usual).Add(q.Turnaround); ready.After(queue.Free) {
			queue.Free = ready
		}
	}
	for i := range queue.First {
		w := &queue.First[i]
		w.last = queue.Free.Add(time.Duration(w.Cycles-1) * (w.length + q.Turnaround))
		queue.Free = w.last.Add(w.length + q.Turnaround)
	}
	return queue
}

// waiting are the foods in hand that are dried as they are: that have been
// before, in this machine when last, and have not turned by a day.
func (d Dryer) waiting(day exact.Date, usual time.Duration) (list []FirstFood) {
	if d.Machine < 0 {
		return nil
	}
	for food := range d.g.Foods {
		amount := d.stillGood(food, day)
		if amount.Sign() <= 0 || lastMachine(d.g, food) != d.Machine {
			continue
		}
		load, ok := d.g.Machines[d.Machine].Capacity(&d.g.Foods[food]).Most.Get()
		if !ok || load.Sign() <= 0 {
			continue
		}
		cycles, _ := amount.Over(load).Ceil().Int64()
		length, ok := d.usualLength(food)
		if !ok {
			length = usual
		}
		list = append(list, FirstFood{Food: food, Amount: amount, Cycles: int(cycles), load: load, length: length})
	}
	return list
}

// stillGood is how much is in hand of a food that has not turned by a day,
// crumbs left out.
func (d Dryer) stillGood(food int, day exact.Date) (sum exact.Number) {
	for _, p := range d.g.FreshParts(food) {
		if !p.Crumb && (p.UseBy == exact.NoDate || p.UseBy >= day) {
			sum = sum.Add(p.Quantity)
		}
	}
	return sum
}
