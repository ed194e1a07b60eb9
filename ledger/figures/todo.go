package figures

import (
	"slices"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// A Task is something that a day may ask for. The most pressing come first.
type Task uint8

// The tasks.
const (
	OpenPack  Task = iota // that was packed moist, and must not stay sealed
	DryOn                 // a run of which something is not dry yet
	Finish                // a run that is on
	DryFresh              // fresh food that its machine can take in time
	TellRun               // fresh food to be dried, where something does not tell when
	UseFresh              // fresh food that is better eaten, or frozen, than dried
	LookOver              // fresh food past its last day
	KeepFresh             // other fresh food
	PackRun               // what of it awaits packing
	EatPack               // what is in store, the first to be due of each food
)

// soonDays is how many days off something that is to be used counts as urgent.
const soonDays = 3

// A ToDo is one thing that a day asks for. What is best done is decided here alone,
// so that no two screens advise differently.
type ToDo struct {
	Task
	Urgent   bool         // today, or within [soonDays]
	Run      int          // position, of a run
	Running  *RunningNow  // to finish
	Awaiting []Awaiting   // of a run that awaits packing
	Fresh    *Waiting     // fresh food
	Next     *NextFood    // when it is cheapest to start, where that was worked out
	Untimed  *UntimedWait // what does not tell when
	// Free is when the machine can take fresh food to be dried that has no start in Next,
	// as what is frozen: after the runs that Next advises, unless it turns before.
	Free time.Time
	// Freeze says that fresh food is to be frozen rather than eaten.
	Freeze bool
	Pack   *PackInStore // in store
	Named  bool         // the food has moist packs too: this one is taken by its name
}

// Loses reports whether fresh food is not to be dried because a run of its own
// costs more than it is worth.
func (t *ToDo) Loses() bool { return t.Task == UseFresh && t.Next != nil && t.Next.Runs > 0 }

// ToDo lists what the day asks for: packs that are a danger, what is in the machines, what
// awaits packing, fresh food by the day it turns, what can be saved first, and what to eat first of the store.
func (r *TodayResult) ToDo(g *ledger.Ledger) (list []ToDo) {
	moist := map[int]bool{} // foods
	for i := range r.Store {
		if p := &r.Store[i]; g.Moist(p.Pack) {
			moist[p.Food] = true
			list = append(list, ToDo{Task: OpenPack, Urgent: true, Pack: p})
		}
	}
	for i := range r.Running {
		run := &r.Running[i]
		end, known := run.End.Get()
		list = append(list, ToDo{Task: Finish, Urgent: known && !end.After(r.Now), Run: run.Run, Running: run})
	}
	list = append(list, r.packing(g)...)
	list = append(list, r.fresh(g)...)
	seen := map[int]bool{}
	for i := range r.Store {
		if p := &r.Store[i]; !seen[p.Food] && !g.Moist(p.Pack) {
			seen[p.Food] = true
			list = append(list, ToDo{Task: EatPack, Pack: p, Named: moist[p.Food]})
		}
	}
	return list
}

// packing is what each run asks for that awaits packing.
func (r *TodayResult) packing(g *ledger.Ledger) (list []ToDo) {
	for _, a := range r.Awaiting {
		i := slices.IndexFunc(list, func(t ToDo) bool { return t.Run == a.Run })
		if i < 0 {
			i = len(list)
			t := ToDo{Task: PackRun, Urgent: true, Run: a.Run}
			if _, moist := g.Wettest(a.Run); moist {
				t.Task = DryOn
			}
			list = append(list, t)
		}
		list[i].Awaiting = append(list[i].Awaiting, a)
	}
	return list
}

// fresh is what each fresh food asks for, by the day it turns; but what is past its
// day comes behind what can still be saved of the days to come, by the machine or soon.
// Past food stays before what is to be frozen or eaten of the same kind, since both
// take the oldest first.
func (r *TodayResult) fresh(g *ledger.Ledger) []ToDo {
	var save, past, wait []ToDo
	behind := r.behind(g)
	for i := range r.Fresh {
		switch t := r.freshToDo(g, &r.Fresh[i], behind); {
		case t.Task == LookOver:
			past = append(past, t)
		case len(past) > 0 && (t.Urgent || t.Task == DryFresh || t.Task == TellRun):
			save = append(save, t)
		default:
			wait = append(wait, t)
		}
	}
	var list []ToDo
	for _, t := range save {
		if t.Task == UseFresh || t.Task == KeepFresh {
			older := func(o ToDo) bool { return o.Fresh.Food == t.Fresh.Food }
			for _, o := range past {
				if older(o) {
					list = append(list, o)
				}
			}
			past = slices.DeleteFunc(past, older)
		}
		list = append(list, t)
	}
	return slices.Concat(list, past, wait)
}

// behind is the machines' queues after the starts that Next advises.
func (r *TodayResult) behind(g *ledger.Ledger) timetable {
	q := timetable{g: g, now: r.Now, free: map[int]time.Time{}}
	for i := range r.Next {
		n := &r.Next[i]
		s, _ := n.Slot.Get()
		if n.Runs > 0 && !n.Loses() && n.Ends.After(q.freeAt(s.Machine)) {
			q.free[s.Machine] = n.Ends
		}
	}
	return q
}

// freshToDo is what is best done with fresh food in hand.
func (r *TodayResult) freshToDo(g *ledger.Ledger, w *Waiting, behind timetable) ToDo {
	t := ToDo{Task: KeepFresh, Fresh: w, Next: r.NextOf(w), Urgent: w.UseBy != exact.NoDate && w.UseBy <= r.Day+soonDays}
	slot, dried := w.Slot.Get()
	if t.Next == nil && r.Next != nil {
		if after, ok := behind.enter(w).Get(); ok && after.InTime {
			slot = after
		}
	}
	machine, meant := driedIn(g, w.Food)
	switch {
	case w.Turned(r.Day):
		t.Task = LookOver
	case t.Next != nil && (t.Next.Runs == 0 || t.Next.Loses()), t.Next == nil && dried && !slot.InTime:
		t.Task = UseFresh
	case dried:
		t.Task, t.Free = DryFresh, slot.First
	case meant && !w.Frozen:
		u := untimed(g, machine, *w)
		t.Task, t.Untimed = TellRun, &u
	}
	t.Freeze = w.Freezable && (t.Task == UseFresh || t.Task == KeepFresh && t.Urgent)
	return t
}
