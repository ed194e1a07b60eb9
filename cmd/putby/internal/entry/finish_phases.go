package entry

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// slack is how far phases may be off the time that somebody read off a clock.
const slack = time.Minute

// end notes when the run ended: by its phases where it has any, else by the
// clock.
func (f *finishing) end() error {
	in := &f.in
	switch {
	// More time is for a run that goes on; of one that is over nobody may have said anything new.
	case len(in.More) > 0, !f.run.Running && in.At == "" && len(in.Phases) == 0 && !in.AsUsual:
		return nil
	case len(in.Phases) > 0 && in.AsUsual:
		return wrong("phases", 0, typed("", f.b.part("as-usual")+" stands for "+f.b.part("phase")+": give one of the two"))
	}
	at, said, known, err := f.ended()
	if err != nil {
		return err
	}
	given, err := phaseRows(f.b.Records, f.run.ID, "phases", in.Phases, nextStep(f.b.Records, f.run.ID))
	if err != nil {
		return err
	}
	// What a person says of the phases counts first, then what is known: none, too few, enough.
	switch sofar := f.sofar(); {
	case in.AsUsual:
		return f.asUsual(at, known)
	case len(sofar)+len(given) == 0:
		return f.byClock(at)
	case len(given) == 0 && f.fallsShort(at, said):
		return f.fillUp(at)
	}
	return f.byPhases(given, at, said)
}

// byClock notes the end of a run without phases.
func (f *finishing) byClock(at time.Time) error {
	if !f.metered() {
		why := fmt.Sprintf("how much electricity did run %s use? Give the meter's kWh (%s), or each phase (%s)", f.run.ID, f.b.part("kwh", f.b.At.Locale.Typed("17.4")), f.b.part("phase", "primary 22h"))
		if model, ok := figures.Model(f.g, f.i); ok {
			why += ", or " + f.b.part("as-usual") + " for the phases of run " + f.g.Records.Runs[model].ID
		}
		return wrong("kwh", 0, typed("", why))
	}
	f.cells["end"] = f.b.cell(at)
	return nil
}

// metered reports whether a meter tells what the run used.
func (f *finishing) metered() bool {
	return strings.TrimSpace(f.in.KWh) != "" || f.run.KWh.Given() || f.g.Meters[f.run.ID] != nil
}

// A span is a phase of the run, recorded or to be.
type span struct {
	name   ledger.PhaseName
	length time.Duration           // how long it lasts; each begins where the one before ends
	watts  exact.Opt[exact.Number] // average draw, in W; not given: what is usual of the machine counts
	kwh    bool                    // metered by itself
	line   int                     // 0: it is new
	step   int                     // its number in the run, from 1; 0: it is new
}

// sofar are the phases recorded so far, in order.
func (f *finishing) sofar() (list []span) {
	for _, row := range f.g.PhasesOf(f.i) {
		p := f.g.Records.Phases.At(int(row))
		list = append(list, span{p.Phase, p.Length, p.Watts, p.KWh.Given(), int(p.Line), int(p.Step)})
	}
	return list
}

func sumOf(list []span) (sum time.Duration) {
	for _, s := range list {
		sum += s.length
	}
	return sum
}

// phaseRows reads phases of a run as they are typed, the first one's step given.
func phaseRows(rec *ledger.Records, run, part string, texts []string, step int) (rows []Row, err error) {
	var bad Wrongs
	for i, text := range texts {
		row, err := ParsePhase(rec, run, step+i, text)
		if err == nil {
			err = checkPhase(text, row)
		}
		bad.add(part, i+1, err)
		rows = append(rows, row)
	}
	return rows, bad.Err()
}

// checkPhase refuses a phase that is none, or lasts no time.
func checkPhase(text string, row Row) error {
	words := ledger.MustKind("phase").Column("phase").Words
	if name := row.Cells["phase"]; !slices.Contains(words, name) {
		why := quote(name) + " is no phase: " + OrList(words)
		if near := ledger.Nearest(name, words); near != "" {
			why = quote(name) + " is no phase; did you mean " + near + "?"
		}
		return typed(text, why)
	}
	if d, err := exact.ParseDuration(row.Cells["duration"]); err != nil || d <= 0 {
		return typed(text, quote(row.Cells["duration"])+" is no length of time: write it as 22h30m or 25m")
	}
	return nil
}

// spansOf are rows of phases as spans.
func spansOf(rows []Row) (list []span) {
	words := ledger.MustKind("phase").Column("phase").Words
	for _, row := range rows {
		s := span{name: ledger.PhaseName(slices.Index(words, row.Cells["phase"])), kwh: row.Cells["kwh"] != ""}
		s.length, _ = exact.ParseDuration(row.Cells["duration"])
		if n, err := exact.ParseNumber(row.Cells["watts"]); err == nil {
			s.watts = exact.Some(n)
		}
		list = append(list, s)
	}
	return list
}

