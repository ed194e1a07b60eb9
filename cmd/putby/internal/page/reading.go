package page

import (
	"bytes"
	"fmt"
	"html/template"
	"slices"

	"putby/cmd/putby/internal/render"
	"putby/ledger/report"
)

// mostRows is how many rows of a table a page has; who wants more asks for the report
// itself.
const mostRows = 60

// tables returns the parts of a report with the given keys as HTML, without
// the report's title and notes, which the page has in places of their own. What is
// too long is cut, at the end or, of what goes by time, at the beginning.
func tables(d report.Doc, name string, keys ...string) (template.HTML, error) {
	var fields []report.Field
	longest := 0
	for _, f := range d.Fields {
		if slices.Contains(keys, f.Key) {
			if t, ok := f.Node.(*report.Table); ok {
				longest = max(longest, len(t.Rows))
				f.Node = fitted(t)
			}
			fields = append(fields, f)
		}
	}
	d.Fields = fields
	if longest > mostRows {
		return fragment(d, fmt.Sprintf("Of long tables %d rows are shown; the report %s has all.", mostRows, name))
	}
	return fragment(d)
}

// fragment is the figures of a report as HTML, without title and notes, below words.
func fragment(d report.Doc, words ...string) (template.HTML, error) {
	d.Words, d.Notes, d.Cautions = words, nil, nil
	var b bytes.Buffer
	if err := render.Render(&b, d, render.HTML, render.Options{Bare: true}); err != nil {
		return "", fmt.Errorf("page: %w", err)
	}
	return template.HTML(b.String()), nil
}

// fitted is a table as a page has it: not too long, and without columns in which
// there is nothing but zeros.
func fitted(t *report.Table) *report.Table {
	cut := *t
	if n := len(t.Rows); n > mostRows {
		cut.Rows = t.Rows[:mostRows]
		if len(t.Columns) > 0 && t.Columns[0].Key == "month" {
			cut.Rows = t.Rows[n-mostRows:]
		}
	}
	cut.Columns = slices.Clone(t.Columns)
	for i := range cut.Columns {
		if len(cut.Rows) > 1 && allZero(cut.Rows, i) && allZero(cut.Totals, i) {
			cut.Columns[i].Title = "" // a column without one is not shown to people
		}
	}
	return &cut
}

// allZero reports whether a column of rows has figures, and all of them are zero or
// do not exist.
func allZero(rows []report.Row, column int) bool {
	numbers := len(rows) == 0
	for _, r := range rows {
		if column >= len(r.Cells) {
			return false
		}
		v := r.Cells[column]
		switch {
		case v.IsNull():
		case !v.IsNumber() || v.Ratio().Sign() != 0:
			return false
		default:
			numbers = true
		}
	}
	return numbers
}
