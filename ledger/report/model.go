package report

import (
	"fmt"
	"iter"
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// A Doc is one report: what a renderer turns into a table, CSV, JSON, Markdown
// or a page. It holds values and no formatting.
type Doc struct {
	Title    string
	Currency exact.Currency
	Show     Show
	Words    []string // the answer in sentences, for people; the first by itself is what they see first. Not in JSON or CSV
	Fields   []Field  // in the order of the JSON object, after "currency"
	Notes    []string // about the whole report; JSON key "notes" when there are any, with the cautions
	Cautions []Remark // what stands below the notes: cautions, and last [Safety]
	Share    Share    // what it adds to the sums over many households, for [Sums] alone; nil: it has none
}

// Foot is all that stands below a report: its notes, then what to heed.
func (d *Doc) Foot() []string { return append(slices.Clip(d.Notes), Lines(d.Cautions)...) }

// Show says in which units tables show amounts; machine formats stay in L and kg.
type Show = ledger.Show

// A Field is a named part of a report.
type Field struct {
	Key   string // snake_case, for JSON and CSV; "" means the part is for people only
	Title string // for people; "" means the part is for machines only
	Node  Node
}

// A Node is a [Value], a [*Table], an [Object], a [List] or a [*Series].
type Node interface{ node() }

// An Object is a group of named values that belong together, such as an offer.
type Object []Field

// A List is a list of values of one kind, such as limits in words.
type List []Value

func (Value) node()   {}
func (*Table) node()  {}
func (Object) node()  {}
func (List) node()    {}
func (*Series) node() {}

// A Series is a figure over time, in order of time. For people it is a line,
// drawn where charts are asked for; in JSON it is an array of dates and values.
type Series struct {
	Points []Point // none: there is no line
	Steps  bool    // a value holds until the next one, as a shelf price does
}

// A Point is the figure of a [Series] on a date.
type Point struct {
	Date  exact.Date // local
	Value Value      // a number, or null where there is a gap
}

// Range returns the lowest and the highest value of s, and false when it has
// none.
func (s *Series) Range() (low, high Value, ok bool) {
	for _, p := range s.Points {
		if p.Value.IsNull() {
			continue
		}
		if !ok || p.Value.Ratio().Cmp(low.Ratio()) < 0 {
			low = p.Value
		}
		if !ok || p.Value.Ratio().Cmp(high.Ratio()) > 0 {
			high = p.Value
		}
		ok = true
	}
	return low, high, ok
}

// NotesKey is the key of the column that holds the notes of a table's rows,
// and of the field that holds those of a report.
const NotesKey = "notes"

// A Table is a list of rows with the same columns. CSV shows the first table
// of a report unless asked for another.
type Table struct {
	Columns []Column
	Rows    []Row
	Totals  []Row  // rows below a rule, for people; JSON and CSV leave them out
	Empty   string // what to say to people when there are no rows
	// Later gives further rows, which are worked out one by one as they are
	// asked for; each is good until the next. Only tables made for CSV and JSON
	// have it. The other formats want all rows at once.
	Later iter.Seq[Row]
}

// All gives the table's rows, each good until the next.
func (t *Table) All() iter.Seq[Row] {
	return func(yield func(Row) bool) {
		for _, r := range t.Rows {
			if !yield(r) {
				return
			}
		}
		if t.Later != nil {
			t.Later(yield)
		}
	}
}

// A Column is a column of a table.
type Column struct {
	Key   string // snake_case, for JSON and CSV; "" means the column is for people only
	Title string // for people, short; "" means the column is for machines only
	// Rank says how soon a narrow terminal leaves the column out: 0 never, 1
	// last, larger ones sooner.
	Rank  int
	Bar   bool // draw the column as a bar chart where charts are asked for
	Wrap  bool // text goes on in further lines of the row and is never cut: for names that differ at their ends
	Tight bool // where not all fit whole, such text is in short lines, as of commands
	Spare bool // people are spared the column while its figures are all zero or do not exist
}

// A Row is a table's row. Its notes are about it alone: footnotes for people,
// "notes" in JSON and CSV when the table has a column with that key.
type Row struct {
	Cells []Value // one for each column but "notes"
	Notes []string
	Spare bool // people are spared the row while its figures are all zero or do not exist, and it has no notes
	Minor bool // people are spared the row: what it tells of is too little to matter
}

// add appends a row of cells that nothing is noted of.
func (t *Table) add(cells ...Value) { t.Rows = append(t.Rows, Row{Cells: cells}) }

// ValueColumns returns the columns that rows have cells for: all but
// [NotesKey], in order.
func (t *Table) ValueColumns() []Column {
	return slices.DeleteFunc(slices.Clone(t.Columns), func(c Column) bool { return c.Key == NotesKey })
}

// Check reports what would keep a renderer from giving d whole: a row with
// too few or too many cells, two parts with one key, a part without a node.
func (d Doc) Check() error { return checkFields("report", d.Fields) }

func checkFields(where string, fields []Field) error {
	seen := map[string]bool{}
	for _, f := range fields {
		name := where + " " + f.Key
		if f.Key != "" && seen[f.Key] {
			return fmt.Errorf("%s: the key is there twice", name)
		}
		seen[f.Key] = true
		var err error
		switch n := f.Node.(type) {
		case nil:
			err = fmt.Errorf("%s: no node", name)
		case *Table:
			err = n.check(name)
		case Object:
			err = checkFields(name, n)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func (t *Table) check(where string) error {
	seen := map[string]bool{}
	for _, c := range t.Columns {
		if c.Key != "" && seen[c.Key] {
			return fmt.Errorf("%s: column %s is there twice", where, c.Key)
		}
		seen[c.Key] = true
	}
	want := len(t.ValueColumns())
	for i, r := range t.Rows {
		if len(r.Cells) != want {
			return fmt.Errorf("%s: row %d has %d cells for %d columns", where, i+1, len(r.Cells), want)
		}
	}
	for i, r := range t.Totals {
		if len(r.Cells) != want {
			return fmt.Errorf("%s: total %d has %d cells for %d columns", where, i+1, len(r.Cells), want)
		}
	}
	return nil
}
