package serve

import (
	"encoding/csv"
	"slices"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
)

// A keptRecord is a record that a change left and that is still so.
type keptRecord struct {
	kind ledger.Kind
	entry.Record
}

// A rowsReader gives the records of a kind as its file has them.
type rowsReader func(ledger.Kind) ([]folder.Row, error)

// rowsOnce reads each file once, for as many changes as are looked at.
func (s *server) rowsOnce() rowsReader {
	read := map[string][]folder.Row{}
	return func(k ledger.Kind) ([]folder.Row, error) {
		if rows, ok := read[k.File]; ok {
			return rows, nil
		}
		rows, err := folder.Rows(s.Dir, k)
		if err == nil {
			read[k.File] = rows
		}
		return rows, err
	}
}

// recordsOf finds the records that a change put into the files, of those that are
// still there as it left them.
func recordsOf(c *folder.Change, rowsOf rowsReader) (list []keptRecord) {
	for _, file := range c.Files {
		k, ok := ledger.KindOf(file.Name)
		if !ok || k.Name == ledger.SettingsKind().Name {
			continue
		}
		rows, err := rowsOf(k)
		if err != nil {
			continue
		}
		removed, added := file.Lines()
		list = append(list, matching(k, rows, cellsOf(removed), cellsOf(added))...)
	}
	return list
}

// cellsOf reads lines of a file as records, whose cells it sorts and joins: what
// a column is called the lines do not say.
func cellsOf(lines []string) (list []string) {
	text := strings.Join(lines, "\n")
	r := csv.NewReader(strings.NewReader(text))
	r.FieldsPerRecord, r.LazyQuotes = -1, true
	if strings.Count(text, ";") > strings.Count(text, ",") {
		r.Comma = ';'
	}
	rows, err := r.ReadAll()
	if err != nil {
		return nil
	}
	for _, cells := range rows {
		list = append(list, told(cells))
	}
	return list
}

// told is what cells hold, in no order.
func told(cells []string) string {
	cells = slices.DeleteFunc(slices.Clone(cells), func(cell string) bool { return cell == "" })
	slices.Sort(cells)
	return strings.Join(cells, "\x00")
}

// matching finds the records that lines came to, from the end of the file, where
// new ones stand. Lines that only got another blank cell are not new.
func matching(k ledger.Kind, rows []folder.Row, removed, added []string) (list []keptRecord) {
	for _, gone := range removed {
		if i := slices.Index(added, gone); i >= 0 {
			added = slices.Delete(added, i, i+1)
		}
	}
	for at := len(rows) - 1; at >= 0 && len(added) > 0; at-- {
		var cells []string
		for _, cell := range rows[at].Cells {
			cells = append(cells, cell)
		}
		if i := slices.Index(added, told(cells)); i >= 0 {
			added = slices.Delete(added, i, i+1)
			list = append(list, keptRecord{k, entry.Record{Line: rows[at].Line, At: at, Cells: rows[at].Cells}})
		}
	}
	slices.Reverse(list)
	return list
}
