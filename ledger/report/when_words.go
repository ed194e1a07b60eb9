package report

import (
	"fmt"

	"putby/energy"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// words are the answer in sentences.
func (w *whenAnswer) words() []string {
	if len(w.best) == 0 {
		return []string{w.tooLate() + w.noStart() + " " + w.atOnce()}
	}
	best := w.best[0]
	if best.At.Equal(w.now.At) {
		return []string{w.tooLate() + fmt.Sprintf("Start at once, on %s: it costs %s and is done on %s. No start %s is cheaper.",
			best.At.Format(whenForm), w.money(best.Cost, best.Start), best.Finish.Format(whenForm), w.period())}
	}
	said := fmt.Sprintf("Start on %s: it costs %s and is done on %s. ", best.At.Format(whenForm), w.money(best.Cost, best.Start), best.Finish.Format(whenForm))
	switch best.saving.Sign() {
	case 1:
		said += fmt.Sprintf("That is %s less than starting at once, %s.", w.money(best.saving, best.Start, w.now), w.money(w.now.Cost, w.now))
	case 0:
		said += "Starting at once costs the same."
	default:
		said += fmt.Sprintf("Starting at once costs less, %s.", w.money(w.now.Cost, w.now))
	}
	if why := w.outside(); why != "" {
		said += " " + why
	}
	return []string{w.tooLate() + said}
}

// period is the time that was searched.
func (w *whenAnswer) period() string {
	if !w.late && w.lastInTime().Before(w.to) {
		return "by " + w.useBy.String()
	}
	return "in the next " + counted(w.query.Days, "day")
}

// atOnce says what starting now costs.
func (w *whenAnswer) atOnce() string {
	return fmt.Sprintf("Starting at once, on %s, costs %s and is done on %s.",
		w.now.At.Format(whenForm), w.money(w.now.Cost, w.now), w.now.Finish.Format(whenForm))
}

// outside says why starting at once is not among the starts.
func (w *whenAnswer) outside() string {
	zone := w.g.Settings.Zone
	if window, ok := w.query.Start.Get(); ok && !window.Has(w.now.At, zone) {
		return fmt.Sprintf("Starting at once is outside %v.", window)
	}
	if window, ok := w.query.Finish.Get(); ok && !window.Has(w.now.Finish, zone) {
		return fmt.Sprintf("Started at once, it would be done on %s, outside %v.", w.now.Finish.Format(whenForm), window)
	}
	return ""
}

// noStart says that no start is within the hours asked for.
func (w *whenAnswer) noStart() string {
	said := "No start " + w.period()
	if window, ok := w.query.Start.Get(); ok {
		said += fmt.Sprintf(" is within %v", window)
		if w.query.Finish.Given() {
			said += " and"
		}
	}
	if window, ok := w.query.Finish.Get(); ok {
		said += fmt.Sprintf(" is done within %v", window)
	}
	return said + "."
}

// money writes an amount of a start, marked where it is an estimate.
func (w *whenAnswer) money(m exact.Money, of ...energy.Start) string {
	s := w.phrasing.money(m.Ratio())
	if w.energy.Estimated() || w.guessed(of...) {
		return about + s
	}
	return s
}

// remarks are the notes of the report.
func (w *whenAnswer) remarks() []string {
	notes := w.doubts
	add := func(format string, args ...any) { notes = append(notes, fmt.Sprintf(format, args...)) }
	switch w.energy.Basis {
	case figures.ByLine:
		add("The electricity is an estimate: a line of kWh on load through %s, at a load of %s.", counted(w.energy.Runs, "run"), w.amount(w.load, w.unit()))
	case figures.ByMean:
		add("The electricity is an estimate: the mean of %s.", counted(w.energy.Runs, "run"))
	case figures.ByWattage:
		add("The electricity is an estimate: usual watts over usual phases.")
	}
	if remark := w.hourlyRemark(); remark != "" {
		notes = append(notes, remark)
	}
	if w.tariff.HasBlocks() {
		add("Blocks count the household's own use of the month first, then the runs begun by %v.", w.g.AsOf)
	}
	return append(notes, w.turningRemarks()...)
}
