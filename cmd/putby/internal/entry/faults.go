package entry

import (
	"errors"
	"fmt"

	"putby/ledger"
	"putby/ledger/advice"
)

// What a [ledger.Fault] of something typed is, for errors.Is. Such a fault has no
// place of its own, since one text comes by a flag, a form's field or an answer: a
// [Wrong] around it names the part, which each of them calls otherwise.
var (
	// ErrTyped: it cannot be read, or what it says cannot be.
	ErrTyped = errors.New("cannot be recorded as it is typed")
	// ErrUnsaid: nothing was said; what should be is told. It is an ErrTyped too.
	ErrUnsaid = fmt.Errorf("nothing was said: %w", ErrTyped)
	// ErrLacks: what a record needs and nobody said. It is an ErrTyped too.
	ErrLacks = fmt.Errorf("something is lacking: %w", ErrTyped)
	// ErrOdd: it may be meant, and is likely to be a slip.
	ErrOdd = errors.New("likely to be a slip")
	// ErrNone: it names what the ledger does not have.
	ErrNone = errors.New("not in the ledger")
	// ErrItem: a line of a receipt names no food, supply or machine of the ledger. Its
	// field is which of these it would be. It is an ErrNone too.
	ErrItem = fmt.Errorf("what a line is of: %w", ErrNone)
	// ErrAhead: it is of a day or time still to come, a slip unless it is meant.
	ErrAhead = errors.New("still to come")
	// ErrTotal: a receipt does not come to its printed total. Its hint has a line for each
	// likely cause, the likeliest first.
	ErrTotal = errors.New("not what the receipt says")
	// ErrInUse: what is to be taken out is named by other records, or used up.
	ErrInUse = errors.New("other records need it")
	// ErrAgain: it is in the ledger already, a slip unless it is meant.
	ErrAgain = errors.New("recorded already")
)

// typed is the fault of a text, which may be empty, that is an [ErrTyped].
func typed(text, why string) error {
	if text != "" {
		why = quote(text) + ": " + why
	}
	return &ledger.Fault{Kind: ErrTyped, What: why}
}

// noWords says what is to be said where nothing was.
func noWords(format string, args ...any) error {
	return &ledger.Fault{Kind: ErrUnsaid, What: fmt.Sprintf(format, args...)}
}

// notThere names what the ledger does not have, and what to type instead.
func notThere(what, hint string, do ...advice.Doing) error {
	return &ledger.Fault{Kind: ErrNone, What: what, Hint: hint, Do: do}
}

// notListed is notThere with what is near, or else what lists all that there is.
func notListed(what, near string, list advice.Act) error {
	if near != "" {
		return notThere(what, near)
	}
	return notThere(what, "see what there is", advice.Do(list))
}
