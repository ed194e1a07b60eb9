package serve

import (
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
		if removed, added, ok := file.Rows(); ok {
			list = append(list, matching(k, rows, removed, added)...)
		}
	}
	return list
}

// told is what the cells of a record hold, blank ones left out.
func told(cells map[string]string) string {
	var list []string
	for column, cell := range cells {
		if cell != "" {
			list = append(list, column+"\x00"+cell)
		}
	}
	slices.Sort(list)
	return strings.Join(list, "\x00")
}

// matching finds the records that a change came to, from the end of the file, where
// new ones stand. Records that only got another blank cell are not new.
func matching(k ledger.Kind, rows []folder.Row, removed, added []map[string]string) (list []keptRecord) {
	left := map[string]int{}
	for _, cells := range added {
		left[told(cells)]++
	}
	want := len(added)
	for _, cells := range removed {
		if key := told(cells); left[key] > 0 {
			left[key]--
			want--
		}
	}
	for at := len(rows) - 1; at >= 0 && len(list) < want; at-- {
		if key := told(rows[at].Cells); left[key] > 0 {
			left[key]--
			list = append(list, keptRecord{k, entry.Record{Line: rows[at].Line, At: at, Cells: rows[at].Cells}})
		}
	}
	slices.Reverse(list)
	return list
}
