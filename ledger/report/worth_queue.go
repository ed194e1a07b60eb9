package report

import (
	"fmt"
	"slices"
	"strings"

	"putby/ledger/figures"
	"putby/pricing/exact"
)

// queueNotes say what food in hand goes into the machine before which offers,
// what waits for all of them, and what is not counted on.
func (r reporting) queueNotes(offers []*figures.Facts) (notes noteList) {
	asked := func(f *figures.Facts) bool { return f.Queue.Asked }
	if slices.ContainsFunc(offers, asked) {
		return nil
	}
	first := map[string][]string{} // what goes before them, by what it is
	var order []string
	ahead := map[int]bool{}
	for _, f := range offers {
		for _, w := range f.Queue.First {
			slot, _ := w.Slot.Get()
			// A format: which offers it goes before is known once all have been gone through.
			what := strings.ReplaceAll(r.inHand(w), "%", "%%") + " goes into the machine %s: " + counted(slot.Cycles, "run")
			order, first[what] = Once(order, what), Once(first[what], r.title(f.Dried))
			ahead[w.Food] = true
		}
	}
	for _, what := range order {
		when := "first"
		if slices.ContainsFunc(offers, func(f *figures.Facts) bool { return !slices.Contains(first[what], r.title(f.Dried)) }) {
			when = "before " + Listed(first[what])
		}
		notes.addf(what, when)
	}
	for _, f := range offers {
		for _, w := range f.Queue.Behind {
			switch {
			case ahead[w.Food] && len(offers) > 1:
			case w.UseBy == exact.NoDate:
				notes.add(r.inHand(w) + " waits")
			default:
				notes.addf("%s keeps until %s and waits", r.inHand(w), r.day(w.UseBy))
			}
		}
	}
	for _, f := range offers {
		for _, w := range f.Queue.Losing {
			if !ahead[w.Food] {
				notes.addf("%s does not pay for a run of its own, and keeps nothing waiting", r.inHand(w))
			}
		}
	}
	for _, f := range offers {
		for _, w := range f.Queue.Unknown {
			notes.addf("%s is not counted on: nothing tells how much of it a run takes, or how long", r.inHand(w))
		}
	}
	return notes
}

// inHand is food that waits, in words.
func (r reporting) inHand(w figures.Waiting) string {
	food := &r.g.Foods[w.Food]
	return fmt.Sprintf("%s of %s in hand", r.amount(w.Quantity, food.Basis), food.Title())
}

// roomBefore says that what is in hand of the same food could share its run with the
// offer, which is counted in runs of its own.
func (a *answer) roomBefore() (notes noteList) {
	if room, ok := a.RoomBefore().Get(); ok {
		notes.addf("the last run of the %s in hand has room for %s of the offer: that is not counted, the offer is taken to be dried in runs of its own",
			a.title(a.Dried), a.amount(room, a.unit()))
	}
	return notes
}

// tooLate says what waits behind an offer and would be in time without it, and is
// not once its runs go first.
func (a *answer) tooLate() (notes noteList) {
	if a.Queue.Asked || a.Best.Cycles == 0 {
		return nil
	}
	for i, w := range a.BehindAfter(a.Best.Cycles) {
		alone, _ := a.Queue.Behind[i].Slot.Get()
		if slot, _ := w.Slot.Get(); alone.InTime && !slot.InTime {
			notes.addf("%s is too late behind %s of this: dry it first, or buy less", a.inHand(w), counted(a.Best.Cycles, "run"))
		}
	}
	return notes
}
