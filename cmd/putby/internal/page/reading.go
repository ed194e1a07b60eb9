package page

import (
	"bytes"
	"fmt"
	"html/template"
	"slices"

	"putby/cmd/putby/internal/render"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// This file finds the parts of reports by the keys that JSON has too. What is
// not there is empty, so that a page of an empty ledger is a page as well.

// node returns a part of a report, or nil.
func node(fields []report.Field, key string) report.Node {
	for _, f := range fields {
		if f.Key == key {
			return f.Node
		}
	}
	return nil
}

// value returns a value within objects, by the keys that lead there.
func value(d report.Doc, keys ...string) report.Value {
	fields := d.Fields
	for i, key := range keys {
		switch n := node(fields, key).(type) {
		case report.Value:
			if i == len(keys)-1 {
				return n
			}
			return report.None
		case report.Object:
			fields = n
		default:
			return report.None
		}
	}
	return report.None
}

// A reader reads a table by the keys of its columns.
type reader struct {
	*report.Table
	at map[string]int
}

// read returns the table with a key, or one without rows.
func read(d report.Doc, key string) reader {
	t, ok := node(d.Fields, key).(*report.Table)
	if !ok {
		t = &report.Table{}
	}
	r := reader{t, map[string]int{}}
	for i, c := range t.ValueColumns() {
		if c.Key != "" {
			r.at[c.Key] = i
		}
	}
	return r
}

// cell returns a cell of a row, or null where there is no such column.
func (r reader) cell(row report.Row, key string) report.Value {
	i, ok := r.at[key]
	if !ok {
		return report.None
	}
	return row.Cells[i]
}

// word returns the text of a cell, of a thing the name that people call it by.
func (r reader) word(row report.Row, key string) string { return wordOf(r.cell(row, key)) }

func wordOf(v report.Value) string {
	if v.Kind() == report.Text {
		return render.Clean(v.Shown(exact.Currency{}, report.Show{}))
	}
	return render.Clean(v.Text())
}

// tables returns the parts of a report with the given keys as HTML, without
// the report's title and notes, which the page has in places of their own.
func tables(d report.Doc, keys ...string) (template.HTML, error) {
	var fields []report.Field
	for _, f := range d.Fields {
		if slices.Contains(keys, f.Key) {
			fields = append(fields, f)
		}
	}
	d.Fields, d.Words, d.Notes = fields, nil, nil
	var b bytes.Buffer
	if err := render.Render(&b, d, render.HTML, render.Options{Bare: true}); err != nil {
		return "", fmt.Errorf("page: %w", err)
	}
	return template.HTML(b.String()), nil
}
