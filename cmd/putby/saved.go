package main

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"time"

	"putby/ledger"
	"putby/ledger/folder"
	"putby/pricing/exact"
)

// What a command's status says is true of the ledger, whatever happens when:
//
//	                               nothing saved   saved
//	nothing went wrong                   0           0
//	the command or a record is wrong  2, 3, 4        5
//	a file or the disk fails             1           5
//	the output cannot be written         1           5
//	interrupted, or answered with no    130       0, or 5 when it had not said all
//	a defect, or no memory left          1           5

// lastWords is how long a command that is interrupted once it has saved may take
// to say so.
const lastWords = 2 * time.Second

// A counted is what a command has done that counts, whatever comes after.
type counted struct {
	what string // as a sentence begins; empty: nothing yet
	hint string // what to do about it rather than run the command again
}

// countedChange is a change of the ledger; the zero value where nothing changed.
func countedChange(c folder.Change) counted {
	if c.Number == 0 {
		return counted{}
	}
	return counted{fmt.Sprintf("change %d is saved", c.Number), "do not run it again: putby changes shows it, and putby undo takes it back"}
}

// create makes a new ledger.
func (a *app) create(ctx context.Context, dir, command string, files map[string][]byte) error {
	return a.saves.do(func() (counted, error) {
		err := folder.Create(ctx, dir, command, files)
		if err != nil && !errors.Is(err, folder.ErrSaved) {
			return counted{}, err
		}
		return counted{"the ledger in " + exact.Quote(dir) + " is made", "do not run it again: use the ledger that is there"}, err
	})
}

// place puts something in its place outside a ledger, whole.
func (a *app) place(path string, put func() error) error {
	return a.saves.do(func() (counted, error) {
		if err := put(); err != nil {
			return counted{}, err
		}
		return counted{exact.Quote(path) + " is written", "it is there whole"}, nil
	})
}

// saves are what a command saves, one at a time, each to its end.
type saves struct {
	mu   sync.Mutex // held while something is saved, and for good once nothing may be any more
	done counted

	earlier bool // something counts that a step before has told of
	stopped bool // of the one who may stop them
}

// told begins another step of a command that may be run again: what was saved
// before has been told, and stays.
func (s *saves) told() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.earlier = s.earlier || s.done.what != ""
	s.done = counted{}
}

// broken is the error of whoever breaks off before anything counts.
func (s *saves) broken() error {
	if s.earlier {
		return fmt.Errorf("%w of this step", errNotAnswered)
	}
	return errNotAnswered
}

// do saves something.
func (s *saves) do(save func() (counted, error)) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	done, err := save()
	if done.what != "" {
		s.done = done
	}
	return err
}

// stop waits for a save that has begun, lets none begin after it, and returns what
// counts. It may be called again.
func (s *saves) stop() counted {
	if !s.stopped {
		s.mu.Lock()
		s.stopped = true
	}
	return s.done
}

// now is what counts, as far as can be told at once: a save that has begun may be
// what takes all memory, so it is not waited for.
func (s *saves) now() counted {
	if s.mu.TryLock() {
		return s.done
	}
	return counted{}
}

// What a fault is that ends a command, for errors.Is.
var (
	// errAfter: something was saved. What went wrong after that is its cause, where it
	// does not say so itself.
	errAfter = errors.New("saved, but something went wrong after")
	// errOutput: standard output did not take what was written.
	errOutput = errors.New("not written")
)

// unwritten is the error of an output that could not be written.
func unwritten(err error) error {
	return &ledger.Fault{Kind: errOutput, What: "the output could not be written", Err: folder.Cause(err)}
}

// after is an error as it stands once something was saved: it never says that
// nothing was.
func (c counted) after(err error) error {
	if err == nil || c.what == "" || errors.As(err, new(*leftOutError)) { // which says what is left out of it
		return err
	}
	if asked := (askedError{}); errors.As(err, &asked) {
		err = asked.err // the command to run again would record it twice
	}
	f := &ledger.Fault{Kind: errAfter, Hint: c.hint}
	switch output := (*ledger.Fault)(nil); {
	case errors.Is(err, errBroken):
		f.What = c.what + ", but it was broken off before it had said so in full"
	case errors.Is(err, errOutput) && errors.As(err, &output):
		f.What = c.what + ", but its report could not be written: " + output.Err.Error()
	default:
		f.What, f.Err = c.what+", but something went wrong after", err
	}
	return f
}
