package folder

import "errors"

// What an [Error] is, for errors.Is.
var (
	ErrNotLedger = errors.New("not a ledger")
)

// An Error says what could not be done with a ledger's folder, and what to
// try. errors.Is finds both its kind and its cause.
type Error struct {
	Kind error  // one of this package's Err values
	What string // a sentence without full stop, which names the folder
	Hint string // what to try; may be empty
	Err  error  // the cause; may be nil
}

// Error returns what could not be done and why.
func (e *Error) Error() string {
	if e.Err != nil {
		return e.What + ": " + e.Err.Error()
	}
	return e.What
}

// Unwrap returns the error's kind and cause.
func (e *Error) Unwrap() []error { return []error{e.Kind, e.Err} }
