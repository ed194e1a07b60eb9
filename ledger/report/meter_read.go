package report

import (
	"fmt"
	"strings"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/intake"
	"putby/pricing/exact"
)

// MeterRead is a plug meter's log as it was read for a run.
type MeterRead struct {
	File       string // its name
	Run        *ledger.Run
	Ended      bool // the records say when the run ended
	Log        *energy.Log
	KWh, Solar exact.Ratio // within the run, and what of it came from the roof
	About      intake.LogReport
	Bridged    bool // a straight line is drawn across gaps
	Settings   *ledger.Settings
}

// Words say what the log has, and what was left out of it.
func (m *MeterRead) Words() (words []string) {
	say := func(format string, args ...any) { words = append(words, fmt.Sprintf(format, args...)) }
	r, p := &m.About, phrasingOf(m.Settings)
	kwh := func(n exact.Ratio) string { return QuotientOf(n, energy.KWhPlaces).Shown(p.currency, p.show) }
	say("%s: %s rows of %s in %v, from %s to %s.", m.File, p.count(int(r.Rows)), exact.Quote(r.ValueColumn), r.Unit, m.second(r.First), m.second(r.Last))
	say("%s samples kept, %s kWh within run %s.", p.count(r.Samples), kwh(m.KWh), m.Run.ID)
	if r.Solar != "" {
		say("%s kWh of them came from the roof, by %s.", kwh(m.Solar), r.Solar)
	}
	if total, ok := m.Run.KWh.Get(); ok {
		say("The run has a metered total of %s kWh: the log is scaled to it, and only says when.", p.number(total))
	}
	if !m.Ended {
		say("The run has neither phases nor an end: it counts to the end of the log (%s).", p.show.Say(advice.Do(advice.Edit, "run", m.Run.ID).Such("end", "DATE TIME")))
	}
	words = append(words, firstOf(r.Gaps, r.GapCount, "  and %d gaps more", func(g intake.LogGap) string {
		return fmt.Sprintf("  gap from %s to %s (line %d)", m.second(g.From), m.second(g.To), g.Line)
	})...)
	if r.RollOvers == 1 {
		say("The running total started again once.")
	} else if r.RollOvers > 0 {
		say("The running total started again %d times.", r.RollOvers)
	}
	for _, note := range m.notes() {
		say("  * %s", note)
	}
	return words
}

// notes say what of the log was passed over or changed.
func (m *MeterRead) notes() (notes []string) {
	r := &m.About
	if len(r.Unread) > 0 {
		notes = append(notes, fmt.Sprintf("read the watts in %s, not the kWh in %s", exact.Quote(r.ValueColumn), strings.Join(worded(r.Unread, exact.Quote), ", ")))
	}
	gaps := "nothing is drawn in them"
	switch {
	case r.Unit.Dimension() == exact.Energy:
		gaps = "what the running total rose by is spread evenly over them"
	case m.Bridged:
		gaps = "bridged by a straight line"
	}
	for _, of := range []struct {
		n           int
		thing, text string
	}{
		{int(r.Blank), "row", "without a value, passed over"},
		{int(r.Rounded), "value", "with digits finer than the ninth place, rounded half to even"},
		{r.GapCount, "gap", "longer than " + exact.FormatDuration(r.MaxGap.Truncate(time.Second)) + ": " + gaps},
	} {
		if of.n > 0 {
			notes = append(notes, phrasingOf(m.Settings).counted(of.n, of.thing)+" "+of.text)
		}
	}
	return notes
}

// second writes an instant to the second, as the clocks of the ledger show it.
func (m *MeterRead) second(t time.Time) string {
	t = t.In(m.Settings.Zone)
	return m.Settings.Show().Local(t) + t.Format(":05")
}
