package entry

import (
	"errors"
	"maps"

	"putby/ledger"
)

// RunParts are the rows of a run's loads and phases.
func RunParts(rec *ledger.Records, run string, loads, phases []string) ([]Row, error) {
	var rows []Row
	for _, text := range loads {
		row, err := ParseLoad(rec, run, text)
		if err != nil {
			return nil, err
		}
		rows = append(rows, row)
	}
	for i, text := range phases {
		row, err := ParsePhase(rec, run, i+1, text)
		if err != nil {
			return nil, err
		}
		rows = append(rows, row)
	}
	return rows, nil
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
	parts, err := RunParts(b.Records, cells["run"], loads, phases)
	if err != nil {
		return err
	}
	for _, f := range b.Trial(append([]Row{{ledger.MustKind("run"), cells}}, parts...)...) {
		for _, file := range files {
			if f.File == file {
				return FaultText(&f)
			}
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
