package entry

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// A FinishIn is what is said of a run when it ends, or after, as a person types
// it.
type FinishIn struct {
	Run     string   // "": the one that is running
	At      string   // "": now, or when its phases end
	KWh     string   // of the meter
	Phases  []string // "primary 22h", as [ParsePhase] reads them, behind those recorded so far
	AsUsual bool     // the phases of the food's last good run
	Wet     []string // "chicken-broth 6.3 kg"; of the only food, the weight alone
	Dry     []string
	Lost    []string
	Spoiled bool
	Hands   string
	Tariff  string
	Note    string
	More    []string // "secondary 2h": time added to a run that goes on
}

// Finish records that a run ended, and what is known of it; or of one that has
// ended what was not known then. With More it only adds time to one that goes
// on.
func Finish(b *Base, in FinishIn) (*Draft, error) {
	g, err := b.Hand()
	if err != nil {
		return nil, err
	}
	f := finishing{b: b, g: g, in: in, cells: map[string]string{}, loads: map[int]map[string]string{}, draft: &Draft{}}
	if err := f.find(); err != nil {
		return nil, wrong("run", 0, err)
	}
	var bad Wrongs
	for _, step := range []func() error{f.more, f.measure, f.weigh, f.end} {
		bad.add("", 0, step())
	}
	if err := bad.Err(); err != nil {
		return nil, err
	}
	return f.close()
}

// A finishing is the end of a run in the making.
type finishing struct {
	b     *Base
	g     *ledger.Ledger
	in    FinishIn
	i     int // position of the run
	run   *ledger.Run
	cells map[string]string         // of the run, to be changed
	loads map[int]map[string]string // of its loads, by line
	draft *Draft
}

// find finds the run: the one named, or the only one that is running.
func (f *finishing) find() error {
	if text := strings.TrimSpace(f.in.Run); text != "" {
		id, err := one("run", text, byID(ledger.Runs.In(f.b.Records)))
		if err == nil {
			f.take(id)
		}
		return err
	}
	switch on := Running(f.b.Records); len(on) {
	case 0:
		hint := "no run is running: " + f.b.say(advice.Start) + " begins one"
		if last := lastRun(f.b.Records); last != "" {
			hint += "; to add to one that is finished, name it, as in " + f.b.Records.Settings.Say(advice.Do(advice.Finish, last).With("kwh", f.b.At.Locale.Typed("17.4")))
		}
		return typed("", hint)
	case 1:
		f.take(on[0])
		return nil
	default:
		return typed("", "several runs are running: say which, as in "+f.b.say(advice.Finish)+" "+OrList(on))
	}
}

// Running are the runs that are on.
func Running(rec *ledger.Records) (on []string) {
	for i := range rec.Runs {
		if rec.Runs[i].Running {
			on = append(on, rec.Runs[i].ID)
		}
	}
	return on
}

func (f *finishing) take(id string) {
	f.i, _ = f.g.FindRun(id)
	f.run = &f.g.Records.Runs[f.i]
}

// more adds time to a run that goes on, and lets nothing else end it.
func (f *finishing) more() error {
	in := &f.in
	switch {
	case len(in.More) == 0:
		return nil
	case !f.run.Running:
		return typed("", fmt.Sprintf("run %s is finished: %s adds a phase to it", f.run.ID, f.b.Records.Settings.Say(advice.Do(advice.AddPhase).With("run", f.run.ID))))
	case in.At != "" || in.Spoiled || in.AsUsual || len(in.Phases) > 0:
		return typed("", fmt.Sprintf("%s adds time to a run that goes on: leave out what ends it (%s, %s, %s, %s)", f.b.part("more"), f.b.part("at"), f.b.part("phase"), f.b.part("as-usual"), f.b.part("spoiled")))
	}
	rows, err := phaseRows(f.b.Records, f.run.ID, "more", in.More, nextStep(f.b.Records, f.run.ID))
	if err != nil {
		return err
	}
	f.draft.Rows = append(f.draft.Rows, rows...)
	return nil
}

// measure notes what the meter and the clock tell, and what became of the run.
func (f *finishing) measure() error {
	var bad Wrongs
	kwh, err := energyCell(nativeCell(f.b.Records.Settings.Locale, f.in.KWh))
	bad.add("kwh", 0, err)
	hands, err := lengthCell(f.in.Hands)
	bad.add("hands", 0, err)
	tariff, err := f.b.tariffOf(f.in.Tariff)
	bad.add("tariff", 0, err)
	f.set("kwh", kwh, f.was()["kwh"], "Run %s had %s kWh so far: now %s.")
	was := ""
	if f.run.Hands > 0 {
		was = exact.FormatDuration(f.run.Hands)
	}
	f.set("hands", hands, was, "Run %s had %s of hands-on time so far: now %s.")
	f.set("tariff", tariff, f.run.Tariff, "Run %s had the tariff %s so far: now %s.")
	f.addNote(f.in.Note)
	return bad.Err()
}

// set changes a cell of the run, and says so where it held something else.
func (f *finishing) set(column, text, was, changed string) {
	if text == "" || text == was {
		return
	}
	if f.cells[column] = text; was != "" {
		f.draft.Notes = append(f.draft.Notes, fmt.Sprintf(changed, f.run.ID, was, text))
	}
}

