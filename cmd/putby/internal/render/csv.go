package render

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"putby/ledger/report"
	"putby/pricing/exact"
)

const listSeparator = "; "

// ErrSection is what the error about an unknown [Options].Section is.
var ErrSection = errors.New("this report has no section")

// writeCSV writes the part of d that section names, or the first table, or
// everything as keys and values when d has no table.
func writeCSV(w io.Writer, d report.Doc, section string) error {
	parts := sections("", d.Fields)
	b := bufio.NewWriter(w)
	out := csvWriter{csv.NewWriter(b), b, d.Currency} // both write to one buffer
	var node report.Node
	switch {
	case section != "":
		var err error
		if node, err = findSection(parts, section); err != nil {
			return err
		}
	case firstTable(parts) != nil:
		node = firstTable(parts)
	default:
		node = wholeDoc(d)
	}
	if t, ok := node.(*report.Table); ok {
		out.table(t)
	} else {
		out.record("key", "value")
		out.pairs("", node.(report.Object))
	}
	out.Flush()
	return out.Error()
}

// A section is a part of a report that CSV can show.
type section struct {
	key  string // dotted path
	node report.Node
}

func sections(prefix string, fields []report.Field) []section {
	var list []section
	for _, f := range fields {
		if f.Key == "" {
			continue
		}
		switch n := f.Node.(type) {
		case *report.Table:
			list = append(list, section{prefix + f.Key, n})
		case *report.Series:
			list = append(list, section{prefix + f.Key, seriesTable(n)})
		case report.Object:
			list = append(list, section{prefix + f.Key, n})
			list = append(list, sections(prefix+f.Key+".", n)...)
		}
	}
	return list
}

func firstTable(parts []section) *report.Table {
	for _, p := range parts {
		if t, ok := p.node.(*report.Table); ok {
			return t
		}
	}
	return nil
}

func findSection(parts []section, key string) (report.Node, error) {
	var keys []string
	for _, p := range parts {
		if p.key == key {
			return p.node, nil
		}
		keys = append(keys, p.key)
	}
	has := "none"
	if len(keys) > 0 {
		has = strings.Join(keys, ", ")
	}
	return nil, fmt.Errorf("%w %s: it has %s", ErrSection, exact.Quote(key), has)
}

// wholeDoc returns d as one object, as JSON has it.
func wholeDoc(d report.Doc) report.Object {
	var o report.Object
	if code := d.Currency.Code(); code != "" {
		o = append(o, report.Field{Key: "currency", Node: report.TextOf(code)})
	}
	notes := texts(d.Foot())
	for _, f := range d.Fields {
		if list, ok := f.Node.(report.List); ok && f.Key == report.NotesKey {
			f.Node = append(list[:len(list):len(list)], notes...)
			notes = nil
		}
		o = append(o, f)
	}
	if len(notes) > 0 {
		o = append(o, report.Field{Key: report.NotesKey, Node: notes})
	}
	return o
}

func texts(words []string) report.List {
	list := make(report.List, len(words))
	for i, s := range words {
		list[i] = report.TextOf(s)
	}
	return list
}

func seriesTable(s *report.Series) *report.Table {
	t := &report.Table{Columns: []report.Column{{Key: "date", Title: "Date"}, {Key: "value", Title: "Value"}}}
	for _, p := range s.Points {
		t.Rows = append(t.Rows, report.Row{Cells: []report.Value{report.DateOf(p.Date), p.Value}})
	}
	return t
}

type csvWriter struct {
	*csv.Writer
	out      *bufio.Writer
	currency exact.Currency
}

// record writes a row; the writer keeps the first error.
func (w csvWriter) record(cells ...string) { _ = w.Write(cells) }

func (w csvWriter) table(t *report.Table) {
	keys, cells := keyed(t.Columns)
	w.record(keys...)
	var line []byte
	for row := range t.All() {
		line = w.appendRow(line[:0], cells, row)
		if _, err := w.out.Write(line); err != nil {
			return // the writer keeps it
		}
	}
}

