package tables

import (
	"errors"
	"fmt"
	"iter"
	"slices"

	"putby/pricing/exact"
)

// A Table is a table of facts.
type Table struct {
	Name    string
	Help    string // what a row is
	Columns []Column
	Year    int // position of the column whose year a row belongs to; -1: none
	rows    func(*Household) iter.Seq[[]Cell]
}

// A Column is a column of a table.
type Column struct {
	Name           string
	Type           Type
	Digits, Places int    // of a Decimal: in all, and after the point
	Key            bool   // part of the table's key, and never blank
	Refers         string // table whose key it is, with the household
	Help           string // what it is, with its unit

	below exact.Number // what the amount of a Decimal stays below
}

// newTable makes a table of how to go through the rows of a household, and how
// to fill the cells of each. The household comes before the columns that are
// given. Each may hand the same R to its function again and again.
func newTable[R any](name, help string, each func(*Household, func(*R) bool), columns ...column[R]) Table {
	t := Table{Name: name, Help: help, Year: -1}
	t.Columns = append(t.Columns, Column{Name: "household", Key: true, Refers: householdsTable, Help: "the ledger that the row is of"})
	for _, c := range columns {
		t.Columns = append(t.Columns, c.Column)
	}
	t.rows = func(h *Household) iter.Seq[[]Cell] {
		return func(yield func([]Cell) bool) {
			cells := make([]Cell, len(columns)+1)
			cells[0].Text = h.Name
			each(h, func(r *R) bool {
				for i := range columns {
					cells[i+1] = columns[i].of(r)
				}
				return yield(cells)
			})
		}
	}
	return t
}

// byYear says which date column's year a row belongs to.
func (t Table) byYear(column string) Table {
	t.Year = slices.IndexFunc(t.Columns, func(c Column) bool { return c.Name == column })
	return t
}

// Rows goes through the rows of a household. A row's memory serves the next one
// too.
func (t *Table) Rows(h *Household) iter.Seq[[]Cell] { return t.rows(h) }

// ErrDigits: a number of a row has more digits than its column takes.
var ErrDigits = errors.New("cannot be written")

// fit holds the numbers of a row against the digits of their columns.
func (t *Table) fit(cells []Cell) error {
	for i := range cells {
		c := &t.Columns[i]
		if c.Type == Decimal && !cells[i].Null && !c.fits(cells[i].Number) {
			return fmt.Errorf("row%s of the table %s %w: %s is %v, and only %d digits before and %d after the point fit there",
				t.keyOf(cells), t.Name, ErrDigits, c.Name, cells[i].Number, c.Digits-c.Places, c.Places)
		}
	}
	return nil
}

// fits reports whether a number has no more digits than a column takes.
func (c *Column) fits(n exact.Number) bool { return n.Places() <= c.Places && n.Abs().Less(c.below) }

// keyOf says which row it is, but for its household, with a space before.
func (t *Table) keyOf(cells []Cell) (key string) {
	for i := 1; i < len(cells); i++ {
		if t.Columns[i].Key {
			key += " " + string(t.Columns[i].Append(nil, &cells[i]))
		}
	}
	return key
}
