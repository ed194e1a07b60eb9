package export

import (
	"bufio"
	"errors"
	"os"
	"path/filepath"

	"putby/ledger/tables"
)

// The files of an export beside those of its tables.
const (
	SchemaFile     = "schema.sql"
	PostgreSQLFile = "load-postgresql.sql"
	DuckDBFile     = "load-duckdb.sql"
)

// A Writer writes the rows of households into the files of an export.
type Writer struct {
	Households, Rows int // so far

	tables []tables.Table
	files  []*file // parallel to tables
}

// New begins an export in a folder that is empty.
func New(dir string) (*Writer, error) {
	for name, text := range map[string]string{
		SchemaFile: tables.Schema(), PostgreSQLFile: tables.LoadPostgreSQL(), DuckDBFile: tables.LoadDuckDB(),
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
			return nil, err
		}
	}
	w := &Writer{tables: tables.All()}
	for i := range w.tables {
		f, err := create(dir, &w.tables[i])
		if err != nil {
			return nil, errors.Join(err, w.Close())
		}
		w.files = append(w.files, f)
	}
	return w, nil
}

// Add writes the rows of a household.
func (w *Writer) Add(h *tables.Household) error {
	w.Households++
	for i, f := range w.files {
		for row, err := range w.tables[i].Rows(h) {
			if err == nil {
				err = f.rows.Write(row)
			}
			if err != nil {
				return err
			}
			w.Rows++
		}
	}
	return nil
}

// Tables is how many tables there are.
func (w *Writer) Tables() int { return len(w.tables) }

// Close ends the files. It may be called again.
func (w *Writer) Close() (err error) {
	for _, f := range w.files {
		err = errors.Join(err, f.close())
	}
	w.files = nil
	return err
}

// A file is the file of a table.
type file struct {
	*os.File
	buf  *bufio.Writer
	rows *tables.CSVWriter
}

func csvName(t *tables.Table) string { return t.Name + ".csv" }

func create(dir string, t *tables.Table) (*file, error) {
	out, err := os.Create(filepath.Join(dir, csvName(t)))
	if err != nil {
		return nil, err
	}
	f := &file{File: out, buf: bufio.NewWriterSize(out, 1<<16)}
	if f.rows, err = tables.NewCSV(f.buf, t); err != nil {
		return nil, errors.Join(err, out.Close())
	}
	return f, nil
}

func (f *file) close() error { return errors.Join(f.rows.Flush(), f.buf.Flush(), f.Close()) }