// keyed are the columns that machines get: their keys, and which cell of a row each
// is; below 0: its notes.
func keyed(columns []report.Column) (keys []string, cells []int) {
	at := 0
	for _, c := range columns {
		switch c.Key {
		case report.NotesKey: // has no cell
			keys, cells = append(keys, c.Key), append(cells, -1)
			continue
		case "":
		default:
			keys, cells = append(keys, c.Key), append(cells, at)
		}
		at++
	}
	return keys, cells
}

// appendRow appends the cells of a row as encoding/csv writes them. There may be a
// million rows, so numbers go straight into the line.
func (w csvWriter) appendRow(line []byte, cells []int, row report.Row) []byte {
	for _, at := range cells {
		if at < 0 {
			line = appendCell(line, csvText(strings.Join(row.Notes, listSeparator)))
		} else if v := &row.Cells[at]; v.IsNumber() {
			line = v.AppendExact(line, w.currency)
		} else {
			line = appendCell(line, w.cell(*v))
		}
		line = append(line, ',')
	}
	line = bytes.TrimSuffix(line, []byte(","))
	return append(line, '\n')
}

// appendCell appends a cell of text, in quotes where encoding/csv has them.
func appendCell(line []byte, s string) []byte {
	first, _ := utf8.DecodeRuneInString(s)
	// As encoding/csv does: \. alone would end the data for PostgreSQL's COPY.
	if s != `\.` && !strings.ContainsAny(s, ",\"\r\n") && !(s != "" && unicode.IsSpace(first)) {
		return append(line, s...)
	}
	line = append(line, '"')
	for i := range len(s) {
		if s[i] == '"' {
			line = append(line, '"')
		}
		line = append(line, s[i])
	}
	return append(line, '"')
}

func (w csvWriter) cell(v report.Value) string {
	if v.Kind() == report.Text {
		return csvText(v.Text())
	}
	return v.Exact(w.currency)
}

// pairs writes an object as keys and values; parts of parts have dotted keys.
func (w csvWriter) pairs(prefix string, o report.Object) {
	for _, f := range o {
		switch n := f.Node.(type) {
		case report.Value:
			if f.Key != "" {
				w.record(prefix+f.Key, w.cell(n))
			}
		case report.List:
			w.record(prefix+f.Key, w.list(n))
		case report.Object:
			w.pairs(prefix+f.Key+".", n)
		}
	}
}

func (w csvWriter) list(l report.List) string {
	if len(l) == 1 {
		return w.cell(l[0])
	}
	words := make([]string, len(l))
	for i, v := range l {
		words[i] = v.Exact(w.currency)
	}
	return csvText(strings.Join(words, listSeparator))
}

// csvText makes a text cell harmless: without control characters, but for line
// feeds and tabs inside, and with an apostrophe before what a spreadsheet would
// take for the start of a formula (OWASP, CSV Injection; ASVS 5, 1.2.10).
func csvText(s string) string {
	first, _ := utf8.DecodeRuneInString(s)
	s = lineEnds.Replace(strings.ToValidUTF8(s, "\uFFFD"))
	s = strings.Map(csvRune, s)
	// First is what it began with, begin what is left once invisible characters are gone.
	if begin, _ := utf8.DecodeRuneInString(s); formula(first) || formula(begin) {
		return "'" + s
	}
	return s
}

// lineEnds makes every end of a line the one that encoding/csv reads back.
var lineEnds = strings.NewReplacer("\r\n", "\n", "\r", "\n")

// formula reports whether a spreadsheet may take a cell that begins with r for
// a formula. The last four are full-width forms.
func formula(r rune) bool { return strings.ContainsRune("=+-@\t\r\n＝＋－＠", r) }

func csvRune(r rune) rune {
	if r == '\n' || r == '\t' {
		return r
	}
	return cleanRune(r)
}
