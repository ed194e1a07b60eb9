package main

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/intake"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

// mostGaps is how many gaps of a log a person is shown.
const mostGaps = 20

// sayMeter says what a log has, and what was left out of it.
func (a *app) sayMeter(in *meterIn) {
	say := func(format string, args ...any) { fmt.Fprintln(a.stdout, printable(fmt.Sprintf(format, args...))) }
	r := in.about
	say("%s: %d rows of %s in %v, from %s to %s.", in.file, r.Rows, exact.Quote(r.ValueColumn), r.Unit, in.local(r.First), in.local(r.Last))
	say("%d samples kept, %s kWh within run %s.", r.Samples, in.fixed(in.kwh), in.run.ID)
	if r.Solar != "" {
		say("%s kWh of them came from the roof, by %s.", in.fixed(in.solar), r.Solar)
	}
	if kwh, ok := in.run.KWh.Get(); ok {
		say("The run has a metered total of %s kWh: the log is scaled to it, and only says when.", in.show.Number(kwh))
	}
	if !in.ended {
		say("The run has neither phases nor an end: it counts to the end of the log (putby edit run %s end=\"...\").", in.run.ID)
	}
	for i, g := range r.Gaps {
		if i == mostGaps {
			say("  and %d gaps more", r.GapCount-i)
			break
		}
		say("  gap from %s to %s (line %d)", in.local(g.From), in.local(g.To), g.Line)
	}
	if r.RollOvers > 0 {
		say("The running total started again %s.", map[bool]string{true: "once", false: fmt.Sprint(r.RollOvers, " times")}[r.RollOvers == 1])
	}
	for _, note := range logNotes(&r, in.bridged) {
		say("  * %s", note)
	}
}

// logNotes say what of a log was passed over or changed.
func logNotes(r *intake.LogReport, bridged bool) (notes []string) {
	note := func(n int64, things, text string) {
		if n == 1 {
			things = strings.TrimSuffix(things, "s")
		}
		if n > 0 {
			notes = append(notes, fmt.Sprintf("%d %s %s", n, things, text))
		}
	}
	if len(r.Unread) > 0 {
		unread := make([]string, len(r.Unread))
		for i, name := range r.Unread {
			unread[i] = exact.Quote(name)
		}
		notes = append(notes, fmt.Sprintf("read the watts in %s, not the kWh in %s", exact.Quote(r.ValueColumn), strings.Join(unread, ", ")))
	}
	note(r.Blank, "rows", "without a value, passed over")
	note(r.Rounded, "values", "with digits finer than the ninth place, rounded half to even")
	gaps := "nothing is drawn in them"
	switch {
	case r.Unit.Dimension() == exact.Energy:
		gaps = "what the running total rose by is spread evenly over them"
	case bridged:
		gaps = "bridged by a straight line"
	}
	note(int64(r.GapCount), "gaps", "longer than "+exact.FormatDuration(r.MaxGap.Truncate(time.Second))+": "+gaps)
	return notes
}

// fixed writes kWh with all their places.
func (in *meterIn) fixed(kwh exact.Ratio) string {
	return in.show.Locale.Number(kwh.Round(energy.KWhPlaces, exact.HalfAway).Fixed(energy.KWhPlaces))
}

// local writes an instant as the clocks of the ledger show it.
func (in *meterIn) local(t time.Time) string {
	t = t.In(in.zone)
	return in.show.Local(t) + t.Format(":05")
}

// splitRecorded suggests phases by the log that a run has.
func (a *app) splitRecorded(name string) error {
	rec, faults, err := folder.Read(a.ledgerDir())
	if err != nil {
		return err
	}
	run, err := findRun(rec, name)
	if err != nil {
		return errors.Join(faults.Err(), err)
	}
	log := rec.Meters[run.ID]
	if log == nil {
		return notFound("run "+run.ID+" has no meter log", "putby run meter "+run.ID+" FILE takes one over")
	}
	return a.saySplit(rec, run, log)
}

// saySplit prints the phases that a log suggests, and how to record them.
func (a *app) saySplit(rec *ledger.Records, run *ledger.Run, log *energy.Log) error {
	d, phases, err := reports.SuggestedPhases(rec, run, log)
	if err != nil {
		return err
	}
	if err := a.print(d, output{format: "table"}); err != nil || phases == nil {
		return err
	}
	fmt.Fprintln(a.stdout, "\nNone of it is recorded. These commands would:")
	if run.End.Given() {
		fmt.Fprintf(a.stdout, "  putby edit run %s end=\n", run.ID)
	}
	if ledger.HasPhases(rec, run) {
		fmt.Fprintf(a.stdout, "  putby remove phase %s\n", run.ID)
	}
	for i, p := range phases {
		fmt.Fprintf(a.stdout, "  putby phase add --run %s --step %d --phase %s --duration %s\n", run.ID, i+1, p.Name, exact.FormatDuration(p.Length))
	}
	return nil
}
