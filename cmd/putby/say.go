package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"syscall"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/figures"
	"putby/ledger/folder"
	"putby/ledger/question"
)

// mostFaults is how many faults a person is shown at once: as many as are told
// of one file, and the note on its rest.
const mostFaults = folder.MaxFaults + 1

// report says on w what went wrong, and returns the exit status. This file
// owns how failure is said: a line that says what and where, then lines that say
// what to try.
func report(w io.Writer, err error) int {
	if err == nil {
		return exitDone
	}
	sayError(w, err)
	if asked := (askedError{}); errors.As(err, &asked) {
		what := "to mend and run again"
		if errors.Is(err, errNotAnswered) {
			what = "to go on from"
		}
		fmt.Fprintf(w, "What you answered, as one command %s:\n  putby %s\n", what, printable(asked.command))
	}
	return statusOf(err)
}

func sayError(w io.Writer, err error) {
	var refusal *folder.Refusal
	var faults ledger.Faults
	var missing *question.MissingError
	var foreign *fileFaults
	var saved *ledger.Fault
	var several *entry.AmbiguousError
	var without *leftOutError
	var wrongs entry.Wrongs
	switch {
	case errors.As(err, &wrongs) && len(wrongs) > 1:
		for _, wrong := range wrongs {
			sayError(w, wrong.Err)
		}
	case errors.As(err, &saved) && saved.Kind == errAfter:
		fmt.Fprintln(w, "putby: "+printable(saved.What))
		if saved.Err != nil {
			sayError(w, saved.Err)
		}
		sayHint(w, saved.Hint)
	case errors.Is(err, errTold):
	case errors.As(err, &without):
		sayLeftOut(w, without)
	case errors.As(err, &foreign):
		sayFileFaults(w, foreign)
	case errors.As(err, &several):
		sayChoices(w, several)
	case errors.As(err, &missing):
		sayMissing(w, missing)
	case errors.Is(err, entry.ErrInUse):
		fmt.Fprintln(w, "putby: nothing was saved: "+printable(err.Error()))
		sayHint(w, hintOf(err))
	case errors.As(err, &refusal) && refusal.Already:
		sayFaults(w, refusal.Faults, "nothing was saved, since the records have ", " already")
	case errors.As(err, &refusal) && refusal.Stays != "":
		sayFaults(w, refusal.Faults, "nothing was saved, since the records would have ", ": "+printable(refusal.Stays)+" stays as it was")
	case errors.As(err, &refusal):
		sayFaults(w, refusal.Faults, "nothing was saved, since the records would have ", "")
	case errors.As(err, &faults):
		sayFaults(w, faults, "the records have ", ", so no figures are worked out from them")
	case errors.Is(err, syscall.EPIPE):
		// Whoever read the output has had enough.
	default:
		fmt.Fprintln(w, "putby: "+printable(err.Error()))
		sayHint(w, hintOf(err))
	}
}

// sayChoices lists the records that may be meant, with the command for each.
func sayChoices(w io.Writer, e *entry.AmbiguousError) {
	fmt.Fprintln(w, "putby: "+printable(e.What))
	for _, c := range e.Choices {
		command := commandLine(slices.Concat([]string{"putby", e.Verb, e.Kind.Name, c.Name}, e.Sets))
		fmt.Fprintln(w, "  "+printable(c.What)+"\n    "+printable(command))
	}
	if e.More > 0 {
		fmt.Fprintf(w, "  ... and %d before them\n", e.More)
	}
}

// hintOf finds what to try.
func hintOf(err error) string {
	var unknown *figures.UnknownError
	var fault *ledger.Fault
	switch {
	case errors.As(err, &unknown):
		return "putby " + unknown.Of[0].String() + " list shows what there is"
	case errors.As(err, &fault):
		return faultHint(fault)
	}
	return ""
}

// sayMissing names every fact that a question lacks, and what would give it.
func sayMissing(w io.Writer, e *question.MissingError) {
	fmt.Fprintln(w, "putby: the answer needs to know more:")
	for _, f := range e.Facts {
		fmt.Fprintln(w, "  "+printable(f.String()))
	}
	sayHint(w, e.Hint)
}

// sayFaults lists faults with their hints, and closes with a sentence that says how many
// there are between its two parts.
func sayFaults(w io.Writer, faults ledger.Faults, before, behind string) {
	var b strings.Builder // in one piece, however many there are
	listFaults(&b, faults)
	fmt.Fprintln(&b, "putby: "+before+howMany(len(faults), "fault")+behind)
	io.WriteString(w, b.String())
}

// listFaults lists the first faults with their hints.
func listFaults(w io.Writer, faults ledger.Faults) {
	for i, f := range faults {
		if i == mostFaults {
			fmt.Fprintf(w, "and %d more\n", len(faults)-i)
			return
		}
		fmt.Fprintln(w, printable(f.Error()))
		sayHint(w, faultHint(&f))
	}
}

// howMany is a number of things: "1 fault", "2 faults".
func howMany(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// printable is text that does nothing to the terminal.
func printable(s string) string { return ask.Printable(s) }

// sayHint says what to try, if anything: each line of it is one way, or the next step of it.
func sayHint(w io.Writer, hint string) {
	label := "  try: "
	for way := range strings.Lines(hint) {
		if then, ok := strings.CutPrefix(way, advice.Then); ok {
			label, way = "  then: ", then
		}
		fmt.Fprintln(w, label+printable(strings.TrimSuffix(way, "\n")))
		label = "  or:  "
	}
}
