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

// A filesReader gives the records of kinds as their files have them, each file being read
// once, for as many changes as are looked at.
type filesReader struct {
	rec   *ledger.Records // that they are looked at in; it may be nil
	files *folder.Cache
	read  map[string]*folder.RowList
	later bool // a file is no longer as the records have it
}

func (s *server) reader(v *state) *filesReader {
	r := &filesReader{files: s.kept.files, read: map[string]*folder.RowList{}}
	if v != nil {
		r.rec = v.rec
	}
	return r
}

func (r *filesReader) rows(k ledger.Kind) (*folder.RowList, error) {
	if rows := r.read[k.File]; rows != nil {
		return rows, nil
	}
	rows, same, err := r.files.Rows(r.rec, k)
	r.later = r.later || !same
	if err == nil {
		r.read[k.File] = rows
	}
	return rows, err
}

// recordsOf finds the records that a change put into the files, of those that are
// still there as it left them.
func recordsOf(c *folder.Change, from *filesReader) (list []keptRecord) {
	for _, file := range c.Files {
		k, ok := ledger.KindOf(file.Name)
		if !ok || k.Name == ledger.SettingsKind().Name {
			continue
		}
		rows, err := from.rows(k)
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
func matching(k ledger.Kind, rows *folder.RowList, removed, added []map[string]string) (list []keptRecord) {
	left, marks := map[string]int{}, map[string]bool{}
	for _, cells := range added {
		left[told(cells)]++
		marks[markIn(cells)] = true
	}
	want := len(added)
	// What was taken out and put in with the same cells is not new.
	for _, cells := range removed {
		if key := told(cells); left[key] > 0 {
			left[key]--
			want--
		}
	}
	for at := rows.Len() - 1; at >= 0 && len(list) < want; at-- {
		// A look at the row's text comes first: to split every row of a long file takes much longer.
		if !holdsAny(rows.Text(at), marks) {
			continue
		}
		row := rows.Row(at)
		if key := told(row.Cells); left[key] > 0 {
			left[key]--
			list = append(list, keptRecord{k, entry.Record{Line: row.Line, At: at, Cells: row.Cells}})
		}
	}
	slices.Reverse(list)
	return list
}

// markIn is the longest of a record's cells that stands in its file as it is, by which
// most others are told from it without being taken apart.
func markIn(cells map[string]string) (mark string) {
	for _, cell := range cells {
		if len(cell) > len(mark) && !strings.ContainsAny(cell, "\"\r\n") {
			mark = cell
		}
	}
	return mark
}

func holdsAny(text string, marks map[string]bool) bool {
	for mark := range marks {
		if strings.Contains(text, mark) {
			return true
		}
	}
	return false
}
