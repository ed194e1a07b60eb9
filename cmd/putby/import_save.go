package main

import (
	"errors"
	"fmt"
	"strings"

	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/intake"
	reports "putby/ledger/report"
)

// A badRowsError is how many rows of a foreign file cannot be imported.
type badRowsError int

func (n badRowsError) Error() string {
	if n == 1 {
		return "1 row is bad, so nothing was written"
	}
	return fmt.Sprintf("%d rows are bad, so nothing was written", int(n))
}

// adds reports whether a plan adds anything, and says so if not. One with bad
// rows may not, unless they are to be left out.
func (im *importing) adds(p *intake.Plan) (bool, error) {
	switch {
	case len(p.Bad) > 0 && !im.skipBad:
		return false, badRowsError(len(p.Bad))
	case p.Rows() == 0 && (!im.news || im.mapName == ""):
		fmt.Fprintln(im.a.stdout, "There is nothing to add.")
		return false, nil
	}
	return true, nil
}

// save writes the rows of a plan, and its map when that is new.
func (im *importing) save(b *folder.Book, p *intake.Plan) error {
	lines := &newLines{at: map[string]map[int]int{}}
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
		var list []reports.Written
		for _, f := range p.Add {
			if k, ok := ledger.KindOf(f.File); ok {
				list = append(list, reports.LastWritten(g.Records, k.Name, len(f.Rows))...)
			}
		}
		said := reports.Saved(g, list)
		if im.news && im.mapName != "" {
			said = append(said, "The map "+im.mapName+" says from now on how such a file is read.")
		}
		return said
	}
}

// newLines are the lines that imported rows get in the ledger's files, each
// with the line of the foreign file that it comes from.
type newLines struct{ at map[string]map[int]int }

// append appends the rows of a plan.
func (n *newLines) append(tx *folder.Tx, p *intake.Plan) error {
	for _, f := range p.Add {
		k, ok := ledger.KindOf(f.File)
		if !ok {
			return errors.New("no records are kept in " + f.File)
		}
		text, err := tx.ReadFile(f.File)
		if err != nil {
			return err
		}
		line := firstNewLine(string(text))
		n.at[f.File] = map[int]int{}
		for _, row := range f.Rows {
			cells := make(map[string]string, len(f.Columns))
			n.at[f.File][line] = row.Line
			line++
			for i, column := range f.Columns {
				cells[column] = row.Cells[i]
				line += strings.Count(row.Cells[i], "\n")
			}
			if err := tx.Append(k, cells); err != nil {
				return err
			}
		}
	}
	return nil
}

// firstNewLine is the line of the first row that is appended to a file.
func firstNewLine(text string) int {
	line := strings.Count(text, "\n") + 1
	if !strings.HasSuffix(text, "\n") { // without a header too, which is then written first
		line++
	}
	return line
}

// name says of the faults of a refusal which line of the foreign file they are
// of.
func (n *newLines) name(err error, path string) error {
	refusal := (*folder.Refusal)(nil)
	if !errors.As(err, &refusal) {
		return err
	}
	for i := range refusal.Faults {
		f := &refusal.Faults[i]
		if line, ok := n.at[f.File][f.Line]; ok {
			f.What += fmt.Sprintf(" (line %d of %s)", line, path)
		}
	}
	return err
}
