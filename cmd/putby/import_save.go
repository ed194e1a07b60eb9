package main

import (
	"errors"
	"fmt"
	"slices"

	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/intake"
	reports "putby/ledger/report"
)

// errBadRows: rows of a foreign file cannot be imported.
var errBadRows = errors.New("bad rows")

// badRows says how many they are.
func badRows(n int) error {
	what := howMany(n, "row") + map[bool]string{true: " is", false: " are"}[n == 1] + " bad, so nothing was written"
	return &ledger.Fault{Kind: errBadRows, What: what, Hint: "mend them in the file, or leave them out with --skip-bad"}
}

// adds reports whether a plan adds anything, and says so if not. One with bad
// rows may not, unless they are to be left out.
func (im *importing) adds(p *intake.Plan) (bool, error) {
	switch {
	case len(p.Bad) > 0 && !im.skipBad:
		return false, badRows(len(p.Bad))
	case p.Rows() == 0 && (!im.news || im.mapName == ""):
		fmt.Fprintln(im.a.stdout, "There is nothing to add.")
		return false, nil
	}
	return true, nil
}

// save writes the rows of a plan, and its map when that is new.
func (im *importing) save(b *folder.Book, p *intake.Plan) error {
	im.table = nil // its rows are in the plan
	lines := newLines{}
	err := im.a.edit(b, im.saving, func(tx *folder.Tx) error {
		if err := im.keep(tx, p.Definite()); err != nil {
			return err
		}
		return lines.append(tx, p)
	}, im.tell(p))
	return lines.name(err, im.path)
}

// tell tells what the rows of a plan come to, and that its map is kept.
func (im *importing) tell(p *intake.Plan) telling {
	return func(g *ledger.Ledger) []string {
		im.a.check.Joined = nil // nobody else asks for it, and it is large
		var list []reports.Written
		for _, f := range p.Add {
			if k, ok := ledger.KindOf(f.File); ok {
				list = append(list, reports.LastWritten(g.Records, k.Name, f.Len())...)
			}
		}
		said := reports.Saved(g, list)
		if im.news && im.mapName != "" {
			said = append(said, "The map "+im.mapName+" says from now on how such a file is read.")
		}
		return said
	}
}

// newLines are the lines that imported rows get in the ledger's files, in order,
// each with the line of the foreign file that it comes from.
type newLines map[string][]newLine

type newLine struct{ at, from int32 }

// append appends the rows of a plan, which it lets go.
func (n newLines) append(tx *folder.Tx, p *intake.Plan) error {
	for i := range p.Add {
		f := &p.Add[i]
		k, ok := ledger.KindOf(f.File)
		if !ok {
			return errors.New("no records are kept in " + f.File)
		}
		lines := make([]newLine, 0, f.Len())
		rows := func(yield func([]string) bool) {
			for row := range f.Drain() {
				lines = append(lines, newLine{from: int32(row.Line)})
				if !yield(row.Cells) {
					return
				}
			}
		}
		began := func(line int) { lines[len(lines)-1].at = int32(line) }
		if err := tx.AppendRows(k, f.Columns, f.Size(), rows, began); err != nil {
			return err
		}
		n[f.File] = lines
	}
	return nil
}

// name says of the faults of a refusal which line of the foreign file they are
// of.
func (n newLines) name(err error, path string) error {
	refusal := (*folder.Refusal)(nil)
	if !errors.As(err, &refusal) {
		return err
	}
	for i := range refusal.Faults {
		f := &refusal.Faults[i]
		lines := n[f.File]
		if at, ok := slices.BinarySearchFunc(lines, f.Line, func(l newLine, line int) int { return int(l.at) - line }); ok {
			f.What += fmt.Sprintf(" (line %d of %s)", lines[at].from, path)
		}
	}
	return err
}
