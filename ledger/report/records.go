package report

import (
	"fmt"
	"slices"
	"strings"

	"putby/ledger"
	"putby/pricing/exact"
)

// A RecordRow is a record as its file has it.
type RecordRow struct {
	Line  int // in its file, from 1
	Cells map[string]string
}

// Records lists records of one kind, of so many that there are, cell by cell, as a
// person wrote them.
func Records(k ledger.Kind, rows []RecordRow, all int, show Show) Doc {
	t := recordTable(k, rows, func(*ledger.Column) bool { return true })
	answer := "No " + k.Name + " is recorded yet."
	if all > 0 {
		answer = "No " + k.Name + " is recorded for that."
	}
	if n := len(rows); n > 0 {
		answer = phrasing{show: show}.counted(n, "record") + " in " + k.File + spanOf(k, rows) + "."
	}
	return Doc{Title: sentenceCase(k.Name), Words: []string{answer}, Fields: []Field{{Key: "rows", Title: k.File, Node: t}}}
}

// recordTable is a table of records, of those columns that are wanted.
func recordTable(k ledger.Kind, rows []RecordRow, want func(*ledger.Column) bool) *Table {
	t := &Table{Columns: []Column{{Key: "file_line", Title: "line", Rank: 1}}}
	for _, r := range rows {
		t.add(CountOf(r.Line))
	}
	for i, c := range k.Columns {
		if !want(&c) {
			continue
		}
		col := Column{Key: c.Name, Title: c.Name, Rank: rankOf(c, i)}
		if c.Name == NotesKey {
			col.Key = "note"
		}
		t.Columns = append(t.Columns, col)
		for j, r := range rows {
			t.Rows[j].Cells = append(t.Rows[j].Cells, cellOf(r.Cells[c.Name]))
		}
	}
	return t
}

// spanOf says from when to when records happened.
func spanOf(k ledger.Kind, rows []RecordRow) string {
	at := slices.IndexFunc(k.Columns, func(c ledger.Column) bool { return c.Happens() })
	if at < 0 {
		return ""
	}
	first, last := exact.NoDate, exact.NoDate
	for _, r := range rows {
		text := strings.TrimSpace(r.Cells[k.Columns[at].Name])
		day, err := exact.ParseDate(text[:min(len(text), len("2025-02-28"))])
		if err != nil {
			continue
		}
		if first == exact.NoDate || day < first {
			first = day
		}
		last = max(last, day)
	}
	switch {
	case first == exact.NoDate:
		return ""
	case first == last:
		return fmt.Sprintf(", of %v", first)
	}
	return fmt.Sprintf(", from %v to %v", first, last)
}

// rankOf says how soon a narrow terminal leaves a column out: what a record is
// of and how much stay longest beside what it cannot do without.
func rankOf(c ledger.Column, at int) int {
	switch {
	case slices.Contains(c.Names, ledger.Shops):
		return 1
	case c.Main || c.Need || c.Name == "outcome" || c.Name == "from" && c.Cell == ledger.DateCell: // the state and the day stay
		return 0
	}
	return 2 + at
}

// Record shows one record, and those that belong to it.
func Record(k ledger.Kind, r RecordRow, others []Field) Doc {
	o := Object{{Key: "where", Title: "where", Node: where(k.File, r.Line)}}
	for _, c := range k.Columns {
		if text := r.Cells[c.Name]; text != "" {
			o = append(o, Field{Key: c.Name, Title: c.Name, Node: cellOf(text)})
		}
	}
	return Doc{Title: k.Name, Fields: append([]Field{{Key: k.Name, Title: "The " + k.Name, Node: o}}, others...)}
}

// cellOf is a cell as it was written. A number below 0 is one, so that no
// renderer takes it for the start of a formula.
func cellOf(text string) Value {
	if n, err := exact.ParseNumber(text); err == nil && n.Sign() < 0 {
		return PlainOf(n)
	}
	return TextOf(text)
}
