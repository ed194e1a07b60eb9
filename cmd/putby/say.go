package main

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"

	"putby/ledger"
	"putby/ledger/folder"
	reports "putby/ledger/report"
)

// mostFaults is how many faults a person is shown at once.
const mostFaults = 1000

// report says on w what went wrong, and returns the exit status. This file
// owns all that is said on failure: a line that says what and where, then lines
// that say what to try.
func report(w io.Writer, err error) int {
	if err == nil {
		return exitDone
	}
	var faults ledger.Faults
	if errors.As(err, &faults) {
		sayFaults(w, faults)
		return exitFaults
	}
	fmt.Fprintln(w, "putby: "+printable(err.Error()))
	if hint := hintOf(err); hint != "" {
		fmt.Fprintln(w, "  try: "+printable(hint))
	}
	return statusOf(err)
}

// hintOf finds what to try.
func hintOf(err error) string {
	var query *reports.QueryError
	var none notFoundError
	var store *folder.Error
	switch {
	case errors.As(err, &query):
		return query.Hint
	case errors.As(err, &none):
		return none.hint
	case errors.As(err, &store):
		return store.Hint
	case errors.As(err, new(usageError)):
		return "putby help, or the command with --help"
	}
	return ""
}

func sayFaults(w io.Writer, faults ledger.Faults) {
	var b strings.Builder
	for i, f := range faults {
		if i == mostFaults {
			fmt.Fprintf(&b, "and %d more\n", len(faults)-i)
			break
		}
		b.WriteString(printable(f.Error()) + "\n")
		if f.Hint != "" {
			b.WriteString("  try: " + printable(f.Hint) + "\n")
		}
	}
	word := "faults"
	if len(faults) == 1 {
		word = "fault"
	}
	fmt.Fprintf(&b, "putby: the records have %d %s, so nothing is reckoned from them\n", len(faults), word)
	io.WriteString(w, b.String())
}

// printable keeps control characters, and those that turn text round, from the
// terminal.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) {
			return '\uFFFD'
		}
		return r
	}, s)
}
