package report

import (
	"time"

	"putby/pricing/exact"
)

// A turning is what is in hand of the food that is to be dried, and when it
// turns: a start after that day is not for it.
type turning struct {
	useBy exact.Date   // the last day of what turns first; NoDate: nothing limits the starts
	held  exact.Number // in the food's unit, of all that is as good
	gone  exact.Number // what had turned already
	late  bool         // no start is in time
}

// findTurning looks at the food in hand on the day asked about. What has turned
// by then limits nothing, unless it is all there is: then no start is in time.
// Crumbs of under 1 % of a lot are no food to dry.
func (w *whenFacts) findTurning(day exact.Date) {
	t, past := &w.turning, exact.NoDate
	t.useBy = exact.NoDate
	for _, p := range w.g.FreshParts(w.dried) {
		switch by := p.UseBy; {
		case by == exact.NoDate || p.Crumb:
		case by < day:
			t.gone, past = t.gone.Add(p.Quantity), max(past, by)
		default:
			t.held = t.held.Add(p.Quantity)
			if t.useBy == exact.NoDate {
				t.useBy = by
			}
			t.useBy = min(t.useBy, by)
		}
	}
	if t.useBy == exact.NoDate && t.gone.Sign() > 0 {
		t.useBy, t.held, t.gone = past, t.gone, exact.Number{}
	}
}

// lastInTime is the last second at which a start is in time for the food in
// hand, and within the days asked about.
func (w *whenFacts) lastInTime() time.Time {
	if w.useBy == exact.NoDate {
		return w.to
	}
	if end := w.useBy.AddDays(1).Midnight(w.g.Settings.Zone).Add(-time.Second); end.Before(w.to) {
		return end
	}
	return w.to
}

// inHand names the food that may turn: "the 2.1 L of chicken broth in hand".
func (w *whenFacts) inHand(amount exact.Number) string {
	return "the " + w.amount(amount, w.unit()) + " of " + w.food().ID + " in hand"
}

// tooLate says, where no start is in time, for what it is not.
func (w *whenAnswer) tooLate() string {
	if !w.late {
		return ""
	}
	return "No start is in time for " + w.inHand(w.held) + ": use by " + w.useBy.String() + ". The starts below are for other food. "
}

// turningRemarks say what the starts leave out, and what has turned.
func (w *whenAnswer) turningRemarks() []string {
	var notes []string
	if !w.late && w.lastInTime().Before(w.to) {
		notes = append(notes, "Starts after "+w.useBy.String()+" are left out: "+w.inHand(w.held)+" turns then.")
	}
	if w.gone.Sign() > 0 {
		notes = append(notes, "Of "+w.food().ID+" "+w.amount(w.gone, w.unit())+" more in hand is past its use-by day: do not dry it; record what became of it.")
	}
	return notes
}
