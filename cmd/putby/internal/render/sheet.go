package render

import "putby/ledger/report"

// A sheet is a table as people see it, column by column: without the columns
// for machines, with its notes as numbers in a last column.
type sheet struct {
	columns []column
	rows    int // how many cells of each column are rows; the rest are totals
	empty   string
}

// A column holds its cells as shown, unaligned, and the values they show.
type column struct {
	title  string
	rank   int
	bar    bool
	right  bool // numbers
	marks  bool // footnote marks
	cells  []string
	values []report.Value
}

func (s shower) sheet(t *report.Table, foot *footnotes) sheet {
	sh := sheet{rows: len(t.Rows), empty: clean(t.Empty)}
	for i, c := range t.ValueColumns() {
		if c.Title != "" {
			sh.columns = append(sh.columns, s.column(t, c, i))
		}
	}
	if notes, ok := markColumn(t, foot); ok {
		sh.columns = append(sh.columns, notes)
	}
	return sh
}

func (s shower) column(t *report.Table, c report.Column, at int) column {
	col := column{title: clean(c.Title), rank: c.Rank, bar: c.Bar}
	numbers, words := 0, 0
	add := func(v report.Value, text string) {
		if v.IsNumber() {
			numbers++
		} else if !v.IsNull() {
			words++
		}
		col.cells, col.values = append(col.cells, text), append(col.values, v)
	}
	for _, r := range t.Rows {
		add(r.Cells[at], s.text(r.Cells[at]))
	}
	for _, r := range t.Totals {
		text := ""
		if !r.Cells[at].IsNull() {
			text = s.text(r.Cells[at])
		}
		add(r.Cells[at], text)
	}
	col.right = numbers > 0 && words == 0
	return col
}

// markColumn returns the column of footnote marks, if any row has notes.
func markColumn(t *report.Table, foot *footnotes) (column, bool) {
	col, any := column{title: "Notes", marks: true}, false
	for _, c := range t.Columns {
		if c.Key == report.NotesKey && c.Title != "" {
			col.title = clean(c.Title)
		}
	}
	for _, rows := range [][]report.Row{t.Rows, t.Totals} {
		for _, r := range rows {
			mark := foot.marks(r.Notes)
			any = any || mark != ""
			col.cells, col.values = append(col.cells, mark), append(col.values, report.None)
		}
	}
	return col, any
}
