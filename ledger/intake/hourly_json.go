package intake

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"

	"putby/ledger"
)

// isJSON reports whether a file is JSON, by its first character.
func isJSON(data []byte) bool {
	data = bytes.TrimLeft(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")), " \t\r\n")
	return len(data) > 0 && (data[0] == '{' || data[0] == '[')
}

// jsonRows finds the longest list in a JSON file and makes rows of it, beneath a
// header: a list of objects, whose fields are columns; a list of lists; or an object whose
// fields are lists of one length. About are the texts beside it.
func jsonRows(data []byte) (rows []Row, about []string, err error) {
	if len(data) > MaxFile {
		return nil, nil, &ledger.Fault{Kind: ErrTooLarge, What: "the file is larger than 64 MiB", Hint: "import it in parts"}
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	r := &jsonReader{data: data, d: json.NewDecoder(bytes.NewReader(data)), line: 1}
	r.d.UseNumber()
	root, err := r.value(0)
	if err == nil {
		if _, more := r.d.Token(); more != io.EOF {
			err = errors.New("there is more after its end")
		}
	}
	if err != nil {
		if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
			err = errors.New("it ends in the middle")
		}
		return nil, nil, &ledger.Fault{Kind: ErrFormat, Line: r.lineAt(), What: "not JSON", Err: err}
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

// A jsonReader reads JSON into a tree that knows its lines.
type jsonReader struct {
	data []byte
	d    *json.Decoder
	line int
	seen int64 // up to where lines are counted
}

// lineAt is the line that has been read up to.
func (r *jsonReader) lineAt() int {
	at := r.d.InputOffset()
	r.line += bytes.Count(r.data[r.seen:at], []byte("\n"))
	r.seen = at
	return r.line
}

// A jsonPart is a value: an object, a list, or a scalar's text.
type jsonPart struct {
	line   int
	object bool
	names  []string
	parts  []*jsonPart // of an object or a list
	text   string
	scalar bool
}

// A jsonCell is a field of a row.
type jsonCell struct {
	name, text string
	line       int
}

// deepest is how many levels of a file are read.
const deepest = 32

func (r *jsonReader) value(depth int) (*jsonPart, error) {
	token, err := r.d.Token()
	if err != nil {
		return nil, err
	}
	p := &jsonPart{line: r.lineAt()}
	switch v := token.(type) {
	case json.Delim:
		p.object = v == '{'
		return p, r.inside(p, depth)
	case string:
		p.text = v
	case nil:
	default: // a number or a truth value
		p.text = fmt.Sprint(v)
	}
	p.scalar = true
	return p, nil
}

// inside reads what is in an object or a list, and its end.
func (r *jsonReader) inside(p *jsonPart, depth int) error {
	if depth > deepest {
		return errors.New("it is nested too deeply")
	}
	for r.d.More() {
		if p.object {
			name, err := r.d.Token()
			if err != nil {
				return err
			}
			p.names = append(p.names, fmt.Sprint(name))
		}
		part, err := r.value(depth + 1)
		if err != nil {
			return err
		}
		p.parts = append(p.parts, part)
	}
	_, err := r.d.Token()
	return err
}

// search shows every list of rows in a value, and every text beside them.
func (p *jsonPart) search(found func([][]jsonCell), beside func(string)) {
	switch {
	case p.scalar:
		beside(p.text)
		return
	case !p.object && len(p.parts) > 0 && !slices.ContainsFunc(p.parts, func(q *jsonPart) bool { return q.scalar }):
		rows := make([][]jsonCell, 0, len(p.parts))
		for _, q := range p.parts {
			rows = append(rows, q.cells(""))
		}
		found(rows)
	case p.object:
		found(p.columns())
	}
	if !p.object && len(p.parts) > 1 { // what rows hold is not beside them
		beside = func(string) {}
	}
	for _, q := range p.parts {
		if p.object || !q.scalar {
			q.search(found, beside)
		}
	}
}

// cells are the scalars of a row, those of objects in it too.
func (p *jsonPart) cells(under string) (list []jsonCell) {
	for i, q := range p.parts {
		name := fmt.Sprintf("column %d", i+1)
		if p.object {
			name = p.names[i]
		}
		if under != "" {
			name = under + " " + name
		}
		if q.scalar {
			list = append(list, jsonCell{name, q.text, q.line})
		} else if q.object {
			list = append(list, q.cells(name)...)
		}
	}
	return list
}

// columns are the rows of an object whose fields are lists of one length.
func (p *jsonPart) columns() (rows [][]jsonCell) {
	longest := 0
	for _, q := range p.parts {
		if !q.object && !q.scalar {
			longest = max(longest, len(q.parts))
		}
	}
	for i := range longest {
		var row []jsonCell
		for at, q := range p.parts {
			if !q.object && !q.scalar && len(q.parts) == longest && q.parts[i].scalar {
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
