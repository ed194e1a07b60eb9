package render

import (
	"slices"

	"putby/ledger/report"
)

// A sheet is a table as people see it, column by column: without the columns
// for machines and what they are spared, with its notes as numbers in a last column.
type sheet struct {
	columns []column
	rows    int // how many cells of each column are rows; the rest are totals
	empty   string
}

// A column holds its cells as shown and the values that they show.
type column struct {
	title  string
	rank   int // the largest is left out first where room is short; 0: never
	bar    bool
	right  bool // numbers
	marks  bool // footnote marks
	wrap   bool // text is broken into lines, not cut
	tight  bool // into short lines, where not all fit whole
	cells  []string
	values []*report.Value
}

func (s shower) sheet(t *report.Table, foot *footnotes) sheet {
	t = withoutSpareRows(t)
	sh := sheet{rows: len(t.Rows), empty: Clean(t.Empty)}
	for i, c := range t.ValueColumns() {
		if c.Title != "" && !(c.Spare && idle(t, i)) {
			sh.columns = append(sh.columns, s.column(t, c, i))
		}
	}
	if notes, ok := markColumn(t, foot); ok {
		sh.columns = append(sh.columns, notes)
	}
	return sh
}

// withoutSpareRows leaves out the rows that say nothing and need not stand.
func withoutSpareRows(t *report.Table) *report.Table {
	spare := func(r report.Row) bool {
		return r.Minor || r.Spare && len(r.Notes) == 0 && !slices.ContainsFunc(r.Cells, counts)
	}
	if !slices.ContainsFunc(t.Rows, spare) {
		return t
	}
	shown := *t
	shown.Rows = slices.DeleteFunc(slices.Clone(t.Rows), spare)
	return &shown
}

// idle reports whether no figure of a column, totals included, counts.
func idle(t *report.Table, at int) bool {
	figure := func(r report.Row) bool { return counts(r.Cells[at]) }
	return !slices.ContainsFunc(t.Rows, figure) && !slices.ContainsFunc(t.Totals, figure)
}

// counts reports whether v is a figure other than zero.
func counts(v report.Value) bool { return v.IsNumber() && !v.Ratio().IsZero() }

func newColumn(t *report.Table, c report.Column) column {
	count := len(t.Rows) + len(t.Totals)
	return column{title: Clean(c.Title), rank: c.Rank, bar: c.Bar, wrap: c.Wrap, tight: c.Tight,
		cells: make([]string, 0, count), values: make([]*report.Value, 0, count)}
}

func (s shower) column(t *report.Table, c report.Column, at int) column {
	col := newColumn(t, c)
	numbers, words := 0, 0
	for i := range cap(col.cells) {
		v, text := cellOf(t, i, at), ""
		if !v.IsNull() || i < len(t.Rows) { // a total that does not exist is blank
			text = s.text(*v)
		}
		col.cells, col.values = append(col.cells, text), append(col.values, v)
		if v.IsNumber() {
			numbers++
		} else if !v.IsNull() {
			words++
		}
	}
	col.right = numbers > 0 && words == 0
	return col
}

// cellOf returns a cell of the i-th row, counting the totals behind the rows.
func cellOf(t *report.Table, i, at int) *report.Value {
	if i < len(t.Rows) {
		return &t.Rows[i].Cells[at]
	}
	return &t.Totals[i-len(t.Rows)].Cells[at]
}

// markColumn returns the column of footnote marks, if any row has notes.
func markColumn(t *report.Table, foot *footnotes) (column, bool) {
	col, any := newColumn(t, report.Column{Title: "Notes"}), false
	col.marks = true
	for _, c := range t.Columns {
		if c.Key == report.NotesKey && c.Title != "" {
			col.title = Clean(c.Title)
		}
	}
	for _, rows := range [][]report.Row{t.Rows, t.Totals} {
		for _, r := range rows {
			mark := foot.marks(r.Notes)
			any = any || mark != ""
			col.cells, col.values = append(col.cells, mark), append(col.values, new(report.Value))
		}
	}
	return col, any
}
