package render

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"iter"
	"slices"

	"putby/ledger/report"
	"putby/pricing/exact"
)

// A Stream writes the reports on many households one after another, as one: each
// row begins with whose it is. Of each report, CSV and people get one table; JSON
// has an object for each household, and the sums after them.
type Stream struct {
	w      *bufio.Writer
	format Format
	o      Options
	first  *Piece // that something was written of; without its text
	lacks  *Piece // the first that has not what was asked for
	joint  joint  // people: the table in the making
}

// NewStream begins to write to w.
func NewStream(w io.Writer, f Format, o Options) *Stream {
	return &Stream{w: bufio.NewWriter(w), format: f, o: o}
}

// A Piece is the report on one household, ready to be written.
type Piece struct {
	household string
	parts     []section
	lacks     bool       // it has no section of the name asked for
	head      string     // CSV: the line of columns
	text      []byte     // CSV, JSON
	doc       report.Doc // for people: one table
}

// Piece makes a report ready. Any number may be made side by side; none keeps
// hold of what a table's later rows come from.
func (s *Stream) Piece(household string, d report.Doc) (*Piece, error) {
	if err := d.Check(); err != nil {
		return nil, fmt.Errorf("render: %w", err)
	}
	p := &Piece{household: household}
	if s.format == JSON {
		j := jsonWriter{currency: d.Currency, depth: 2} // it stands in the list of households
		j.object(append(report.Object{{Key: "household", Node: report.TextOf(household)}}, wholeDoc(d)...))
		p.text = j.Bytes()
		return p, nil
	}
	p.parts = sections("", d.Fields)
	t, err := tableOf(p.parts, s.o.Section)
	if err != nil {
		p.lacks = errors.Is(err, ErrSection) // told by Close, if no household has it
		return p, nil
	}
	t = whose(t, household, d.Currency)
	if s.format != CSV {
		p.doc = report.Doc{Title: d.Title, Currency: d.Currency, Show: d.Show, Notes: d.Notes, Cautions: d.Cautions, Fields: []report.Field{{Key: "rows", Title: "rows", Node: t}}}
		for row := range t.Later {
			row.Cells = slices.Clone(row.Cells) // begun uses them again for the next row
			t.Rows = append(t.Rows, row)
		}
		t.Later = nil
		return p, nil
	}
	var text bytes.Buffer
	b := bufio.NewWriter(&text)
	out := csvWriter{csv.NewWriter(b), b, d.Currency}
	out.table(t)
	out.Flush()
	end := bytes.IndexByte(text.Bytes(), '\n') + 1
	p.head, p.text = string(text.Bytes()[:end]), text.Bytes()[end:]
	return p, nil
}

// tableOf is the table of a section, or the first one. An object is a table of one
// row.
func tableOf(parts []section, key string) (*report.Table, error) {
	if key == "" {
		if t := firstTable(parts); t != nil {
			return t, nil
		}
		return nil, ErrSection
	}
	node, err := findSection(parts, key)
	if err != nil {
		return nil, err
	}
	if t, ok := node.(*report.Table); ok {
		return t, nil
	}
	t := &report.Table{Rows: make([]report.Row, 1)}
	for _, f := range node.(report.Object) {
		if v, ok := f.Node.(report.Value); ok && f.Key != "" {
			t.Columns = append(t.Columns, report.Column{Key: f.Key, Title: f.Title})
			t.Rows[0].Cells = append(t.Rows[0].Cells, v)
		}
	}
	return t, nil
}

// whose is a table whose rows begin with the household and, for machines, with the
// currency of the report. Sums of its rows are left out.
func whose(t *report.Table, household string, c exact.Currency) *report.Table {
	columns, first := []report.Column{{Key: "household", Title: "household", Wrap: true}}, []report.Value{report.TextOf(household)}
	if c.Code() != "" {
		columns, first = append(columns, report.Column{Key: "currency"}), append(first, report.TextOf(c.Code()))
	}
	return &report.Table{Columns: append(columns, t.Columns...), Empty: t.Empty, Later: begun(t.All(), first)}
}

// begun gives rows with cells before their own, each good until the next.
func begun(rows iter.Seq[report.Row], first []report.Value) iter.Seq[report.Row] {
	return func(yield func(report.Row) bool) {
		cells := slices.Clone(first)
		for row := range rows {
			cells = append(cells[:len(first)], row.Cells...)
			row.Cells = cells
			if !yield(row) {
				return
			}
		}
	}
}

// Add writes the next household's report.
func (s *Stream) Add(p *Piece) error {
	if p.lacks {
		if s.lacks == nil {
			s.lacks = p
		}
		return nil
	}
	begins := s.first == nil
	if begins {
		s.first = &Piece{household: p.household, head: p.head}
	}
	switch {
	case s.format == JSON && begins:
		s.w.WriteString("{\n  \"households\": [")
	case s.format == JSON:
		s.w.WriteByte(',')
	case s.format == CSV && begins:
		s.w.WriteString(p.head)
	case s.format == CSV && p.head != s.first.head:
		return fmt.Errorf("the columns of this table are others for %s than for %s: ask for it household by household", exact.Quote(p.household), exact.Quote(s.first.household))
	case s.format != CSV:
		return s.people(p.doc, p.household)
	}
	if s.format == JSON {
		s.w.WriteString("\n    ")
	}
	_, err := s.w.Write(p.text)
	return err
}

// Close writes what comes after all households: the sums.
func (s *Stream) Close(whole report.Doc) error {
	parts := sections("", whole.Fields)
	asked, err := findSection(parts, s.o.Section)
	switch {
	case s.format == JSON:
		s.closeJSON(whole)
		return s.w.Flush()
	case s.o.Section != "" && err != nil && s.first == nil:
		// The error names what there is to ask for, of a household and of the sums.
		_, err = findSection(append(slices.Clone(s.lacks.parts), parts...), s.o.Section)
		return err
	case s.format == CSV && err == nil:
		w := csvWriter{csv.NewWriter(s.w), s.w, whole.Currency}
		w.table(asked.(*report.Table))
		return s.w.Flush()
	case s.format == CSV:
		return s.w.Flush()
	}
	if !s.joint.any && len(s.joint.households) > 0 { // nothing is written yet: the answer comes first
		s.joint.doc.Words, whole.Words = whole.Words, nil
	}
	if err := s.flush(); err != nil {
		return err
	}
	return s.block(whole)
}

// closeJSON ends the list of households, and the object with it.
func (s *Stream) closeJSON(whole report.Doc) {
	j := jsonWriter{depth: 1}
	if s.first != nil {
		j.line()
	}
	j.WriteByte(']')
	for _, f := range wholeDoc(whole) {
		j.WriteByte(',')
		j.line()
		j.key(f.Key)
		j.node(f.Node)
	}
	j.WriteString("\n}\n")
	_, _ = j.WriteTo(s.w) // the writer keeps the error
}
