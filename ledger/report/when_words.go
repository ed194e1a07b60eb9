package report

import (
	"fmt"
	"strings"

	"putby/energy"
	"putby/ledger/advice"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// words are the answer in sentences.
func (w *whenAnswer) words() []string {
	if len(w.Best) == 0 {
		return []string{w.tooLate() + w.noStart() + " " + w.atOnce()}
	}
	best := w.Best[0]
	if best.At.Equal(w.Now.At) {
		return []string{w.tooLate() + fmt.Sprintf("Start%s at once, on %s: its electricity costs %s, and the run is done on %s. No start %s is cheaper.", w.dryer(),
			w.moment(best.At), w.money(best.Cost, best.Start), w.moment(best.Finish), w.period())}
	}
	said := fmt.Sprintf("Start%s on %s: its electricity costs %s, and the run is done on %s. ", w.dryer(), w.moment(best.At), w.money(best.Cost, best.Start), w.moment(best.Finish))
	switch best.Saving.Sign() {
	case 1:
		said += fmt.Sprintf("That is %s less than starting at once, %s.", w.money(best.Saving, best.Start, w.Now), w.money(w.Now.Cost, w.Now))
	case 0:
		said += "Starting at once costs the same."
	default:
		said += fmt.Sprintf("Starting at once costs less, %s.", w.money(w.Now.Cost, w.Now))
	}
	if why := w.outside(); why != "" {
		said += " " + why
	}
	return []string{w.tooLate() + said}
}

// dryer is the name of the machine, where there are several.
func (w *whenAnswer) dryer() string {
	return strings.TrimPrefix(w.where("in", w.Cycle.Dryer.Machine), " in")
}

// period is the time that was searched.
func (w *whenAnswer) period() string {
	if !w.Late && w.LastInTime().Before(w.To) {
		return "by " + w.day(w.UseBy)
	}
	return "in the next " + counted(w.q.Days, "day")
}

// atOnce says what starting now costs.
func (w *whenAnswer) atOnce() string {
	return fmt.Sprintf("Starting%s at once, on %s, costs %s in electricity and is done on %s.", w.dryer(),
		w.moment(w.Now.At), w.money(w.Now.Cost, w.Now), w.moment(w.Now.Finish))
}

// outside says why starting at once is not among the starts.
func (w *whenAnswer) outside() string {
	zone := w.g.Settings.Zone
	if window, ok := w.q.Start.Get(); ok && !window.Has(w.Now.At, zone) {
		return fmt.Sprintf("Starting at once is outside %v.", window)
	}
	if window, ok := w.q.Finish.Get(); ok && !window.Has(w.Now.Finish, zone) {
		return fmt.Sprintf("Started at once, it would be done on %s, outside %v.", w.moment(w.Now.Finish), window)
	}
	return ""
}

// noStart says that no start is within the hours asked for.
func (w *whenAnswer) noStart() string {
	said := "No start " + w.period()
	if window, ok := w.q.Start.Get(); ok {
		said += fmt.Sprintf(" is within %v", window)
		if w.q.Finish.Given() {
			said += " and"
		}
	}
	if window, ok := w.q.Finish.Get(); ok {
		said += fmt.Sprintf(" is done within %v", window)
	}
	return said + "."
}

// money writes an amount of a start, marked where it is an estimate.
func (w *whenAnswer) money(m exact.Money, of ...energy.Start) string {
	s := w.phrasing.money(m.Ratio())
	if w.Cycle.Energy.Estimated() || w.guessed(of...) {
		return about + s
	}
	return s
}

// remarks are the notes of the report.
func (w *whenAnswer) remarks() []string {
	notes := w.cycleNotes()
	add := func(format string, args ...any) { notes = append(notes, fmt.Sprintf(format, args...)) }
	switch w.Cycle.Energy.Basis {
	case figures.ByLine:
		add("The electricity is an estimate: a line of kWh on load through %s, at a load of %s.", counted(w.Cycle.Energy.Runs, "run"), w.amount(w.Cycle.Load, w.food().Basis))
	case figures.ByMean:
		add("The electricity is an estimate: the mean of %s.", counted(w.Cycle.Energy.Runs, "run"))
	case figures.ByWattage:
		over := "usual phases"
		if w.Cycle.Energy.Unphased {
			over = "a usual length"
		}
		add("The electricity is an estimate: usual watts over %s.", over)
	}
	notes = append(notes, filled(hourlyRemark(w.g, w.Tariff.Name(), w.From))...)
	if w.Tariff.HasBlocks() {
		add("Blocks count the household's own use of the month first, then the runs begun by %s.", w.day(w.g.AsOf))
	}
	return append(notes, w.turningRemarks()...)
}

// cycleNotes say what a cycle is taken from, and what the machine must finish
// first.
func (w *whenAnswer) cycleNotes() []string {
	var notes noteList
	c := &w.Cycle
	if c.Length.OfOthers {
		notes.addf("no good run of %s tells how long a run takes: the median of all is taken", w.food().Title())
	}
	if c.OtherDryer {
		notes.addf("no good run of the machine tells how long a run takes: the median of runs on other machines is taken")
	}
	if len(c.Phases) == 0 {
		which := "run"
		if c.Dryer.Machine >= 0 {
			which = "good run of the machine"
		}
		notes.addf("no %s has phases: the draw is taken to be even over the run", which)
	}
	notes.add(energyNotes(w.food().Title()+" alone"+w.where("in", c.Dryer.Machine), &c.Energy)...)
	for _, wait := range w.Waits {
		notes.add(w.waitWords(wait))
	}
	return notes
}

// waitWords say what the machine is on with.
func (w *whenAnswer) waitWords(wait figures.Wait) string {
	run := &w.g.Records.Runs[wait.Run]
	machine, since, until := ItemTitle(w.g, run.Machine), w.moment(run.Start), w.moment(wait.Until)
	switch {
	case wait.Overdue:
		return fmt.Sprintf("%s is on with run %s since %s, longer than is usual: no start counts before that is finished (%s)", machine, run.ID, since, w.say(advice.Finish))
	case run.Running:
		return fmt.Sprintf("%s is on with run %s since %s: it is taken to end as usual, on %s", machine, run.ID, since, until)
	}
	return fmt.Sprintf("%s is on with run %s until %s", machine, run.ID, until)
}

// inHand names the food that may turn: "the 2.1 L of chicken broth in hand".
func (w *whenAnswer) inHand(amount exact.Number) string {
	return "the " + w.amount(amount, w.food().Basis) + " of " + w.food().Title() + " in hand"
}

// tooLate says, where no start is in time, for what it is not.
func (w *whenAnswer) tooLate() string {
	if !w.Late {
		return ""
	}
	return "No start is in time for " + w.inHand(w.Held) + ": use by " + w.day(w.UseBy) + ". The starts below are for other food. "
}

// turningRemarks say what the starts leave out, and what has turned.
func (w *whenAnswer) turningRemarks() []string {
	var notes []string
	if !w.Late && w.LastInTime().Before(w.To) {
		notes = append(notes, "Starts after "+w.day(w.UseBy)+" are left out: "+w.inHand(w.Held)+" turns then.")
	}
	if w.Gone.Sign() > 0 {
		notes = append(notes, "Of "+w.food().Title()+" "+w.amount(w.Gone, w.food().Basis)+" more in hand is past its use-by day: do not dry it; record what became of it.")
	}
	return notes
}
