package folder

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"
	"syscall"

	"putby/ledger"
	"putby/ledger/advice"
)

// Cause says in plain words why the machine could not do something, without
// the names of calls, of files in the making or of the language. An error that
// it knows nothing about stays as it is.
func Cause(err error) error {
	if err == nil {
		return nil
	}
	for _, c := range causes {
		if errors.Is(err, c.is) {
			return &plainError{c.says, err}
		}
	}
	if inner := innermost(err); inner != err {
		return &plainError{inner.Error(), err}
	}
	return err
}

// causes are the reasons whose usual names say little to a person.
var causes = []struct {
	is   error
	says string
}{
	{context.DeadlineExceeded, "it took too long"},
	{context.Canceled, "it was broken off"},
	{syscall.EIO, "input/output error: the disk does not do as it should"},
	{syscall.EPERM, "permission denied"},
	{syscall.EINTR, "it was broken off"},
}

// A plainError is an error in other words; errors.Is finds it all the same.
type plainError struct {
	says string
	err  error
}

func (e *plainError) Error() string { return e.says }
func (e *plainError) Unwrap() error { return e.err }

// innermost takes the names of calls and files off an error.
func innermost(err error) error {
	var path *fs.PathError
	var link *os.LinkError
	var call *os.SyscallError
	switch {
	case errors.As(err, &path):
		return innermost(path.Err)
	case errors.As(err, &link):
		return innermost(link.Err)
	case errors.As(err, &call):
		return innermost(call.Err)
	}
	return err
}

func isMissing(err error) bool { return errors.Is(err, fs.ErrNotExist) }

// isUnsupported reports whether a file system lacks what was asked for, as
// folders on a network do: there is nothing to be mended then.
func isUnsupported(err error) bool {
	for _, lacks := range []error{syscall.EINVAL, syscall.EOPNOTSUPP, syscall.ENOTSUP, syscall.ENOLCK, syscall.ENOSYS} {
		if errors.Is(err, lacks) {
			return true
		}
	}
	return false
}

// A fileError is a file of the ledger that cannot be read.
type fileError struct {
	name, what, hint string
	do               []advice.Doing // after the hint
	err              error          // nil: it is of the wrong kind
}

func (e *fileError) Error() string { return e.name + ": " + e.what }
func (e *fileError) Unwrap() error { return e.err }

// fault places the error in the list of what is wrong with a ledger.
func (e *fileError) fault() *ledger.Fault {
	return &ledger.Fault{File: e.name, What: e.what, Hint: e.hint, Do: e.do}
}

func tooLarge(name string, most int64) error {
	return &fileError{name: name, what: fmt.Sprintf("the file is larger than %d MiB", most>>20), hint: "split the ledger by years"}
}

// unreadable is the error of a file that could not be read.
func unreadable(name string, err error) error {
	if known := new(fileError); errors.As(err, &known) {
		return err
	}
	e := &fileError{name: name, what: "the file cannot be read: " + Cause(err).Error(), err: err, hint: "run the command again"}
	switch {
	case errors.Is(err, fs.ErrPermission):
		e.hint = "look at its permissions"
	case errors.Is(err, syscall.EIO):
		e.hint = "copy the ledger to another disk, and look at this one"
	case strings.Contains(err.Error(), "path escapes"): // os.Root has no error of its own for it
		e.what, e.hint, e.err = "the file is a link that leaves the ledger's folder", "put the file itself here", nil
	}
	return e
}

// faultOf is the fault that an error of reading a file is.
func faultOf(name string, err error) *ledger.Fault {
	if err == nil {
		return nil
	}
	if known := new(fileError); errors.As(err, &known) {
		return known.fault()
	}
	return faultOf(name, unreadable(name, err))
}
