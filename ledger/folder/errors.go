package folder

import (
	"errors"
	"io/fs"
	"syscall"

	"putby/ledger"
)

// What a [ledger.Fault] of this package is, for errors.Is.
var (
	// ErrSaved is the one kind that says that a change was saved, and counts:
	// something went wrong only after that. Whoever changes a ledger then gets
	// the change, with its number, and this error beside it. With an error of any
	// other kind nothing was saved.
	ErrSaved = errors.New("saved, but something went wrong after")

	ErrNotLedger   = errors.New("not a ledger")
	ErrExists      = errors.New("already there")
	ErrBusy        = errors.New("busy")
	ErrReadOnly    = errors.New("cannot be written")
	ErrFull        = errors.New("no space")
	ErrChanged     = errors.New("changed meanwhile")
	ErrNothing     = errors.New("nothing to do")
	ErrDamaged     = errors.New("damaged history")
	ErrInterrupted = errors.New("interrupted")
	ErrInvalid     = errors.New("cannot be recorded")
	ErrFailed      = errors.New("failed")
)

// A Refusal says that a change was not saved because of the faults that the
// ledger would have with it.
type Refusal struct {
	Faults ledger.Faults // of the ledger with the change, in the lines that it would have
	// Already says that the ledger has faults without the change too.
	Already bool
	Stays   string // the record that stays as it was, where the change is of one; else empty
}

// Error returns the reason and lists the faults.
func (r *Refusal) Error() string {
	if r.Already {
		return "nothing was saved, since the ledger has faults already:\n" + r.Faults.Error()
	}
	return "nothing was saved, since the ledger would have faults:\n" + r.Faults.Error()
}

// Unwrap returns the faults.
func (r *Refusal) Unwrap() error { return r.Faults }

// cannot turns an error of the file system into a [ledger.Fault] of the kind that it
// is. What names what could not be done.
func cannot(what string, err error) error {
	if known := new(ledger.Fault); errors.As(err, &known) {
		return err
	}
	e := &ledger.Fault{Kind: ErrFailed, What: what, Err: Cause(err)}
	switch {
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		e.Kind, e.Hint = ErrReadOnly, "see to it that you may write in the ledger's folder, or work on a copy"
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT), errors.Is(err, syscall.EFBIG):
		e.Kind, e.Hint = ErrFull, "make room on the disk and run the command again; the ledger is as it was"
	case errors.Is(err, syscall.EMFILE), errors.Is(err, syscall.ENFILE):
		e.Hint = "close other programs, and run the command again; the ledger is as it was"
	case errors.Is(err, syscall.EIO):
		e.Hint = "copy the ledger to another disk, and look at this one"
	}
	return e
}
