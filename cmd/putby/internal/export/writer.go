package export

import (
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

// A Format is what the files of tables are.
type Format uint8

// The formats.
const (
	CSV     Format = iota // one file a table
	Parquet               // one file for each household and year of a table, in folders that name them
)

// Formats are their names, by format.
var Formats = []string{"csv", "parquet"}

// Load is what a person types in the folder of an export, to load it.
func (f Format) Load() string {
	duckDB := "duckdb DATABASE < " + DuckDBFile
	if f == Parquet {
		return duckDB
	}
	return "psql -d DATABASE -f " + PostgreSQLFile + "\n  or: " + duckDB
}

// A Writer writes the rows of households into the files of an export.
type Writer struct {
	Households, Rows int // so far

	Format Format

	dir    string
	tables []tables.Table
	files  []files // parallel to tables
}

// files are those of a table.
type files interface {
	add(row []tables.Cell) error
	household() error // ends what is of one household alone
	close() error
	empty() bool // nothing was added
}

// New begins an export in a folder that is empty.
func New(dir string, format Format) (*Writer, error) {
	w := &Writer{Format: format, dir: dir, tables: tables.All()}
	for i := range w.tables {
		if format == Parquet {
			w.files = append(w.files, newPartitions(dir, &w.tables[i]))
			continue
		}
		f, err := newCSVFile(dir, &w.tables[i])
		if err != nil {
			return nil, errors.Join(err, w.end())
		}
		w.files = append(w.files, f)
	}
	return w, nil
}

// Add writes the rows of a household.
func (w *Writer) Add(h *tables.Household) error {
	w.Households++
	for i, f := range w.files {
		for row := range w.tables[i].Rows(h) {
			if err := f.add(row); err != nil {
				return err
			}
			w.Rows++
		}
		if err := f.household(); err != nil {
			return err
		}
	}
	return nil
}

// Tables is how many tables there are.
func (w *Writer) Tables() int { return len(w.tables) }

// Close ends the files, and adds those that load them.
func (w *Writer) Close() error {
	texts := map[string]string{SchemaFile: tables.Schema(), DuckDBFile: tables.LoadDuckDB()}
	if w.Format == CSV {
		texts[PostgreSQLFile] = tables.LoadPostgreSQL()
	} else {
		texts[DuckDBFile] = tables.LoadPartitions(w.sources())
	}
	if err := w.end(); err != nil {
		return err
	}
	for name, text := range texts {
		if err := os.WriteFile(filepath.Join(w.dir, name), []byte(text), 0o666); err != nil {
			return err
		}
	}
	return nil
}

// Discard ends the files where nobody is to have them.
func (w *Writer) Discard() { _ = w.end() }

func (w *Writer) end() (err error) {
	for _, f := range w.files {
		err = errors.Join(err, f.close())
	}
	w.files = nil
	return err
}

// sources are the patterns of the files of tables that have any.
func (w *Writer) sources() map[string]string {
	list := map[string]string{}
	for i, f := range w.files {
		if !f.empty() {
			list[w.tables[i].Name] = pattern(&w.tables[i])
		}
	}
	return list
}
