package entry

import (
	"cmp"
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/intake"
	"putby/ledger/report"
)

// A FileIn is the text of a file that a shop, a bank or a spreadsheet gives, to be brought
// in, and what it does not say, as a person types it. What is "" is found.
type FileIn struct {
	Dir     string // of the ledger, which keeps how files are read and what shops call things
	Target  intake.Target
	Data    string
	Map     string // by which it is read, of those that the ledger has for the target
	Mend    intake.Mend
	Things  []string     // TEXT=ITEM, as [intake.ParseName] reads it
	SkipBad bool         // rows that cannot be read are left out
	Names   report.Names // what a person calls these parts
}

// ImportFile is the act that adds the rows of a file that the ledger does not have, and
// keeps how the file was read. Its error is a [Wrong] with the part that was
// mistyped, named "map" or "name", or what is wrong with the file, row by row.
func ImportFile(b *Base, in *FileIn) (*Draft, error) {
	d := &Draft{}
	m, table, isNew, err := in.read(b)
	if err != nil {
		return nil, err
	}
	names, err := KeptNames(in.Dir)
	if err != nil {
		return nil, err
	}
	// Before the plan: a name that is said now tells what rows are of.
	for _, text := range in.Things {
		n, err := intake.ParseName(text, m.Name)
		if err != nil {
			return nil, Wrongs{{Part: "name", Err: err}}
		}
		d.Names = append(d.Names, n)
	}
	p, err := m.Plan(table, intake.PlanOptions{Records: b.Records, Names: intake.AddNames(names, d.Names...), Today: b.At.LastDay()})
	switch {
	case err != nil:
		return nil, err
	case len(p.Bad) > 0 && !in.SkipBad:
		return nil, p.Bad
	case p.Rows() == 0:
		return &Draft{}, nil // all of it is there, and how it was read is not kept either
	}
	d.Notes = report.ImportWords(p, in.Names, b.Records.Settings.Show())
	for i := range p.Add {
		for r := range p.Add[i].Rows() {
			cells := map[string]string{}
			for c, column := range p.Add[i].Columns {
				cells[column] = r.Cells[c]
			}
			d.Rows = append(d.Rows, Row{ledger.MustKind(p.Add[i].File), cells})
		}
	}
	if isNew {
		d.File = &File{intake.MapsFile, keeping(p.Definite())}
	}
	return d, nil
}

// read reads the file by the map that the ledger has for it, or a proposed one, as it is
// mended.
func (in *FileIn) read(b *Base) (m intake.Map, table *intake.Table, isNew bool, err error) {
	maps, err := KeptMaps(in.Dir)
	if err != nil {
		return m, nil, false, err
	}
	maps = slices.DeleteFunc(maps, func(o intake.Map) bool { return o.Target != in.Target || in.Map != "" && o.Name != in.Map })
	if len(maps) > 1 {
		var called []string
		for _, o := range maps {
			called = append(called, o.Name)
		}
		return m, nil, false, Wrongs{{Part: "map", Err: &ledger.Fault{What: "there are several for such files: choose one", Hint: strings.Join(called, ", ")}}}
	}
	options := intake.Options{}
	if len(maps) == 1 {
		m = maps[0]
		m.Fills, options = slices.Clone(m.Fills), m.Options()
	}
	if table, err = intake.Read(strings.NewReader(in.Data), options); err != nil {
		return m, nil, false, err
	}
	var missing error
	if isNew = len(maps) == 0; isNew {
		m, missing = intake.Propose(table, in.Target, cmp.Or(in.Map, in.Target.String()), b.Records)
	}
	mended, err := m.Mend(in.Mend)
	// A proposal that lacks a column is no fault where a person has just said more.
	if err == nil && !mended {
		err = missing
	}
	return m, table, isNew || mended, err
}

// keeping keeps how a file is read among the maps that the ledger has.
func keeping(m intake.Map) func(have []byte) ([]byte, error) {
	return func(have []byte) ([]byte, error) {
		maps, faults := intake.ParseMaps(string(have))
		if len(faults) > 0 {
			return nil, faults
		}
		maps = slices.DeleteFunc(maps, func(o intake.Map) bool { return o.Target == m.Target && o.Name == m.Name })
		return intake.PrintMaps(append(maps, m)), nil
	}
}
