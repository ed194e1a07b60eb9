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

// headerWithin is how many of a file's first rows are searched for the header:
// banks put titles, accounts and balances above it.
const headerWithin = 50

// A binding is a map laid over a table: each column of the ledger with the
// places of the foreign cells that fill it and the way to read them.
type binding struct {
	m       Map
	t       *Table
	header  int // index of its row
	width   int // how many cells it has
	columns []column
	only    []filter
	decimal Decimal // of the file as a whole

	unsettled bool // whether its dates read the same in several orders
}

// A column is one column of the ledger being filled.
type column struct {
	Fill
	of      *ledger.Column
	cell    ledger.CellType // as which its foreign cells are read
	at      []int           // indexes of the foreign cells
	order   Order
	decimal Decimal
	read    *memo[reading]
}

type filter struct {
	Only
	at      int // index of the foreign cell in a row
	decimal Decimal
}

// bind finds the map's columns in the table and the way its dates and numbers
// are written: the header first, since only the rows below it tell of dates and
// numbers. Its errors are each an [ledger.Fault].
func (m Map) bind(t *Table) (*binding, error) {
	b := &binding{m: m, t: t}
	for _, f := range m.Fills {
		c := m.Target.column(f.Column)
		b.columns = append(b.columns, column{Fill: f, of: c, cell: readAs(c), read: new(memo[reading])})
	}
	for _, o := range m.Only {
		b.only = append(b.only, filter{Only: o})
	}
	if err := b.findHeader(); err != nil {
		return nil, err
	}
	told := b.survey()
	if err := b.settleOrders(told); err != nil {
		return nil, err
	}
	return b, b.settleDecimals(told)
}

// rows returns the rows below the header.
func (b *binding) rows() iter.Seq[Row] { return b.t.From(b.header + 1) }

// findHeader finds the first row that has all columns of the map.
func (b *binding) findHeader() error {
	fewest, best := []string(nil), 0
	for i := range min(headerWithin, b.t.Len()) {
		missing := b.place(b.t.Row(i).Cells)
		if len(missing) == 0 {
			b.header, b.width = i, len(b.t.Row(i).Cells)
			return nil
		}
		if fewest == nil || len(missing) < len(fewest) {
			fewest, best = missing, i
		}
	}
	row := b.t.Row(best)
	return &ledger.Fault{
		Kind: ErrHeader, Line: row.Line,
		What: fmt.Sprintf("the map %s reads %s, which no header of the file has", b.m.Name, quoteAll(fewest)),
		Hint: "the nearest row has: " + quoteAll(filled(row.Cells)),
	}
}

// place looks the map's columns up in a header, and returns those missing.
func (b *binding) place(header []string) (missing []string) {
	for i := range b.columns {
		c := &b.columns[i]
		c.at = nil
		for _, name := range headersOf(header, c.From) {
			at := findColumn(header, name)
			if at < 0 {
				missing = append(missing, name)
			}
			c.at = append(c.at, at)
		}
	}
	for i := range b.only {
		b.only[i].at = findColumn(header, b.only[i].From)
		if b.only[i].at < 0 {
			missing = append(missing, b.only[i].From)
		}
	}
	return missing
}

// headersOf splits what a map reads into headers.
func headersOf(header []string, from string) []string {
	switch {
	case from == "":
		return nil
	case findColumn(header, from) >= 0:
		return []string{from}
	}
	return strings.Split(from, " + ")
}

// findColumn returns the index of the column with a name: spelled alike, else
// alike but for case and marks if only one is; else -1.
func findColumn(header []string, name string) int {
	name = strings.TrimSpace(name)
	if i := slices.IndexFunc(header, func(h string) bool { return strings.TrimSpace(h) == name }); i >= 0 {
		return i
	}
	found := -1
	for i, h := range header {
		if key := ledger.Fold(h); key != "" && key == ledger.Fold(name) {
			if found >= 0 {
				return -1
			}
			found = i
		}
	}
	return found
}

func filled(cells []string) []string {
	return slices.DeleteFunc(slices.Clone(cells), func(c string) bool { return strings.TrimSpace(c) == "" })
}

