package figures

import (
	"cmp"
	"slices"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// A NextFood is fresh food in hand, and when its machine should take it.
type NextFood struct {
	Waiting
	Value exact.Opt[exact.Ratio] // what the shelf asks for as much
	// Runs is how many it takes, each full but the last. 0: it is not dried in
	// time, so it is to be eaten, or frozen where that keeps it longer.
	Runs   int
	Latest time.Time    // for its first run, so that all that waits behind it is in time too
	Best   DayStart     // the cheapest start of its first run
	Ends   time.Time    // its last run, each begun once somebody is there
	Amount exact.Number // that its first run dries, in the food's basis unit
	Room   exact.Number // that the first run has left for more of it
	// Cost is what the first run costs, beside its food and what it is packed in:
	// electricity, wear, the machine's supplies and labour.
	Cost exact.Money
	// With is the food whose run has room for all of what [NextFood.Loses], and begins
	// before that turns; -1: there is none.
	With int
}

// Worth is what the shelf asks for what the first run dries; not given where no
// price is known.
func (n *NextFood) Worth() (worth exact.Opt[exact.Ratio]) {
	value, ok := n.Value.Get()
	if !ok || n.Runs == 0 {
		return worth
	}
	return exact.Some(value.Times(n.Amount).Quo(exact.RatioOf(n.Quantity)))
}

// Loses reports whether the first run costs more than the food in it is worth, so
// that it would be better thrown away than dried in a run of its own.
func (n *NextFood) Loses() bool {
	worth, ok := n.Worth().Get()
	return ok && worth.Cmp(n.Cost.Ratio()) < 0
}

// Next lists the fresh food in hand that is dried, in the order in which its
// machine should take it: what turns first, and of what turns on one day what is
// worth more. Each is given the cheapest start of its first run, within the hours
// asked about, that leaves it and all behind it in time; what no start is in
// time for keeps nothing waiting. Nor does what [NextFood.Loses]: what it costs is
// told, and the machine left to the others. Runs of one food follow each other, each
// begun within those hours. The query names no food; its load, kWh and length are those of each as usual.
func Next(g *ledger.Ledger, q WhenQuery) ([]NextFood, error) {
	n := next{g: g, q: q}
	for _, w := range WaitingFood(g, q.From) {
		if s, dried := w.Slot.Get(); dried && !w.Frozen && (q.Machine == "" || g.Machines[s.Machine].ID == q.Machine) {
			n.list = append(n.list, NextFood{Waiting: w, Value: w.value(g, g.AsOf), With: -1})
		}
	}
	slices.SortStableFunc(n.list, func(a, b NextFood) int {
		return cmp.Or(cmp.Compare(orLast(a.UseBy), orLast(b.UseBy)), b.Value.Or(exact.Ratio{}).Cmp(a.Value.Or(exact.Ratio{})))
	})
	n.out = make([]bool, len(n.list))
	for i := 0; i >= 0; i = n.worst() {
		if err := n.place(); err != nil {
			return nil, err
		}
	}
	n.along()
	return n.list, nil
}

// LosesOnItsOwn is the food asked about as [Next] has it, where all that is in hand of
// it [NextFood.Loses] and the query gives neither the load nor what a run takes.
func LosesOnItsOwn(g *ledger.Ledger, q WhenQuery, food int) (loses exact.Opt[NextFood]) {
	if q.Load.Given() || q.KWh.Given() || q.Length.Given() {
		return loses
	}
	q.Item, q.By = "", exact.Opt[time.Time]{}
	list, err := Next(g, q)
	if err != nil { // of another food: that is told where it is asked about
		return loses
	}
	for i := len(list) - 1; i >= 0; i-- {
		switch n := list[i]; {
		case n.Food == food && !n.Loses():
			return exact.Opt[NextFood]{}
		case n.Food == food:
			loses = exact.Some(n)
		}
	}
	return loses
}

// Untimed is fresh food in hand that [Next] leaves out.
type Untimed struct {
	Foods  []UntimedWait // to be dried
	Turned int           // foods that are dried and have turned
}

// An UntimedWait is fresh food that is to be dried, and of which something does
// not tell when.
type UntimedWait struct {
	Waiting
	NoLength, NoLoad bool // nothing tells how long a cycle takes, or how much it holds
}

// UntimedFood finds it, for the machine that is asked about or all of them.
func UntimedFood(g *ledger.Ledger, q WhenQuery) (u Untimed) {
	for _, w := range WaitingFood(g, q.From) {
		machine, dried := driedIn(g, w.Food)
		switch {
		case !dried || w.Frozen || w.Slot.Given() || q.Machine != "" && g.Machines[machine].ID != q.Machine:
		case w.Turned(exact.DateIn(q.From)):
			u.Turned++
		default:
			u.Foods = append(u.Foods, untimed(g, machine, w))
		}
	}
	return u
}

func untimed(g *ledger.Ledger, machine int, w Waiting) UntimedWait {
	_, timed := UsualLength(g, machine, w.Food)
	most := g.Machines[machine].Capacity(&g.Foods[w.Food]).Most.Or(exact.Number{})
	return UntimedWait{w, !timed, most.Sign() <= 0}
}

// next is such a list in the making.
type next struct {
	g    *ledger.Ledger
	q    WhenQuery
	list []NextFood
	out  []bool            // whose runs would lose money: they keep no place
	free map[int]time.Time // when each machine is free
}

// place gives all that keep a place their runs and starts.
func (n *next) place() error {
	n.free = map[int]time.Time{}
	n.fit()
	for i := range n.list {
		if n.out[i] {
			continue
		}
		if err := n.start(i); err != nil {
			return err
		}
	}
	return nil
}

// worst takes the food out of the list's order whose run would lose most, and
// returns its position; -1: none does. One at a time, since with it gone another
// may begin when it costs less.
func (n *next) worst() int {
	worst, most := -1, exact.Ratio{}
	for i := range n.list {
		if w := &n.list[i]; !n.out[i] && w.Loses() {
			worth, _ := w.Worth().Get()
			if loss := w.Cost.Ratio().Sub(worth); worst < 0 || most.Cmp(loss) < 0 {
				worst, most = i, loss
			}
		}
	}
	if worst >= 0 {
		n.out[worst] = true
	}
	return worst
}

// along finds the runs that have room for what loses in one of its own, each for
// one food.
func (n *next) along() {
	taken := map[int]bool{}
	for i := range n.list {
		w := &n.list[i]
		for j := range n.list {
			r := &n.list[j]
			if n.out[i] && !n.out[j] && !taken[j] && w.fitsWith(n.g, r) {
				w.With, taken[j] = r.Food, true
				break
			}
		}
	}
}

// fitsWith reports whether the only run of another food takes all of this one
// too, and begins before that turns: shares of a load are compared.
func (n *NextFood) fitsWith(g *ledger.Ledger, r *NextFood) bool {
	s, _ := n.Slot.Get()
	other, _ := r.Slot.Get()
	full := r.Amount.Add(r.Room)
	return s.Machine == other.Machine && r.Runs == 1 && n.Food != r.Food && r.Best.At.Before(endOf(g, n.UseBy)) &&
		n.Quantity.Over(s.load).Cmp(r.Room.Over(full)) <= 0
}

// fit finds what is in time at all, each begun as soon as somebody is there, and for
// each that is the latest start that keeps all behind it in time.
func (n *next) fit() {
	q := timetable{g: n.g, now: n.q.From, free: map[int]time.Time{}}
	first := make([]time.Time, len(n.list))
	for i := range n.list {
		w := &n.list[i]
		if n.out[i] {
			continue
		}
		w.Runs = 0
		s, _ := w.Slot.Get()
		at, ok := n.opens(q.freeAt(s.Machine), s.length, n.q.Step)
		if first[i] = at; !ok {
			continue
		}
		if at, ok = n.lastStart(at, s.Cycles, s.length); ok && at.Before(endOf(n.g, w.UseBy)) {
			w.Runs, q.free[s.Machine] = s.Cycles, at.Add(s.length) // else it keeps nothing waiting
		}
	}
	// Backwards: how late one may begin hangs on what waits behind it.
	end := map[int]time.Time{}
	for i := len(n.list) - 1; i >= 0; i-- {
		w := &n.list[i]
		if w.Runs == 0 || n.out[i] {
			continue
		}
		s, _ := w.Slot.Get()
		// Its last run begins no later than the last second before it turns, and ends before
		// what waits behind must begin; so does each before it.
		w.Latest = n.q.From.AddDate(1, 0, 0)
		if w.UseBy != exact.NoDate {
			w.Latest = endOf(n.g, w.UseBy).Add(-time.Second)
		}
		if by, ok := end[s.Machine]; ok && by.Add(-s.length).Before(w.Latest) {
			w.Latest = by.Add(-s.length)
		}
		for run := w.Runs; run > 1; run-- {
			w.Latest = n.closes(w.Latest, s.length).Add(-s.length)
		}
		if w.Latest = n.closes(w.Latest, s.length); w.Latest.Before(first[i]) {
			w.Latest = first[i]
		}
		end[s.Machine] = w.Latest
	}
}

// attended reports whether somebody is there to load at a time, and to unload once so
// long is over.
func (n *next) attended(at time.Time, length time.Duration) bool {
	zone, always := n.g.Settings.Zone, energy.Window{}
	return n.q.Start.Or(always).Has(at, zone) && n.q.Finish.Or(always).Has(at.Add(length), zone)
}

// opens is the first start from a time on at which somebody is there: that itself, or
// one on a step; false where there is none within a week.
func (n *next) opens(from time.Time, length, step time.Duration) (time.Time, bool) {
	step = max(step, time.Minute)
	for at := from; at.Before(from.AddDate(0, 0, 7)); at = onStep(at.Add(time.Second), step) {
		if n.attended(at, length) {
			return at, true
		}
	}
	return from, false
}

// lastStart is when the last of so many runs begins of which the first does at a time,
// each once the one before has ended and somebody is there.
func (n *next) lastStart(at time.Time, runs int, length time.Duration) (last time.Time, ok bool) {
	for last, ok = at, true; ok && runs > 1; runs-- {
		last, ok = n.opens(last.Add(length), length, time.Minute)
	}
	return last, ok
}

// closes is the last start up to a time at which somebody is there: that itself, or a
// whole minute before it within a week.
func (n *next) closes(by time.Time, length time.Duration) time.Time {
	for at := by; at.After(by.AddDate(0, 0, -7)); at = at.Add(-time.Second).Truncate(time.Minute) {
		if n.attended(at, length) {
			return at
		}
	}
	return by
}

// start finds the cheapest start of a food's first run.
func (n *next) start(i int) error {
	w := &n.list[i]
	if w.Runs == 0 {
		return nil
	}
	s, _ := w.Slot.Get()
	food := &n.g.Foods[w.Food]
	most, _ := n.g.Machines[s.Machine].Capacity(food).Most.Get()
	w.Amount = w.Quantity.Min(most)
	w.Room = most.Sub(w.Amount)
	q := n.q
	q.Item, q.Machine, q.Load = food.ID, n.g.Machines[s.Machine].ID, food.Basis.Of(w.Amount)
	q.By = exact.Some(w.Latest)
	if free, ok := n.free[s.Machine]; ok && free.After(q.From) {
		q.From = free
	}
	r, err := When(n.g, q)
	if err != nil {
		return err
	}
	rest := r.Cycle.Dryer.CycleCost(&WorthQuery{})
	for _, best := range r.Best {
		if !best.At.After(w.Latest) {
			last, _ := n.lastStart(best.At, w.Runs, s.length)
			w.Best, w.Cost, w.Ends = best, best.Cost.Add(rest.Total()), last.Add(s.length)
			n.free[s.Machine] = w.Ends
			return nil
		}
	}
	w.Runs = 0 // nobody is there in time
	return nil
}
