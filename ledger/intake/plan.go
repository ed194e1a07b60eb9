package intake

import (
	"cmp"
	"fmt"
	"iter"
	"slices"
	"strings"

	"putby/ledger"
	"putby/pricing/exact"
)

// A Plan is what importing a table would do. It changes nothing itself.
type Plan struct {
	Target  Target
	Map     Map
	Form    Form
	Header  int           // line of the header
	Decimal Decimal       // sign of the numbers; AnyDecimal where none needed it, or columns differ
	Dates   Order         // order of the dates; AnyOrder where none was read, or any would do
	Add     []FileRows    // rows to add, file by file
	There   []There       // rows that the ledger has already
	Differ  []Differ      // rows that the ledger has with something else in them
	Bad     ledger.Faults // rows that cannot be imported, by line
	Left    int           // how many rows the map leaves out
	Unknown []UnknownName // names of things bought that the ledger does not know
	Fills   []Filled      // how each column of the ledger is filled, by an example
	Unread  []Unread      // the file's columns that fill nothing

	columns []column // as they were read, for [Plan.Definite]
}

// A There is a row that the ledger has already.
type There struct {
	Line int // of the foreign file
	File string
	At   int  // line of the ledger's file, or of the plan's row of the foreign file for one that the file has twice
	Twin bool // whether At is a line of the foreign file
}

// A Differ is a row whose record the ledger has, but not with the same cells:
// it was amended since, or the foreign file was. It is left as it is.
type Differ struct {
	Line   int // of the foreign file
	File   string
	At     int    // line of the ledger's file
	Column string // the first column that differs
	Has    string // what the ledger has there
	Gives  string // what the file gives
}

// An UnknownName is a foreign name that was taken as spending on something the
// ledger does not know.
type UnknownName struct {
	Name string
	Line int // where it occurs first
	Rows int // how often it occurs
}

// PlanOptions say what a plan is held against.
type PlanOptions struct {
	Records *ledger.Records // the ledger's; nil: an empty ledger
	Names   []Name
	// Today is the last day that rows may be of; not given, any may be.
	Today exact.Opt[exact.Date]
	// New, which may be nil, is called with each record that is to be added. It is
	// the only one in rec, which is good until New returns.
	New func(rec *ledger.Records)
	// Progress is called as in [Options].
	Progress func(done, all int)
}

// Plan reads a table by the map and holds it against the ledger. An error,
// which is an [ledger.Fault], means that the file cannot be imported at all.
func (m Map) Plan(t *Table, o PlanOptions) (*Plan, error) {
	b, err := m.bind(t)
	if err != nil {
		return nil, err
	}
	if o.Records == nil {
		o.Records = &ledger.Records{}
	}
	p := &Plan{
		Target: m.Target, Map: m, Form: t.Form, Header: t.Row(b.header).Line, Decimal: b.decimal,
		Bad: slices.Clone(t.Bad), Fills: b.samples(), Unread: b.unread(), columns: b.columns,
	}
	for _, c := range b.columns {
		if c.order != AnyOrder && !b.unsettled {
			p.Dates = c.order
		}
	}
	w := newWriter(p, o.Records, o.Names)
	w.today, w.tell = o.Today, o.New
	drafts := w.read(b, o.Progress)
	switch m.Target {
	case Receipts:
		w.receipts(b, drafts)
	case Runs:
		w.runs(drafts)
	case Prices:
		w.prices(drafts)
	}
	p.finish()
	return p, nil
}

// finish puts everything in the order of the foreign file, whose text it lets go.
func (p *Plan) finish() {
	for i := range p.columns {
		p.columns[i].read = nil
	}
	slices.SortStableFunc(p.Bad, func(a, b ledger.Fault) int { return cmp.Compare(a.Line, b.Line) })
	slices.SortStableFunc(p.There, func(a, b There) int { return cmp.Compare(a.Line, b.Line) })
	slices.SortStableFunc(p.Differ, func(a, b Differ) int { return cmp.Compare(a.Line, b.Line) })
}

