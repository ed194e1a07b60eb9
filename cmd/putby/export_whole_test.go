package main

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"putby/cmd/putby/internal/export"
	"putby/ledger/folder"
)

// An export that cannot be written to its end, as on a full disk, leaves nothing,
// and what was there stays as it was; one that is interrupted likewise.
func TestExportIsWholeOrNot(t *testing.T) {
	parent := t.TempDir()
	dir := filepath.Join(parent, "tables")
	var out bytes.Buffer
	env := environment{stdin: strings.NewReader(""), stdout: &out, stderr: &out, getenv: func(string) string { return "" }, now: time.Now}
	a := &app{environment: env, dir: "../../testdata/sample"}
	h, err := a.tables("sample", a.dir, "")
	if err != nil {
		t.Fatal(err)
	}
	full := &fs.PathError{Op: "write", Path: "x", Err: syscall.ENOSPC}
	has := func(want ...string) {
		t.Helper()
		var names []string
		var err error
		// A command that was broken off is not waited for: here, where the process
		// lives on, it takes its folder away in its own time.
		for deadline := time.Now().Add(20 * time.Second); ; time.Sleep(10 * time.Millisecond) {
			var entries []os.DirEntry
			names = nil
			entries, err = os.ReadDir(parent)
			for _, e := range entries {
				names = append(names, e.Name())
			}
			if err == nil && slices.Equal(names, want) || time.Now().After(deadline) {
				break
			}
		}
		if err != nil || !slices.Equal(names, want) {
			t.Errorf("there is %q (%v), want %q", names, err, want)
		}
	}
	for _, format := range []export.Format{export.CSV, export.Parquet} {
		_, err := a.exportTo(t.Context(), dir, true, format, func(w *export.Writer) error { return errors.Join(w.Add(h), full) })
		if !errors.Is(err, syscall.ENOSPC) || !strings.Contains(err.Error(), " was not written: "+folder.Cause(full).Error()) {
			t.Errorf("full disk: %v", err)
		}
		has()
	}
	broken, stop := context.WithCancel(t.Context())
	_, err = a.exportTo(broken, dir, true, export.CSV, func(w *export.Writer) error { stop(); return w.Add(h) })
	if !errors.Is(err, errBroken) {
		t.Errorf("interrupted: %v", err)
	}
	has()
	if status := run(broken, []string{"export", dir, "--ledger", a.dir}, env); status != exitBroken {
		t.Errorf("interrupted before it began: %d", status)
	}
	has()
	if _, err := a.exportTo(t.Context(), dir, false, export.CSV, func(w *export.Writer) error { return w.Add(h) }); err != nil {
		t.Fatal(err)
	}
	before, err := os.ReadFile(filepath.Join(dir, "runs.csv"))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := a.exportTo(t.Context(), dir, true, export.Parquet, func(*export.Writer) error { return full }); err == nil {
		t.Error("a full disk is no error")
	}
	if after, err := os.ReadFile(filepath.Join(dir, "runs.csv")); err != nil || !bytes.Equal(after, before) {
		t.Errorf("what was there is not as it was: %v", err)
	}
	has("tables")
}
