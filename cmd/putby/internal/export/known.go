package export

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"putby/ledger/tables"
	"putby/pricing/exact"
)

// A FullError is a folder that holds what no export wrote.
type FullError struct{ Dir, Why string }

// Error names the folder and what is in it.
func (e *FullError) Error() string { return exact.Quote(e.Dir) + " " + e.Why }

// Known reports whether there is an earlier export in dir; false where there is
// nothing, or an empty folder. A folder with anything else in it, a file or a link
// is a [*FullError].
func Known(dir string) (bool, error) {
	info, err := os.Lstat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return false, nil
	case err != nil:
		return false, err
	case !info.IsDir():
		return false, &FullError{dir, "is there already, and is not a folder"}
	}
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) == 0 {
		return false, err
	}
	if !begins(filepath.Join(dir, SchemaFile), tables.SchemaBegins) {
		return false, &FullError{dir, "holds files that no export wrote"}
	}
	for _, e := range entries {
		if !ours(e) {
			return false, &FullError{dir, fmt.Sprintf("holds an export, and also %s, which is none of it", exact.Quote(e.Name()))}
		}
	}
	return true, nil
}

// ours reports whether an export writes something of that name: of a table a CSV
// file, or a folder.
func ours(e fs.DirEntry) bool {
	file := e.Type().IsRegular()
	switch e.Name() {
	case SchemaFile, PostgreSQLFile, DuckDBFile:
		return file
	}
	for _, t := range tables.All() {
		if file && e.Name() == csvName(&t) || e.IsDir() && e.Name() == t.Name {
			return true
		}
	}
	return false
}

// begins reports whether a file begins with a text.
func begins(path, text string) bool {
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	head := make([]byte, len(text))
	_, err = io.ReadFull(f, head)
	return err == nil && string(head) == text
}