func quoteAll(list []string) string {
	quoted := make([]string, 0, len(list))
	for _, s := range list {
		quoted = append(quoted, exact.Quote(s))
	}
	return strings.Join(quoted[:min(len(quoted), 30)], ", ")
}

// isDate reports whether the column holds dates.
func (c *column) isDate() bool { return c.cell == ledger.DateCell || c.cell == ledger.MomentCell }

// A survey is what the cells of a column tell of how its dates and numbers are
// written. A text that was seen tells nothing new.
type survey struct {
	column *column
	told   evidence
	seen   memo[struct{}]
}

// survey goes through the rows once, for all columns of which the map does not
// say how they are written.
func (b *binding) survey() (all []*survey) {
	for i := range b.columns {
		c := &b.columns[i]
		c.decimal = cmp.Or(c.How.Decimal, b.m.Decimal)
		if c.isDate() {
			c.order = cmp.Or(c.How.Order, b.m.Dates)
		}
		if len(c.at) > 0 && (c.isDate() && c.order == AnyOrder || numeric(c.cell) && c.decimal == AnyDecimal) {
			all = append(all, &survey{column: c})
		}
	}
	if len(all) == 0 {
		return nil
	}
	for row := range b.rows() {
		for _, s := range all {
			s.look(b, row)
		}
	}
	return all
}

// look looks at a cell, unless it is a number as the workbook stores it.
func (s *survey) look(b *binding, row Row) {
	text := s.column.text(row.Cells)
	if text == "" {
		return
	}
	if b.t.Form.Workbook {
		if _, ok := b.number(s.column, row.Cells); ok {
			return
		}
	}
	s.seen.of(text, func() (none struct{}) {
		switch {
		case s.column.isDate():
			s.told.seeDate(row.Line, text)
		case !s.column.How.Within:
			s.told.seeNumber(row.Line, numberPart(text))
		default:
			for _, amount := range mentions(text) {
				s.told.seeNumber(row.Line, numberPart(amount))
			}
		}
		return none
	})
}

// settleOrders settles the order of dates: what the map says of a column, else of
// the file, else what all its dates agree on.
func (b *binding) settleOrders(list []*survey) error {
	var all evidence
	for _, s := range list {
		if s.column.isDate() {
			all.join(&s.told)
			b.unsettled = true
		}
	}
	order, err := all.order()
	if err != nil {
		return err
	}
	// Dates that read the same in every order settle none for the next file
	// (TestISODatesSettleNothing).
	b.unsettled = b.unsettled && !all.settled()
	for _, s := range list {
		if s.column.isDate() {
			s.column.order = order
		}
	}
	return nil
}

// settleDecimals settles the decimal sign: what the map says of a column, else of
// the file, else what all numbers of the file agree on, else those of the
// column.
func (b *binding) settleDecimals(list []*survey) error {
	list = slices.DeleteFunc(list, func(s *survey) bool { return s.column.isDate() })
	var all evidence
	for _, s := range list {
		all.join(&s.told)
	}
	decimal, err := all.sign()
	for _, s := range list { // with an error each column has to tell by itself
		c := s.column
		if c.decimal = decimal; err == nil {
			continue
		}
		var own *ledger.Fault
		if c.decimal, own = s.told.sign(); own != nil && own.Kind == ErrAmbiguous && b.isExport() {
			c.decimal = Point
		} else if own != nil {
			own.What = c.From + ": " + own.What
			return own
		}
	}
	b.decimal = cmp.Or(b.m.Decimal, decimal)
	for i := range b.only {
		b.only[i].decimal = b.decimal
	}
	return nil
}

// isExport reports whether the header has all the columns of the ledger's own
// file. Then numbers that could be either are written as the ledger does.
func (b *binding) isExport() bool {
	header := b.t.Row(b.header).Cells
	return !slices.ContainsFunc(b.m.Target.Columns(), func(c string) bool {
		return !strings.Contains(c, ".") && !slices.Contains(header, c)
	})
}

// numberPart cuts what stands around the number that tells the decimal sign.
func numberPart(text string) string {
	if _, each, found := cutTimes(text); found {
		text = each
	}
	// A parenthesis or a minus behind is the sign of a negative number, which [bare] reads.
	if m := cutUnit(text); m.unit != "" && m.unit != ")" && m.unit != "-" {
		return m.number
	}
	return text
}
