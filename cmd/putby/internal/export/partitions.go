package export

import (
	"bufio"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"putby/cmd/putby/internal/parquet"
	"putby/ledger/tables"
	"putby/pricing/exact"
)

// Folders that name a household and a year, as engines read them (by the custom
// that Hive began): runs/household=NAME/year=2025/rows.parquet. What a folder names
// is in no file.
const (
	householdFolder = "household="
	yearFolder      = "year="
	rowsFile        = "rows.parquet"
)

// partitions are the files of a table, each of one household and year.
type partitions struct {
	dir     string
	table   *tables.Table
	columns []parquet.Column // but for the household
	row     []parquet.Value
	open    map[string]*partition // of the household at hand, by folder
	any     bool
}

// A partition is a file of them.
type partition struct {
	*os.File
	buf  *bufio.Writer
	rows *parquet.Writer
}

func newPartitions(dir string, t *tables.Table) *partitions {
	p := &partitions{dir: filepath.Join(dir, t.Name), table: t, open: map[string]*partition{}}
	types := map[tables.Type]parquet.Type{
		tables.Text: parquet.Text, tables.Whole: parquet.Whole, tables.Decimal: parquet.Decimal, tables.Date: parquet.Date, tables.Moment: parquet.Moment,
	}
	for _, c := range t.Columns[1:] {
		p.columns = append(p.columns, parquet.Column{Name: c.Name, Type: types[c.Type], Digits: c.Digits, Places: c.Places, Need: c.Key})
	}
	p.row = make([]parquet.Value, len(p.columns))
	return p
}

// pattern says where the files of a table are, within an export.
func pattern(t *tables.Table) string {
	if t.Year < 0 {
		return t.Name + "/*/" + rowsFile
	}
	return t.Name + "/*/*/" + rowsFile
}

func (p *partitions) add(row []tables.Cell) error {
	p.any = true
	out, err := p.of(row)
	if err != nil {
		return err
	}
	for i, c := range row[1:] {
		p.row[i] = parquet.Value{Blank: c.Null, Text: c.Text, Int: c.Int, Number: c.Number}
	}
	return out.rows.Add(p.row)
}

// of is the file that a row belongs in.
func (p *partitions) of(row []tables.Cell) (*partition, error) {
	folder := householdFolder + folderName(row[0].Text)
	if p.table.Year >= 0 {
		year, _, _ := exact.UnixDate(row[p.table.Year].Int).Civil()
		folder = filepath.Join(folder, fmt.Sprint(yearFolder, year))
	}
	if out := p.open[folder]; out != nil {
		return out, nil
	}
	dir := filepath.Join(p.dir, folder)
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return nil, err
	}
	f, err := os.Create(filepath.Join(dir, rowsFile))
	if err != nil {
		return nil, err
	}
	out := &partition{File: f, buf: bufio.NewWriter(f)}
	if out.rows, err = parquet.NewWriter(out.buf, p.columns); err != nil {
		return nil, errors.Join(err, f.Close())
	}
	p.open[folder] = out
	return out, nil
}

// household ends the files of a household.
func (p *partitions) household() (err error) {
	for _, folder := range slices.Sorted(maps.Keys(p.open)) {
		out := p.open[folder]
		err = errors.Join(err, out.rows.Close(), out.buf.Flush(), out.Close())
	}
	clear(p.open)
	return err
}

func (p *partitions) empty() bool { return !p.any }

func (p *partitions) close() error { return p.household() }

// folderName is a household's name as a folder's: what could mean anything else
// there is written as %XX.
func folderName(name string) string {
	var b strings.Builder
	for i := range len(name) {
		c := name[i]
		if c >= 0x80 || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || strings.IndexByte("-_. ", c) >= 0 {
			b.WriteByte(c)
			continue
		}
		fmt.Fprintf(&b, "%%%02X", c)
	}
	return b.String()
}
