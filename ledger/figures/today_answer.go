package figures

import (
	"putby/ledger"
	"putby/pricing/exact"
)

// SoonDays is how many days off something that is to be used counts as urgent.
const SoonDays = 3

// A TodayAnswer is what has to be done on a day.
type TodayAnswer struct {
	Ended []int // runs that, as usual, have ended and are to be finished
	Pack  []int // runs to be packed, in order of the records
	DryOn []int // runs of which a food is not dry, to be dried on before they are packed
	Moist []int // packs that were not dry
	Fresh []int // positions in the result's Fresh: turned, or to be used within [SoonDays]
	Past  int   // packs beyond their best-by
}

// None reports whether nothing has to be done.
func (a *TodayAnswer) None() bool {
	return len(a.Ended)+len(a.Pack)+len(a.DryOn)+len(a.Moist)+len(a.Fresh)+a.Past == 0
}

// Answer is what has to be done now.
func (r *TodayResult) Answer(g *ledger.Ledger) TodayAnswer {
	a := TodayAnswer{Moist: r.Moist}
	for _, run := range r.Running {
		if end, ok := run.End.Get(); ok && !end.After(r.Now) {
			a.Ended = append(a.Ended, run.Run)
		}
	}
	for i, w := range r.Awaiting {
		if i > 0 && r.Awaiting[i-1].Run == w.Run {
			continue
		}
		if _, moist := g.Wettest(w.Run); moist {
			a.DryOn = append(a.DryOn, w.Run)
		} else {
			a.Pack = append(a.Pack, w.Run)
		}
	}
	for i := range r.Fresh {
		if by := r.Fresh[i].UseBy; by != exact.NoDate && by <= r.Day+SoonDays {
			a.Fresh = append(a.Fresh, i)
		}
	}
	for i := range r.Store {
		if r.Store[i].Past {
			a.Past++
		}
	}
	return a
}
