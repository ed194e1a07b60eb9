package report

import "putby/pricing/exact"

// A Doc is one report: what a renderer turns into a table, CSV, JSON, Markdown
// or a page. It holds values and no formatting.
type Doc struct {
	Title    string
	Currency exact.Currency
	Show     Show
	Words    []string // the answer in sentences, for people; not in JSON or CSV
	Fields   []Field  // in the order of the JSON object, after "currency"
	Notes    []string // doubts about the whole report; JSON key "notes" when there are any
}

// Show says in which units tables show amounts; machine formats stay in L and kg.
type Show struct{ Volume, Mass exact.Unit }

// A Field is a named part of a report.
type Field struct {
	Key   string // snake_case, for JSON
	Title string // for people; "" means the part is for machines only
	Node  Node
}

// A Node is a [Value], a [*Table], an [Object] or a [List].
type Node interface{ node() }

// An Object is a group of named values that belong together, such as an offer.
type Object []Field

// A List is a list of values of one kind, such as limits in words.
type List []Value

func (Value) node()  {}
func (*Table) node() {}
func (Object) node() {}
func (List) node()   {}

// A Table is a list of rows with the same columns. CSV shows the first table
// of a report unless asked for another.
type Table struct {
	Columns []Column
	Rows    []Row
	Totals  []Row  // rows below a rule, for people; JSON and CSV leave them out
	Empty   string // what to say to people when there are no rows
}

// A Column is a column of a table.
type Column struct {
	Key   string // snake_case, for JSON and CSV
	Title string // for people, short
	// Rank says how soon a narrow terminal leaves the column out: 0 never, 1
	// last, larger ones sooner. A column with an empty Title is for machines only.
	Rank int
	Bar  bool // draw the column as a bar chart where charts are asked for
}

// A Row is a table's row. Its notes are its own doubts: footnotes for people,
// "notes" in JSON and CSV when the table has a column with that key.
type Row struct {
	Cells []Value // one for each column but "notes"
	Notes []string
}
