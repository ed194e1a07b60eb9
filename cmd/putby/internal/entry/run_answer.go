package entry

import (
	"errors"
	"maps"
	"slices"

	"putby/ledger"
	"putby/ledger/report"
)

// A RunIn is a run that is over, as a person types it.
type RunIn struct {
	Cells  map[string]string // of runs.csv, as records have them; without a name it is the next run
	Loads  []string          // "5.5 kg apples wet 5.5 kg dry 880 g", as [ParseLoad] reads them
	Filled []Row             // the loads of which each cell was typed by itself; of which run they need not say
	Phases []string          // "primary 22h30m 640 W", as [ParsePhase] reads them, in order
}

// AddRun records a run with its loads and phases.
func AddRun(b *Base, in RunIn) (*Draft, error) {
	run := Row{ledger.MustKind("run"), maps.Clone(in.Cells)}
	if run.Cells["run"] == "" {
		run.Cells["run"] = NextRun(b.Records, b.At.Day(run.Cells["start"]))
	}
	parts, err := in.parts(b.Records, run.Cells["run"])
	if err != nil {
		return nil, err
	}
	return &Draft{
		Rows:   append([]Row{run}, parts...),
		Advise: func(g *ledger.Ledger) []report.Remark { return report.Remarks(report.LoadAdvice(g, len(g.Runs)-1)...) },
	}, nil
}

// parts are the rows of a run's loads and phases.
func (in *RunIn) parts(rec *ledger.Records, run string) (rows []Row, err error) {
	var bad Wrongs
	for i, text := range in.Loads {
		row, err := ParseLoad(rec, run, text)
		bad.add("loads", i+1, err)
		rows = append(rows, row)
	}
	for _, row := range in.Filled {
		row.Cells = maps.Clone(row.Cells)
		row.Cells["run"] = run
		rows = append(rows, row)
	}
	phases, err := phaseRows(rec, run, "phases", in.Phases, 1)
	bad.add("", 0, err)
	return append(rows, phases...), bad.Err()
}

// LoadFits says what is wrong with one more load of a run that has some cells
// and loads already.
func (b *Base) LoadFits(run map[string]string, loads []string, text string) error {
	if text == "" {
		return errors.New("a run has a load; Ctrl-C ends it")
	}
	row, err := ParseLoad(b.Records, run["run"], text)
	if err != nil {
		return err
	}
	if near, unknown := Unknown(b.Records, row.Kind.Column("item"), row.Cells["item"]); unknown {
		return UnknownName(row.Cells["item"], near)
	}
	return b.runFits(run, append(loads[:len(loads):len(loads)], text), nil, ledger.LoadsFile)
}

// PhasesFit says what is wrong with the phases of a run.
func (b *Base) PhasesFit(run map[string]string, loads, phases []string) error {
	return b.runFits(run, loads, phases, ledger.PhasesFile, ledger.RunsFile)
}

// runFits says what is wrong with a run, if it is in one of some files. Of
// what is not known yet nothing is held against it.
func (b *Base) runFits(run map[string]string, loads, phases []string, files ...string) error {
	cells := maps.Clone(run)
	if len(phases) == 0 && cells["kwh"] == "" && files[0] == ledger.LoadsFile {
		cells["kwh"] = "0"
	}
	d, err := AddRun(b, RunIn{Cells: cells, Loads: loads, Phases: phases})
	if err != nil {
		return err
	}
	for _, f := range b.Trial(d.Rows...) {
		if slices.Contains(files, f.File) {
			return FaultText(&f)
		}
	}
	return nil
}

// UsualLoad offers what a machine is likely to dry next, as [UsualLoad] does.
func (b *Base) UsualLoad(machine string) string {
	g, err := b.Ledger()
	if err != nil {
		return ""
	}
	return UsualLoad(g, machine, b.At.Now)
}

// UsualPhases are the phases that are likely for a run with these loads.
func (b *Base) UsualPhases(run map[string]string, loads []string) []string {
	var foods []string
	for _, text := range loads {
		if row, err := ParseLoad(b.Records, run["run"], text); err == nil {
			foods = append(foods, row.Cells["item"])
		}
	}
	return UsualPhases(b.Records, run["machine"], foods)
}