// Rows returns how many rows are to be added, in all files.
func (p *Plan) Rows() int {
	n := 0
	for _, f := range p.Add {
		n += f.Len()
	}
	return n
}

// A draft is a foreign row on its way to become records.
type draft struct {
	at    int      // of the row in the table
	row   Row      // without its cells
	names []string // the target's columns, shared by all drafts
	cells []string // one for each of them, so of a receipt or a price its row; blank where nothing fills it
	kind  string   // the cell under kind, if the file itself fills it
	id    string   // the foreign text of the receipt's or run's identifier
}

// get returns the cell of a column.
func (d *draft) get(column string) string {
	if i := slices.Index(d.names, column); i >= 0 {
		return d.cells[i]
	}
	return ""
}

// set fills the cell of a column that the target has.
func (d *draft) set(column, text string) { d.cells[slices.Index(d.names, column)] = text }

// A writer turns drafts into rows of the plan.
type writer struct {
	p       *Plan
	rec     *ledger.Records
	book    *book
	names   *Glossary // of things
	shops   *Glossary
	folds   memo[string]
	columns []string // of the target
	checks  map[string]*checker
	unknown map[string]int        // index in Plan.Unknown
	today   exact.Opt[exact.Date] // the last day that rows may be of; not given: any may be
	tell    func(*ledger.Records) // of what is to be added; may be nil
	new     ledger.Records        // the one that is told of
}

func newWriter(p *Plan, rec *ledger.Records, names []Name) *writer {
	return &writer{
		p: p, rec: rec, book: newBook(rec),
		names:   glossaryOf(names, p.Map.Name, false),
		shops:   glossaryOf(names, p.Map.Name, true),
		columns: p.Map.Target.Columns(),
		checks:  map[string]*checker{},
		unknown: map[string]int{},
	}
}

// read reads the cells of every row that the map takes, one after the other.
func (w *writer) read(b *binding, progress func(done, all int)) iter.Seq[*draft] {
	return func(yield func(*draft) bool) {
		at, all := b.header, b.t.Len()-b.header-1
		for row := range b.rows() {
			at++
			Options{Progress: progress}.report(at-b.header, all)
			if !b.takes(row) {
				w.p.Left++
				continue
			}
			if d := w.readRow(b, at, row); d != nil && !yield(d) {
				return
			}
		}
		Options{Progress: progress}.reported(all)
	}
}

// readRow reads one row, or notes all that is wrong with it.
func (w *writer) readRow(b *binding, at int, row Row) *draft {
	d := &draft{at: at, row: Row{Line: row.Line, Last: row.Last}, names: w.columns, cells: make([]string, len(w.columns))}
	before := len(w.p.Bad)
	if extra := beyond(row, b.width); extra != "" {
		w.bad(d, "", "the row has cells beyond the header's, such as "+exact.Quote(extra),
			"a cell with a separator in it needs quotes around it")
	}
	for i := range b.columns {
		c := &b.columns[i]
		text, err := b.read(c, row)
		if err != nil {
			w.bad(d, c.From, err.Error(), "")
			continue
		}
		if text != "" {
			d.set(c.Column, text)
		}
		switch c.Column {
		case "kind":
			d.kind = strings.ToLower(c.text(row.Cells))
		case "receipt", "run":
			d.id = c.text(row.Cells)
		}
	}
	if len(w.p.Bad) > before {
		return nil
	}
	return d
}

// beyond returns the first text that stands behind the last column.
func beyond(row Row, width int) string {
	for i := width; i < len(row.Cells); i++ {
		if text := cellAt(row.Cells, i); text != "" {
			return text
		}
	}
	return ""
}

// bad notes that a row cannot be imported.
func (w *writer) bad(d *draft, column, what, hint string) {
	w.lacks(d, column, what, ledger.NoChoice, hint)
}

// lacks notes that a row cannot be imported unless something is said of it.
func (w *writer) lacks(d *draft, column, what string, choice ledger.Choice, hint string) {
	w.p.Bad = append(w.p.Bad, ledger.Fault{Line: d.row.Line, Last: d.row.Last, Field: column, What: what, Choice: choice, Hint: hint})
}

