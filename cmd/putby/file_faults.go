package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"putby/ledger"
	"putby/ledger/folder"
)

// A fileFault is something wrong with a file that is to be brought in.
type fileFault struct{ place, problem, hint string }

// fileFaults are all that is wrong with one such file. Nothing of it was
// written.
type fileFaults struct {
	file string
	list []fileFault
	hint string // for all of them
}

// Error lists the faults, one a line.
func (e *fileFaults) Error() string {
	lines := make([]string, len(e.list))
	for i, f := range e.list {
		lines[i] = f.place + ": " + f.problem
	}
	return strings.Join(lines, "\n")
}

// sayFileFaults lists what is wrong with a file, with hints.
func sayFileFaults(w io.Writer, e *fileFaults) {
	for _, f := range e.list {
		fmt.Fprintln(w, printable(f.place+": "+f.problem))
		if f.hint != "" {
			fmt.Fprintln(w, "  try: "+printable(f.hint))
		}
	}
	count := fmt.Sprintf("%d faults", len(e.list))
	if len(e.list) == 1 {
		count = "1 fault"
	}
	fmt.Fprintf(w, "putby: nothing was written, since %s has %s\n", printable(e.file), count)
	if e.hint != "" {
		fmt.Fprintln(w, "  try: "+printable(e.hint))
	}
}

// placedFaults places the faults of another file by line and column. Other errors
// stay as they are.
func placedFaults(file string, err error) error {
	var faults ledger.Faults
	if errors.As(err, new(*folder.Refusal)) || !errors.As(err, &faults) { // a refusal's are the ledger's own
		return err
	}
	e := &fileFaults{file: file}
	for _, f := range faults {
		e.list = append(e.list, fileFault{fmt.Sprintf("%s:%d:%d", file, f.Line, f.Column), f.What, f.Hint})
	}
	return e
}

// rateFaults places the faults of a rate by JSON path, or where it is not JSON
// by line and column.
func rateFaults(file string, err error) error {
	var faults ledger.Faults
	if one := (*ledger.Fault)(nil); errors.As(err, &one) {
		faults = ledger.Faults{*one}
	} else if !errors.As(err, &faults) {
		return err
	}
	e := &fileFaults{file: file, hint: rateHint}
	for _, f := range faults {
		place := file + ": " + f.Path
		if f.Line > 0 {
			place = fmt.Sprintf("%s:%d:%d", file, f.Line, f.Column)
		}
		e.list = append(e.list, fileFault{place: place, problem: f.What})
	}
	return e
}

const rateHint = "a rate has energyratestructure, energyweekdayschedule and energyweekendschedule: see putby tariff import --help"