// addNote adds to the run's note.
func (f *finishing) addNote(text string) {
	if text = strings.TrimSpace(text); text == "" {
		return
	}
	f.cells["note"] = strings.TrimPrefix(cmp.Or(f.cells["note"], f.run.Note)+"; "+text, "; ")
}

// energyCell reads 17.4, or 17.4 kWh.
func energyCell(text string) (string, error) {
	if text = strings.TrimSpace(text); text == "" {
		return "", nil
	}
	amount := Amount(text)
	if q, err := exact.ParseQuantity(amount); err == nil && q.Unit().Dimension() == exact.Energy {
		amount = q.Base().Number().String()
	}
	n, err := exact.ParseNumber(amount)
	if err != nil || n.Sign() < 0 {
		return "", typed(text, "write the meter's kWh as 17.4")
	}
	return n.String(), nil
}

// lengthCell reads a length of time.
func lengthCell(text string) (string, error) {
	if text = strings.TrimSpace(text); text == "" {
		return "", nil
	}
	length := Length(text)
	if d, err := exact.ParseDuration(length); err != nil || d < 0 {
		return "", typed(text, "write a length of time as 25m or 1h30m")
	}
	return length, nil
}

// close gathers the draft.
func (f *finishing) close() (*Draft, error) {
	d, id, spoils := f.draft, f.run.ID, f.in.Spoiled || f.run.Spoiled
	if f.in.Spoiled && !f.run.Spoiled {
		f.cells["outcome"] = "spoiled"
		// With more time it goes on, and has no outcome yet.
	} else if f.run.Running && len(f.in.More) == 0 {
		f.cells["outcome"] = "good"
	}
	if len(f.cells) > 0 {
		d.Sets = append(d.Sets, Set{Kind: ledger.MustKind("run"), ID: id, Cells: f.cells, Was: f.was()})
	}
	for _, line := range slices.Sorted(maps.Keys(f.loads)) {
		d.Sets = append(d.Sets, Set{Kind: ledger.MustKind("load"), Line: line, Cells: f.loads[line]})
	}
	if len(d.Sets)+len(d.Rows) == 0 {
		return nil, typed("", fmt.Sprintf("run %s is finished: say what is to be added, such as %s or %s", id, f.b.part("kwh", f.b.At.Locale.Typed("17.4")), f.b.part("dry", f.b.At.Locale.Typed("0.61"), "kg")))
	}
	goesOn := f.run.Running && f.cells["outcome"] == ""
	d.Advise = func(g *ledger.Ledger) []report.Remark {
		i, _ := g.FindRun(id)
		said := report.RunDryness(g, i)
		if goesOn {
			return append(said, report.Remarks(report.UsualEnd(g, i)...)...)
		}
		return append(said, report.Remarks(report.LoadAdvice(g, i)...)...)
	}
	switch {
	case goesOn:
		d.Next = []advice.Doing{advice.Do(advice.Finish)}
	case spoils:
	case f.moist() && f.packed(): // what is said of its packs says what to do
	case f.moist():
		d.After = report.Remarks("Next: dry it on, then " + f.b.say(advice.Finish, id) + " with " + f.added() + ", all of its " + f.b.part("kwh") + " and the new " + f.b.part("dry") + ".")
	default:
		d.Next = []advice.Doing{f.next()}
	}
	return d, nil
}

// packed reports whether every food of the run is packed, at least in part.
func (f *finishing) packed() bool {
	return !slices.ContainsFunc(f.g.Runs[f.i].Items, func(i ledger.ItemCost) bool { return len(i.Packs) == 0 })
}

// was are the cells of the run that are held against other runs.
func (f *finishing) was() map[string]string {
	cells := map[string]string{"run": f.run.ID, "machine": f.run.Machine, "start": f.run.Start.Format(time.RFC3339), "outcome": f.run.Outcome()}
	if end, ok := f.run.End.Get(); ok {
		cells["end"] = end.Format(time.RFC3339)
	}
	if n, ok := f.run.KWh.Get(); ok {
		cells["kwh"] = n.String()
	}
	return cells
}

// added is what says how much longer a run took: a phase where it has any, else
// its end.
func (f *finishing) added() string {
	if len(f.sofar()) > 0 || slices.ContainsFunc(f.draft.Rows, func(r Row) bool { return r.Kind.Name == "phase" }) {
		return "the added " + f.b.part("phase")
	}
	return "its end (" + f.b.part("at") + ")"
}

// ended reads when the run ended, and whether somebody said so: for one that is
// running that is now.
func (f *finishing) ended() (at time.Time, said, known bool, err error) {
	if f.in.At == "" && !f.run.Running {
		at, said = f.run.End.Get()
		return at, said, said, nil
	}
	if at, err = f.b.instant(f.in.At); err != nil {
		return at, false, false, wrong("at", 0, err)
	}
	if at.Before(f.run.Start) {
		return at, false, false, wrong("at", 0, typed(f.in.At, fmt.Sprintf("run %s began on %s, so it cannot have ended on %s", f.run.ID, f.b.moment(f.run.Start), f.b.moment(at))))
	}
	return at, f.in.At != "", true, nil
}
