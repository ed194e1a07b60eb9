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

// Known reports whether there is an earlier export in dir; false where there is
// nothing, or an empty folder. Of a folder with anything else in it, a file or a link
// other says what no export wrote.
func Known(dir string) (known bool, other string, err error) {
	info, err := os.Lstat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return false, "", nil
	case err != nil:
		return false, "", err
	case !info.IsDir():
		return false, "is there already, and is not a folder", nil
	}
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) == 0 {
		return false, "", err
	}
	if !begins(filepath.Join(dir, SchemaFile), tables.SchemaBegins) {
		return false, "holds files that no export wrote", nil
	}
	for _, e := range entries {
		if !ours(e) {
			return false, fmt.Sprintf("holds an export, and also %s, which is none of it", exact.Quote(e.Name())), nil
		}
	}
	return true, "", nil
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