// ahead notes rows that are of a day still to come as bad, all of a receipt or
// run together.
func (w *writer) ahead(column string, day exact.Date, drafts ...*draft) bool {
	today, limited := w.today.Get()
	if !limited || day <= today {
		return false
	}
	for _, d := range drafts {
		w.lacks(d, column, fmt.Sprintf("%v is %s ahead", day, day.Distance(today)), ledger.DaysAhead, "")
	}
	return true
}

// add puts a row, whose record is the only one in rec, into a file of the plan.
func (w *writer) add(file string, line int, cells []string, rec *ledger.Records) {
	if w.tell != nil {
		w.tell(rec)
	}
	i := slices.IndexFunc(w.p.Add, func(f FileRows) bool { return f.File == file })
	if i < 0 {
		i = len(w.p.Add)
		w.p.Add = append(w.p.Add, FileRows{File: file, Columns: columnsOf(file, "")})
	}
	w.p.Add[i].Add(NewRow{line, cells})
}

// A checker reads rows as the ledger would, which says what is wrong with them
// and gives their typed records.
type checker struct {
	columns []string
	rec     ledger.Records
	reader  *ledger.Reader
	read    int // rows
}

// mostRead is how many rows a checker reads: texts of all of them stay in its rec.
const mostRead = 1000

func (w *writer) checker(file string) *checker {
	c := w.checks[file]
	if c == nil || c.read == mostRead {
		kind, _ := ledger.KindOf(file)
		c = &checker{columns: columnsOf(file, "")}
		// The columns are the kind's own, so there is nothing to fault.
		c.reader, _ = kind.Read(&c.rec, w.rec.Settings.Zone, c.columns)
		w.checks[file] = c
	}
	c.read++
	return c
}

// check reads cells as a row of a file. It reports whether they are a record,
// which is then the only one of its kind in the checker's rec; what is wrong is
// noted as bad.
func (w *writer) check(d *draft, file string, cells []string) (*checker, bool) {
	c := w.checker(file)
	c.rec.Shelf, c.rec.Runs = c.rec.Shelf[:0], c.rec.Runs[:0]
	c.rec.Receipts.Empty()
	c.rec.Phases.Empty()
	c.rec.Loads.Empty()
	faults := c.reader.Row(d.row.Line, cells)
	for _, f := range faults {
		w.bad(d, f.Field, strings.TrimPrefix(f.What, f.Field+": "), f.Hint) // which names the column itself
	}
	return c, len(faults) == 0
}

// resolve finds what the ledger calls an item of a kind; an empty kind is any.
// The names of the map come before those of the ledger, and of these the whole
// text before the food that is left without the amount: "plums 1 kg".
func (w *writer) resolve(text, kind string) (item, itemKind, size string, ok bool) {
	if n := w.names.find(text); n != nil && !n.omits() && (kind == "" || n.Kind == "" || n.Kind == kind) {
		known, _ := w.book.find(n.Item, kind)
		return cmp.Or(n.Item, text), cmp.Or(n.Kind, known.kind), n.Size, true
	}
	if known, found := w.book.find(text, kind); found {
		return known.id, known.kind, "", true
	}
	food := ledger.FoodLine.String()
	if kind != "" && kind != food {
		return text, "", "", false
	}
	if name := withoutAmount(text); name != "" {
		if known, found := w.book.find(name, food); found {
			return known.id, food, "", true
		}
	}
	return text, "", "", false
}

// skips reports whether the names leave a row out.
func (w *writer) skips(text string) bool {
	n := w.names.find(text)
	return n != nil && n.omits()
}

// noteUnknown counts a name that the ledger does not know.
func (w *writer) noteUnknown(d *draft, name string) {
	i, known := w.unknown[name]
	if !known {
		i = len(w.p.Unknown)
		name = strings.Clone(name) // the text of the file is let go
		w.unknown[name] = i
		w.p.Unknown = append(w.p.Unknown, UnknownName{Name: name, Line: d.row.Line})
	}
	w.p.Unknown[i].Rows++
}
