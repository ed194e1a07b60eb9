package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"putby/ledger/folder"
	"putby/pricing/exact"
)

// toFile are the flags of a command that can write a file.
type toFile struct {
	path  string
	force bool
}

func (o *toFile) add(cmd *cobra.Command, what string) {
	f := cmd.Flags()
	f.StringVarP(&o.path, "out", "o", "", "write "+what+" to this `file`, when it is complete")
	f.BoolVar(&o.force, "force", false, "replace the file if it is there")
	_ = cmd.MarkFlagFilename("out")
}

// writeOut writes to the file asked for, else to standard output. A file is
// there whole or, on any error, as it was.
func (a *app) writeOut(o toFile, write func(io.Writer) error) error {
	if o.path == "" {
		return write(a.stdout)
	}
	if err := a.mayWrite(o); err != nil {
		return err
	}
	err := a.place(o.path, func() error { return folder.WriteOutside(o.path, o.force, write) })
	if err != nil {
		return fmt.Errorf("%s was not written: %w", exact.Quote(o.path), folder.Cause(err))
	}
	return nil
}

// mayWrite refuses what must not be written over: what a ledger is made of,
// and without --force any file.
func (a *app) mayWrite(o toFile) error {
	if a.isRecord(o.path) {
		return misused("%s is a place where the ledger keeps its records: write somewhere else", exact.Quote(o.path))
	}
	info, err := os.Lstat(o.path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return fmt.Errorf("%s cannot be written: %w", exact.Quote(o.path), folder.Cause(err))
	case !info.Mode().IsRegular():
		return misused("%s is there already, and is not a file", exact.Quote(o.path))
	case !o.force:
		return misused("%s is there already: --force replaces it", exact.Quote(o.path))
	}
	return nil
}

// isRecord reports whether a file would be where the ledger keeps its own: a
// CSV file or a hidden one in its folder, or anything in a folder below it.
func (a *app) isRecord(path string) bool {
	home, err := os.Stat(a.ledgerDir())
	if err != nil {
		return false
	}
	name := filepath.Base(path)
	own := strings.HasPrefix(name, ".") || strings.EqualFold(filepath.Ext(name), ".csv")
	dir, err := filepath.Abs(filepath.Dir(path))
	if err == nil {
		dir, err = filepath.EvalSymlinks(dir)
	}
	if err != nil {
		return false // then it cannot be written either
	}
	for below := false; ; below = true {
		if info, err := os.Stat(dir); err == nil && os.SameFile(info, home) {
			return own || below
		}
		if dir == filepath.Dir(dir) {
			return false
		}
		dir = filepath.Dir(dir)
	}
}
