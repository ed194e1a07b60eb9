package export

import (
	"bufio"
	"errors"
	"os"
	"path/filepath"

	"putby/ledger/tables"
)

// A csvFile has the rows of all households.
type csvFile struct {
	*os.File
	buf  *bufio.Writer
	rows *tables.CSVWriter
	any  bool
}

func csvName(t *tables.Table) string { return t.Name + ".csv" }

func newCSVFile(dir string, t *tables.Table) (*csvFile, error) {
	out, err := os.Create(filepath.Join(dir, csvName(t)))
	if err != nil {
		return nil, err
	}
	f := &csvFile{File: out, buf: bufio.NewWriterSize(out, 1<<16)}
	if f.rows, err = tables.NewCSV(f.buf, t); err != nil {
		return nil, errors.Join(err, out.Close())
	}
	return f, nil
}

func (f *csvFile) add(row []tables.Cell) error {
	f.any = true
	return f.rows.Write(row)
}

func (f *csvFile) household() error { return nil }

func (f *csvFile) empty() bool { return !f.any }

func (f *csvFile) close() error { return errors.Join(f.rows.Flush(), f.buf.Flush(), f.Close()) }
