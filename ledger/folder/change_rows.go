package folder

import (
	"strings"

	"putby/ledger"
)

// Rows returns the records that the change took out of the file and put in, their
// cells by column. It reports false where the lines that it changed do not tell: of
// a file without records, or of one whose header does not come first.
func (f FileChange) Rows() (removed, added []map[string]string, ok bool) {
	if !isRecords(f.Name) || f.Header == "" && f.Before != "" {
		return nil, nil, false
	}
	var out, in strings.Builder
	for _, h := range f.Hunks {
		out.WriteString("\n" + strings.TrimPrefix(string(h.Removed), mark)) // the stretch before may lack its line end
		in.WriteString("\n" + strings.TrimPrefix(string(h.Added), mark))
	}
	before, after := out.String(), in.String()
	if headerLine(strings.TrimLeft(before, "\r\n")) != f.Header { // which stays
		before, after = f.Header+"\n"+before, f.Header+"\n"+after
	}
	removed, ok = rowsOf(before)
	if ok {
		added, ok = rowsOf(after)
	}
	return removed, added, ok
}

// rowsOf reads the records of a text that begins with its header, and reports whether
// all of it can be read.
func rowsOf(text string) (rows []map[string]string, ok bool) {
	s := newScanner(text, separator(text))
	header, _ := s.header()
	for s.next() {
		if s.bad != nil || len(s.cells) > len(header) {
			return nil, false
		}
		if !s.blank() {
			rows = append(rows, cellsBy(header, s.cells))
		}
	}
	return rows, true
}

// cellsBy are the cells of a record by the names of a header.
func cellsBy(header, cells []string) map[string]string {
	by := make(map[string]string, len(header))
	for i, text := range cells[:min(len(cells), len(header))] {
		by[header[i]] = ledger.UnescapeFormula(text)
	}
	return by
}
