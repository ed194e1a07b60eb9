package tables

import (
	"encoding/csv"
	"io"
	"time"

	"putby/pricing/exact"
)

// Append appends a cell as CSV and SQL have it: nothing for a blank one, all
// digits of a number.
func (c *Column) Append(dst []byte, cell *Cell) []byte {
	if cell.Null {
		return dst
	}
	switch c.Type {
	case Text:
		return append(dst, cell.Text...)
	case Whole:
		return exact.Int(cell.Int).AppendTo(dst)
	case Decimal:
		return cell.Number.AppendTo(dst)
	case Date:
		return exact.UnixDate(cell.Int).AppendTo(dst)
	}
	return time.Unix(cell.Int, 0).UTC().AppendFormat(dst, time.DateTime) // the form of SQL's timestamps
}

// A CSVWriter writes rows of a table by RFC 4180: a header, a blank cell as
// nothing. Texts stand as they are, for engines that load them; a spreadsheet
// could take one for a formula.
type CSVWriter struct {
	out   *csv.Writer
	table *Table
	cells []string
	buf   []byte
}

// NewCSV returns a writer of rows to w, and writes the header.
func NewCSV(w io.Writer, t *Table) (*CSVWriter, error) {
	c := &CSVWriter{out: csv.NewWriter(w), table: t, cells: make([]string, len(t.Columns))}
	for i := range t.Columns {
		c.cells[i] = t.Columns[i].Name
	}
	return c, c.out.Write(c.cells)
}

// Write writes a row.
func (c *CSVWriter) Write(row []Cell) error {
	for i := range row {
		if c.table.Columns[i].Type == Text { // as it is, without a copy
			c.cells[i] = row[i].Text
			continue
		}
		c.buf = c.table.Columns[i].Append(c.buf[:0], &row[i])
		c.cells[i] = string(c.buf)
	}
	return c.out.Write(c.cells)
}

// Flush writes what is still in memory.
func (c *CSVWriter) Flush() error {
	c.out.Flush()
	return c.out.Error()
}
