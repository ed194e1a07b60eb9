package intake

import (
	"fmt"
	"slices"

	"putby/ledger"
)

// jsonRows finds the longest list in a JSON file and makes rows of it, beneath a
// header: a list of objects, whose fields are columns; a list of lists; or an object whose
// fields are lists of one length. About are the texts beside it.
func jsonRows(data []byte) (rows []Row, about []string, err error) {
	root, err := readJSON(data)
	if err != nil {
		return nil, nil, err
	}
	var best [][]jsonCell
	root.search(func(rows [][]jsonCell) {
		if len(rows) > len(best) {
			best = rows
		}
	}, func(text string) { about = append(about, text) })
	if len(best) == 0 {
		return nil, nil, &ledger.Fault{Kind: ErrFormat, What: "the file has no list of prices", Hint: "it takes a list of objects with a time and a price each"}
	}
	return tableRows(best), about, nil
}

// A jsonCell is a field of a row.
type jsonCell struct {
	name, text string
	line       int // of its value in the file, from 1
}

// search shows every list of rows in a value, and every text beside them.
func (p *jsonValue) search(found func([][]jsonCell), beside func(string)) {
	switch {
	case p.scalar():
		beside(p.text)
		return
	case p.kind == jsonList && len(p.parts) > 0 && !slices.ContainsFunc(p.parts, func(q *jsonValue) bool { return q.scalar() }):
		rows := make([][]jsonCell, 0, len(p.parts))
		for _, q := range p.parts {
			rows = append(rows, q.cells(""))
		}
		found(rows)
	case p.kind == jsonObject:
		found(p.columns())
	}
	if p.kind == jsonList && len(p.parts) > 1 { // what rows hold is not beside them
		beside = func(string) {}
	}
	for _, q := range p.parts {
		if p.kind == jsonObject || !q.scalar() {
			q.search(found, beside)
		}
	}
}

// cells are the scalars of a row, those of objects in it too.
func (p *jsonValue) cells(under string) (list []jsonCell) {
	for i, q := range p.parts {
		name := fmt.Sprintf("column %d", i+1)
		if p.kind == jsonObject {
			name = p.names[i]
		}
		if under != "" {
			name = under + " " + name
		}
		if q.scalar() {
			list = append(list, jsonCell{name, q.text, q.line})
		} else if q.kind == jsonObject {
			list = append(list, q.cells(name)...)
		}
	}
	return list
}

// columns are the rows of an object whose fields are lists of one length.
func (p *jsonValue) columns() (rows [][]jsonCell) {
	longest := 0
	for _, q := range p.parts {
		if q.kind == jsonList {
			longest = max(longest, len(q.parts))
		}
	}
	for i := range longest {
		var row []jsonCell
		for at, q := range p.parts {
			if q.kind == jsonList && len(q.parts) == longest && q.parts[i].scalar() {
				row = append(row, jsonCell{p.names[at], q.parts[i].text, q.parts[i].line})
			}
		}
		if len(row) < 2 {
			return nil
		}
		rows = append(rows, row)
	}
	return rows
}

// tableRows makes rows whose fields are columns, and their header.
func tableRows(rows [][]jsonCell) (table []Row) {
	at := map[string]int{}
	var header []string
	for _, row := range rows {
		for _, c := range row {
			if _, known := at[c.name]; !known && len(header) < MaxCells {
				at[c.name] = len(header)
				header = append(header, c.name)
			}
		}
	}
	table = append(table, Row{Line: 1, Last: 1, Cells: header})
	for _, row := range rows {
		cells, line := make([]string, len(header)), 0
		for _, c := range row {
			if i, known := at[c.name]; known {
				cells[i] = c.text
			}
			if line == 0 {
				line = c.line
			}
		}
		table = append(table, Row{Line: line, Last: line, Cells: cells})
	}
	return table
}
