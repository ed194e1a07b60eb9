package folder

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"github.com/gofrs/flock"
)

// Those who wait for a ledger's lock stand in a queue: each holds the lock of a
// file of its own in this folder, called by its number. It is the turn of the
// lowest number whose file is locked; a file that is not is of a process that
// has ended, and is taken away by the next who looks.
const queueFolder = stateFolder + "/queue"

// A ticket is a place in the queue.
type ticket struct {
	root   *tree
	number int // from 1; the lowest goes first
	file   *flock.Flock
}

func ticketFile(number int) string { return fmt.Sprintf("%s/%09d", queueFolder, number) }

// draw takes the place behind all others.
func draw(root *tree, dir string) (*ticket, error) {
	for {
		numbers, err := tickets(root)
		if err != nil {
			return nil, err
		}
		t, err := take(root, dir, highest(numbers)+1)
		if err != nil || t != nil {
			return t, err
		}
	}
}

// take takes a place by its number. It gives nil when somebody else has it,
// or took the file for one left behind before it was locked.
func take(root *tree, dir string, number int) (*ticket, error) {
	name := ticketFile(number)
	f, err := root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if errors.Is(err, fs.ErrExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	mine, err := f.Stat()
	if err = errors.Join(err, f.Close()); err != nil {
		return nil, err
	}
	t := &ticket{root: root, number: number, file: newTicketLock(dir, name)}
	if _, err := t.file.TryLock(); errors.Is(err, fs.ErrNotExist) {
		return nil, t.file.Close() // taken away before it was locked
	} else if err != nil {
		_ = root.Remove(name)
		return nil, errors.Join(err, t.file.Close())
	}
	if now, err := root.Lstat(name); !t.file.Locked() || err != nil || !os.SameFile(mine, now) { // by then another's
		return nil, t.file.Close()
	}
	return t, nil
}

// newTicketLock locks a file only where there is one.
func newTicketLock(dir, name string) *flock.Flock {
	return flock.New(filepath.Join(dir, filepath.FromSlash(name)), flock.SetFlag(os.O_RDONLY))
}

// before counts those whose turn comes before; it need not tell more than
// whether there are some, and how many at most.
func (t *ticket) before(root *tree, dir string) (int, error) {
	numbers, err := tickets(root)
	if err != nil {
		return 0, err
	}
	at, _ := slices.BinarySearch(numbers, t.number)
	for i, n := range numbers[:at] {
		gone, err := clearTicket(root, dir, n)
		if err != nil {
			return 0, err
		}
		if !gone {
			return at - i, nil
		}
	}
	return 0, nil
}

// clearTicket takes the file of a process away that has ended. It reports
// false when that process is still there.
func clearTicket(root *tree, dir string, number int) (gone bool, err error) {
	file := newTicketLock(dir, ticketFile(number))
	defer file.Close()
	got, err := file.TryLock()
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return true, nil
	case err != nil || !got:
		return false, err
	}
	return true, removeTicket(root, file, number)
}

// removeTicket removes a ticket while it is still locked, so that nobody takes it
// for his own; or, where an open file cannot be removed, at once after: whoever has
// taken it by then has it open, and keeps it.
func removeTicket(root *tree, file *flock.Flock, number int) error {
	if !here.removesOpen {
		err := file.Close()
		_ = root.Remove(ticketFile(number))
		return err
	}
	err := root.Remove(ticketFile(number))
	if isMissing(err) {
		err = nil
	}
	return errors.Join(err, file.Close())
}

// tickets returns the numbers of the queue, in order.
func tickets(root *tree) ([]int, error) {
	return root.numbers(queueFolder, ticketFile)
}

// close gives the place up.
func (t *ticket) close() error {
	if t == nil || !t.file.Locked() {
		return nil
	}
	return removeTicket(t.root, t.file, t.number)
}
