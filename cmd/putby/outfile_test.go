package main

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"
)

// names are the files of a folder, hidden ones too.
func names(t *testing.T, dir string) (list []string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		list = append(list, e.Name())
	}
	return list
}

// TestOutIsWholeOrAsItWas breaks off the writing of a file, before and after
// something was written, with and without one that is there.
func TestOutIsWholeOrAsItWas(t *testing.T) {
	broken := errors.New("broken off")
	for _, c := range []struct {
		why   string
		there string // what the file holds; empty: it is not there
		force bool
		write func(io.Writer) error
		want  string
	}{
		{"new", "", false, func(w io.Writer) error { _, err := io.WriteString(w, "new"); return err }, "new"},
		{"broken off", "", false, func(w io.Writer) error { _, _ = io.WriteString(w, "ne"); return broken }, ""},
		{"there", "old", false, func(w io.Writer) error { _, err := io.WriteString(w, "new"); return err }, "old"},
		{"replaced", "old", true, func(w io.Writer) error { _, err := io.WriteString(w, "new"); return err }, "new"},
		{"broken off over another", "old", true, func(w io.Writer) error { _, _ = io.WriteString(w, "ne"); return broken }, "old"},
	} {
		dir := t.TempDir()
		o := toFile{path: filepath.Join(dir, "out.html"), force: c.force}
		if c.there != "" {
			if err := os.WriteFile(o.path, []byte(c.there), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		a := &app{dir: t.TempDir()}
		err := a.writeOut(o, c.write)
		if failed := c.want != "new"; failed != (err != nil) {
			t.Errorf("%s: %v", c.why, err)
		}
		data, _ := os.ReadFile(o.path)
		if string(data) != c.want {
			t.Errorf("%s: the file holds %q, want %q", c.why, data, c.want)
		}
		if list := names(t, dir); len(list) > 1 || len(list) == 1 && list[0] != "out.html" {
			t.Errorf("%s: left behind: %v", c.why, list)
		}
	}
}

// TestOutDoesNotReplaceWhatHasCome writes a file that somebody else makes in
// the meantime.
func TestOutDoesNotReplaceWhatHasCome(t *testing.T) {
	dir := t.TempDir()
	o := toFile{path: filepath.Join(dir, "out.html")}
	a := &app{dir: t.TempDir()}
	err := a.writeOut(o, func(w io.Writer) error { return os.WriteFile(o.path, []byte("theirs"), 0o600) })
	if data, _ := os.ReadFile(o.path); err == nil || string(data) != "theirs" || len(names(t, dir)) != 1 {
		t.Errorf("%v, the file holds %q", err, data)
	}
}

// TestOutKeepsAwayFromRecords tries every way to a place where a ledger keeps
// its records.
func TestOutKeepsAwayFromRecords(t *testing.T) {
	dir := t.TempDir()
	ledgerDir := filepath.Join(dir, "l")
	if err := os.MkdirAll(filepath.Join(ledgerDir, "meter"), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(ledgerDir, filepath.Join(dir, "link")); err != nil {
		t.Fatal(err)
	}
	a := &app{dir: ledgerDir}
	for path, refused := range map[string]bool{
		"l/page.html": false, "page.html": false, "page.csv": false, "link/page.html": false,
		"l/runs.csv": true, "l/RUNS.CSV": true, "l/new.csv": true, "l/.lock": true, "l/meter/page.html": true,
		"link/runs.csv": true, "link/meter/c1.csv": true, "l/../l/runs.csv": true,
	} {
		if err := a.mayWrite(toFile{path: filepath.Join(dir, path), force: true}); refused != (err != nil) {
			t.Errorf("%s: %v", path, err)
		}
	}
}
