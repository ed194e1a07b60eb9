package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/question"
)

// fileFaults are all that is wrong with a file that is to be brought in, or asked
// about. Nothing was written.
type fileFaults struct {
	file  string
	list  ledger.Faults
	hint  string // for all of them
	asked bool   // nothing was to be written
}

// line says where in the file a fault is, as far as it is known, and what.
func (e *fileFaults) line(f ledger.Fault) string {
	place := e.file
	switch {
	case f.Line > 0 && f.Column > 0:
		place += fmt.Sprintf(":%d:%d", f.Line, f.Column)
	case f.Line > 0:
		place += fmt.Sprintf(":%d", f.Line)
	case f.Path != "":
		place += ": " + f.Path
	}
	return place + ": " + ledger.Fault{What: f.What, Err: f.Err}.Error()
}

// Error lists the faults, one a line.
func (e *fileFaults) Error() string {
	lines := make([]string, len(e.list))
	for i, f := range e.list {
		lines[i] = e.line(f)
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns the faults.
func (e *fileFaults) Unwrap() error { return e.list }

// sayFileFaults lists what is wrong with a file, with hints.
func sayFileFaults(w io.Writer, e *fileFaults) {
	for _, f := range e.list {
		fmt.Fprintln(w, printable(e.line(f)))
		sayHint(w, faultHint(&f))
	}
	undone := "nothing was written"
	if e.asked {
		undone = "no figures are worked out"
	}
	fmt.Fprintf(w, "putby: %s, since %s has %s\n", undone, printable(e.file), howMany(len(e.list), "fault"))
	sayHint(w, e.hint)
}

// placedFaults places the faults of another file by line and column. Other errors
// stay as they are.
func placedFaults(file string, err error) error {
	var faults ledger.Faults
	if errors.As(err, new(*folder.Refusal)) || !errors.As(err, &faults) { // a refusal's are the ledger's own
		return err
	}
	return &fileFaults{file: file, list: faults}
}

// ofFile says what is wrong with a file from which an act takes something, at its place;
// what was typed wrong stays as it is. A hint is for all faults of the file.
func ofFile(file, hint string, err error) error {
	if errors.Is(err, entry.ErrTyped) || errors.Is(err, entry.ErrNone) {
		return err
	}
	var faults ledger.Faults
	if one := (*ledger.Fault)(nil); errors.As(err, &one) {
		faults = ledger.Faults{*one}
	} else if !errors.As(err, &faults) {
		return err
	}
	e := &fileFaults{file: file, list: slices.Clone(faults), hint: hint}
	for i := range e.list {
		f := &e.list[i]
		f.What, f.Field = joined(f.Field, ": ", f.What), ""
		if hint != "" {
			f.Hint = ""
		}
	}
	return e
}

// flagged says by which flag each part of an act was typed that is wrong.
func flagged(err error) error {
	wrongs := slices.Clone(entry.WrongsOf(err))
	for i, w := range wrongs {
		if w.Part != "" {
			wrongs[i].Err = fmt.Errorf("%s: %w", fileFlag(w.Part), w.Err)
		}
	}
	return wrongs.Err()
}

// fileFlag is the flag of a part of what is taken from a file.
func fileFlag(part string) string {
	if part == "tariff" {
		part = "as"
	}
	return question.Flag(part)
}
