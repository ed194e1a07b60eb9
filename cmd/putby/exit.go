package main

import (
	"errors"
	"strconv"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/folder"
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

func (s status) text() string { return strconv.Itoa(s.status) }

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

// A usageError is a command line that cannot be followed.
type usageError struct{ err error }

func (e usageError) Error() string { return e.err.Error() }
func (e usageError) Unwrap() error { return e.err }

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

// statusOf maps an error to the exit status.
func statusOf(err error) int {
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, new(*leftOutError)):
		return exitFaults
	case errors.As(err, new(savedError)), errors.Is(err, folder.ErrSaved):
		return exitSaved
	case errors.As(err, new(ledger.Faults)), errors.As(err, new(badRowsError)), errors.As(err, new(*fileFaults)), errors.Is(err, entry.ErrTotal), errors.Is(err, entry.ErrInUse):
		return exitFaults
	case errors.Is(err, errNotAnswered), errors.Is(err, errBroken):
		return exitBroken
	case errors.As(err, new(usageError)),
		errors.As(err, new(*question.Error)), errors.As(err, new(*question.MissingError)), errors.Is(err, entry.ErrAhead), errors.Is(err, entry.ErrAgain), errors.Is(err, entry.ErrTyped),
		errors.As(err, new(*entry.AmbiguousError)):
		return exitUsage
	case errors.Is(err, entry.ErrNone), errors.As(err, new(*figures.UnknownError)), errors.Is(err, folder.ErrNotLedger):
		return exitNone
	}
	return exitFailed
}
