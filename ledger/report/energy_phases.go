package report

import (
	"strconv"

	"putby/energy"
	"putby/ledger"
	"putby/ledger/advice"
	"putby/pricing/exact"
)

// SuggestedPhases reports the phases that a run's meter log suggests, and how to record
// them. They are an estimate for a person to look at, and are recorded nowhere. A log
// that tells no phases apart gives a report that says why, and nothing to do.
func SuggestedPhases(rec *ledger.Records, run *ledger.Run, log *energy.Log) (d Doc, do []advice.Doing) {
	d = Doc{Title: "Phases that the meter log of run " + run.ID + " suggests"}
	found, err := energy.SuggestPhases(log)
	if err != nil {
		d.Words = []string{"None: " + err.Error() + "."}
		return d, nil
	}
	t := &Table{Columns: []Column{
		{Key: "phase", Title: "phase"}, {Key: "start", Title: "start"}, {Key: "end", Title: "end", Rank: 1},
		{Key: "duration", Title: "duration"}, {Key: "watts", Title: "mean W", Rank: 2}, {Key: "kwh", Title: "kWh", Rank: 3},
		{Key: "confidence", Title: "confidence"},
	}}
	// An end and phases exclude each other ([energy.ErrEndAndPhases]), and a step stands once: what is
	// recorded goes first.
	if run.End.Given() {
		do = append(do, advice.Do(advice.Edit, "run", run.ID).With("end"))
	}
	if ledger.HasPhases(rec, run) {
		do = append(do, advice.Do(advice.Remove, "phase", run.ID))
	}
	at := run.Start // phases follow each other from there, wherever the log begins to draw
	for i, p := range found {
		length := max(p.End.Sub(at), 0)
		do = append(do, advice.Do(advice.AddPhase).With("run", run.ID).With("step", strconv.Itoa(i+1)).With("phase", p.Name).With("duration", exact.FormatDuration(length)))
		t.add(TextOf(p.Name), MomentOf(at.In(rec.Settings.Zone)), MomentOf(p.End.In(rec.Settings.Zone)), SpanOf(length),
			estimateOf(p.Watts, 0), QuotientOf(log.Energy(at, p.End), energy.KWhPlaces), estimateOf(p.Confidence, 2))
		at = at.Add(length)
	}
	d.Fields = []Field{field("phases", "Phases", t)}
	d.Notes = []string{
		"Where phases begin is an estimate, to a few minutes. The confidence of each, from 0 to 1, tells how plainly the log shows its start; it is a rule of thumb.",
		"Holding and defrosting are not told apart.",
	}
	return d, do
}

// estimateOf shows an estimate with so many decimals.
func estimateOf(e energy.Estimate, decimals int) Value {
	n, known := e.Number(exact.QuantityPlaces)
	return onlyIf(known, QuotientOf(exact.RatioOf(n), decimals).Estimated())
}