// byPhases lets the phases recorded so far, and those given, say when the run
// ended.
func (f *finishing) byPhases(given []Row, at time.Time, said bool) error {
	all := append(f.sofar(), spansOf(given)...)
	end := f.run.Start.Add(sumOf(all))
	switch off := end.Sub(at); {
	case said && (off > slack || off < -slack):
		return wrong("phases", 0, typed("", fmt.Sprintf("the phases of run %s last %s, until %s, and it ended on %s: correct a phase or the time", f.run.ID, exact.FormatDuration(sumOf(all)), f.b.moment(end), f.b.moment(at))))
	case f.run.End.Given(): // an end beside phases is a fault
		f.cells["end"] = ""
	}
	if err := f.b.past(end); err != nil {
		return err
	}
	if err := f.powered(all); err != nil {
		return err
	}
	f.draft.Rows = append(f.draft.Rows, given...)
	return nil
}

// powered refuses phases of which nothing says how much they used.
func (f *finishing) powered(all []span) error {
	m, ok := f.g.FindMachine(f.run.Machine)
	if f.metered() || !ok {
		return nil
	}
	for _, s := range all {
		if !s.kwh && !s.watts.Given() && !f.g.Watts(m, s.name).Given() {
			return wrong("kwh", 0, typed("", fmt.Sprintf("nothing says how much electricity the phase %v used: give the meter's kWh (%s), its own watts (\"%[1]v 8h 450 W\"), or what the machine usually draws then (%[3]s)", s.name, f.b.part("kwh", f.b.At.Locale.Typed("17.4")),
				f.b.Records.Settings.Say(advice.Do(advice.AddWattage).With("machine", f.run.Machine).With("phase", fmt.Sprint(s.name)).With("watts", "450")))))
		}
	}
	return nil
}

// fallsShort reports whether the phases recorded so far cannot be the whole run:
// they end before it did, or where nobody said when that was, last less than
// four fifths of what is usual.
func (f *finishing) fallsShort(at time.Time, said bool) bool {
	sum := sumOf(f.sofar())
	if said || !f.run.Running {
		return f.run.Start.Add(sum + slack).Before(at)
	}
	if usual, ok := figures.UsualEnd(f.g, f.i).Get(); ok && usual.Before(at) {
		at = usual
	}
	return 5*sum < 4*at.Sub(f.run.Start)
}

// fillUp adds the usual phases to those recorded so far, where a meter tells what
// all of them used.
func (f *finishing) fillUp(at time.Time) error {
	if _, ok := figures.Model(f.g, f.i); ok && f.metered() {
		return f.asUsual(at, true)
	}
	return wrong("phases", 0, typed("", fmt.Sprintf("the phases of run %s so far last %s, and it ran %s: give the others (%s), or %s",
		f.run.ID, exact.FormatDuration(sumOf(f.sofar())), exact.FormatDuration(at.Sub(f.run.Start)), f.b.part("phase", "primary 22h"), f.b.part("as-usual"))))
}

// asUsual records the phases of the food's last good run behind those so far, so
// that they end at the end.
func (f *finishing) asUsual(at time.Time, known bool) error {
	model, ok := figures.Model(f.g, f.i)
	if !ok {
		return typed("", fmt.Sprintf("no finished run of %s on %s has phases to go by: give them, as in %s, or the meter's %s", f.g.Foods[f.g.Runs[f.i].Items[0].Food].Title(), titleAmong(f.b.Records.NamedMachines(), f.run.Machine), f.b.part("phase", "primary 22h"), f.b.part("kwh")))
	}
	from := f.g.Records.Runs[model].ID
	fitted := phaseFit{sofar: f.sofar(), same: figures.Begun(f.g, f.i, model), known: known, total: at.Sub(f.run.Start)}
	for _, row := range f.g.PhasesOf(model) {
		p := f.g.Records.Phases.At(int(row))
		fitted.usual = append(fitted.usual, span{name: p.Phase, length: p.Length, watts: p.Watts})
	}
	// A run that is over has its phases already: the usual ones would come on top of them.
	if !f.run.Running && len(fitted.sofar) > 0 {
		return typed("", fmt.Sprintf("run %s has phases already: %s lists them", f.run.ID, f.b.say(advice.Show("run"), f.run.ID)))
	}
	list, ok := fitted.fit()
	if !ok {
		return typed("", fmt.Sprintf("run %s took %s, which the phases of run %s cannot be fitted to: give its own, as in %s", f.run.ID, exact.FormatDuration(fitted.total), from, f.b.part("phase", "primary 22h")))
	}
	if err := f.powered(list); err != nil {
		return err
	}
	f.record(list)
	f.addNote("phases as run " + from + fitted.changed)
	// A run with phases ends with the last of them: an end beside them would be a fault.
	if f.run.End.Given() {
		f.cells["end"] = ""
	}
	return nil
}

// record writes phases, and the new place of those that are there.
func (f *finishing) record(list []span) {
	k := ledger.MustKind("phase")
	for i, s := range list {
		step := strconv.Itoa(i + 1)
		switch {
		case s.line == 0:
			cells := map[string]string{"run": f.run.ID, "step": step, "phase": s.name.String(), "duration": exact.FormatDuration(s.length)}
			if n, ok := s.watts.Get(); ok {
				cells["watts"] = n.String()
			}
			f.draft.Rows = append(f.draft.Rows, Row{k, cells})
		case s.step != i+1:
			f.draft.Sets = append(f.draft.Sets, Set{Kind: k, Line: s.line, Cells: map[string]string{"step": step}})
		}
	}
}
