package main

import (
	"errors"
	"fmt"
	"slices"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/folder"
	"putby/ledger/intake"
	"putby/ledger/question"
)

// The exit statuses, for scripts. Every command's help lists them.
const (
	exitDone   = 0
	exitFailed = 1
	exitUsage  = 2
	exitFaults = 3
	exitNone   = 4
	exitSaved  = 5
	exitBroken = 130 // as shells have it for Ctrl-C
)

// A status is an exit status and what it means.
type status struct {
	status int
	means  string
}

// statuses says what each status means, in the order of help.
var statuses = []status{
	{exitDone, "done"},
	{exitFailed, "it could not be done: a file could not be read or written, or others kept the ledger"},
	{exitUsage, "the command line is wrong"},
	{exitFaults, "the records have faults, or would have them after a change; a file to import has bad rows; households are left out"},
	{exitNone, "there is no such ledger, or no such record in it"},
	{exitSaved, "it is saved, but something went wrong after: do not run it again"},
	{exitBroken, "it was broken off, or a question answered with no; nothing was saved"},
}

// misused is the error of a command line that cannot be followed.
func misused(format string, args ...any) error {
	return mistyped(fmt.Sprintf(format, args...), "putby help, or the command with --help")
}

// mistyped is the error of a command line with a word that is not known; the hint is
// what was probably meant.
func mistyped(what, hint string) error {
	return &ledger.Fault{Kind: entry.ErrTyped, What: what, Hint: hint}
}

// notFound is the error of a name that is of no record of the ledger.
func notFound(what, hint string) error {
	return &ledger.Fault{Kind: entry.ErrNone, What: what, Hint: hint}
}

// An askedError is what kept a record from being saved that a person was asked
// for, with the command that would add it.
type askedError struct {
	err     error
	command string
}

func (e askedError) Error() string { return e.err.Error() }
func (e askedError) Unwrap() error { return e.err }

// statusOfKinds has the exit status of each kind of error that is not [exitFailed], the
// first that an error is of.
var statusOfKinds = []struct {
	status int
	kinds  []error
}{
	{exitSaved, []error{errAfter, folder.ErrSaved}},
	{exitFaults, []error{ledger.ErrFaults, errBadRows, errLeftOut, entry.ErrTotal, entry.ErrInUse}},
	{exitBroken, []error{errNotAnswered, errBroken}},
	{exitUsage, []error{entry.ErrTyped, entry.ErrAhead, entry.ErrAgain, question.ErrOption, question.ErrMissing, intake.ErrMend}},
	{exitNone, []error{entry.ErrNone, folder.ErrNotLedger}},
}

// statusOf maps an error to the exit status.
func statusOf(err error) int {
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, new(*entry.AmbiguousError)):
		return exitUsage
	case errors.As(err, new(*figures.UnknownError)):
		return exitNone
	}
	for _, s := range statusOfKinds {
		if slices.ContainsFunc(s.kinds, func(kind error) bool { return errors.Is(err, kind) }) {
			return s.status
		}
	}
	return exitFailed
}
