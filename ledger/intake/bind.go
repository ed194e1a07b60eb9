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
}

type filter struct {
	Only
	at      int
	decimal Decimal
}

// bind finds the map's columns in the table and the way its dates and numbers
// are written. Its errors are each an [ledger.Fault].
func (m Map) bind(t *Table) (*binding, error) {
	b := &binding{m: m, t: t}
	for _, f := range m.Fills {
		c := m.Target.column(f.Column)
		b.columns = append(b.columns, column{Fill: f, of: c, cell: readAs(c)})
	}
	for _, o := range m.Only {
		b.only = append(b.only, filter{Only: o})
	}
	if err := b.findHeader(); err != nil {
		return nil, err
	}
	if err := b.findOrders(); err != nil {
		return nil, err
	}
	return b, b.findDecimals()
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
	for i, h := range header {
		if strings.TrimSpace(h) == name {
			return i
		}
	}
	found := -1
	for i, h := range header {
		if key := folded(h); key != "" && key == folded(name) {
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

// findOrders settles the order of dates: what the map says of a column, else of
// the file, else what all its dates agree on.
func (b *binding) findOrders() error {
	var all orderSense
	open := false
	for i := range b.columns {
		c := &b.columns[i]
		if !c.isDate() {
			continue
		}
		c.order = c.How.Order
		if c.order == AnyOrder {
			c.order = b.m.Dates
		}
		if c.order == AnyOrder && len(c.at) > 0 {
			open = true
			b.each(c, func(line int, text string) { all.see(line, text) })
		}
	}
	if !open {
		return nil
	}
	order, err := all.decide()
	if err != nil {
		return err
	}
	b.unsettled = !all.settled()
	for i := range b.columns {
		if c := &b.columns[i]; c.order == AnyOrder && c.isDate() {
			c.order = order
		}
	}
	return nil
}

// each calls see with the text of every cell of a column that is not a number
// as the workbook stores it.
func (b *binding) each(c *column, see func(line int, text string)) {
	for row := range b.rows() {
		text := c.text(row.Cells)
		if text == "" {
			continue
		}
		if b.t.Form.Workbook {
			if _, ok := b.number(c, row.Cells); ok {
				continue
			}
		}
		see(row.Line, text)
	}
}

// findDecimals settles the decimal sign: what the map says of a column, else of
// the file, else what all numbers of the file agree on, else those of the
// column.
func (b *binding) findDecimals() error {
	var all decimalSense
	var open []*column
	for i := range b.columns {
		c := &b.columns[i]
		if c.decimal = c.How.Decimal; c.decimal == AnyDecimal {
			c.decimal = b.m.Decimal
		}
		if c.decimal == AnyDecimal && numeric(c.cell) && len(c.at) > 0 {
			open = append(open, c)
			b.eachNumber(c, &all)
		}
	}
	decimal, err := all.decide()
	for _, c := range open {
		if c.decimal = decimal; err == nil {
			continue
		}
		var own decimalSense
		b.eachNumber(c, &own)
		var ownErr *ledger.Fault
		if c.decimal, ownErr = own.decide(); ownErr != nil && ownErr.Kind == ErrAmbiguous && b.isExport() {
			c.decimal = Point
		} else if ownErr != nil {
			ownErr.What = c.From + ": " + ownErr.What
			return ownErr
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

// eachNumber shows all numbers of a column to a sense.
func (b *binding) eachNumber(c *column, x *decimalSense) {
	b.each(c, func(line int, text string) {
		if !c.How.Within {
			x.see(line, numberPart(text))
			return
		}
		for _, amount := range mentions(text) {
			x.see(line, numberPart(amount))
		}
	})
}

// numberPart cuts what stands around the number that tells the decimal sign.
func numberPart(text string) string {
	if _, each, found := cutTimes(text); found {
		text = each
	}
	if m := cutUnit(text); m.unit != "" && m.unit != ")" && m.unit != "-" {
		return m.number
	}
	return text
}
