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
// there whole or, on any error, as it was: it is written under another name
// beside its own, which it gets at the end.
func (a *app) writeOut(o toFile, write func(io.Writer) error) error {
	if o.path == "" {
		return write(a.stdout)
	}
	if err := a.mayWrite(o); err != nil {
		return err
	}
	err := a.saves.do(func() (counted, error) {
		if err := writeWhole(o, write); err != nil {
			return counted{}, err
		}
		return counted{exact.Quote(o.path) + " is written", "it is there whole"}, nil
	})
	if err != nil {
		if p := new(fs.PathError); errors.As(err, &p) {
			err = p.Err
		}
		return fmt.Errorf("%s was not written: %w", exact.Quote(o.path), err)
	}
	return nil
}

// mayWrite refuses what must not be written over: what a ledger is made of,
// and without --force any file.
func (a *app) mayWrite(o toFile) error {
	if a.isRecord(o.path) {
		return usageError{fmt.Errorf("%s is a place where the ledger keeps its records: write somewhere else", exact.Quote(o.path))}
	}
	info, err := os.Lstat(o.path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return fmt.Errorf("%s cannot be written: %w", exact.Quote(o.path), err)
	case !info.Mode().IsRegular():
		return usageError{fmt.Errorf("%s is there already, and is not a file", exact.Quote(o.path))}
	case !o.force:
		return usageError{fmt.Errorf("%s is there already: --force replaces it", exact.Quote(o.path))}
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

// writeWhole writes a file under a passing name, syncs it and gives it its own.
func writeWhole(o toFile, write func(io.Writer) error) (err error) {
	f, err := os.CreateTemp(filepath.Dir(o.path), ".putby-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			f.Close()
			os.Remove(f.Name())
		}
	}()
	for _, step := range []func() error{
		func() error { return write(f) }, f.Sync, f.Close,
	} {
		if err := step(); err != nil {
			return err
		}
	}
	return place(f.Name(), o)
}

// place gives a finished file its name. Without --force it does not replace
// one that has come meanwhile, where the file system can tell.
func place(temp string, o toFile) error {
	if o.force {
		return os.Rename(temp, o.path)
	}
	err := os.Link(temp, o.path)
	switch {
	case err == nil:
		return os.Remove(temp)
	case errors.Is(err, fs.ErrExist):
		return fs.ErrExist
	}
	return os.Rename(temp, o.path) // a file system without links
}
