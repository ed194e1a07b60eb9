package folder

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"
	"time"

	"putby/ledger"
)

// A Check holds records against each other: what [ledger.Join] does. It is
// called only with records that can be read without a fault.
type Check func(*ledger.Records) ledger.Faults

// A Book is an opened ledger that may be changed. It holds the ledger's lock
// until it is closed. It is not for use by several goroutines at once.
type Book struct {
	dir   string
	root  *tree
	disk  disk
	lock  *lock // nil: it is only looked at
	check Check
	judge string // names the check; "" where nothing is kept of what it found
	clock func() time.Time
	cache *Cache // may be nil

	files          *snapshot       // as they were when last read or saved
	records        *ledger.Records // nil before they are asked for; an excerpt where [Book.Excerpt] gave one
	excerptBuilder *excerptBuilder // of that excerpt
	faults         ledger.Faults   // of the reading alone
	last           Change          // the newest in the history; its number is 0 when there is none
	stuck          error           // why nothing can be saved any more before it is opened again
	saved          bool            // whether something was
	lacks          *lacking        // by the file system
	pending        *Change         // the last change, where it is not in the history yet
	without        []string        // files that do not have the last change, as they were edited

	sums     map[string]string // of the files, as far as they are known
	flawless bool              // it is known that the check finds nothing in the ledger as it is
}

// An Opening says how a ledger is opened for changes.
type Opening struct {
	// Check, which may be nil, must find no fault in the ledger that a change
	// would make, or the change is not saved.
	Check Check
	// Judge, which may be empty, names the check and the program that it is of. It
	// is noted with the ledger when the check finds no fault in it: then
	// [Book.Excerpt] need not look for any.
	Judge string
	// Cache, which may be nil, is the same ledger as it stays read: as far as the files
	// are as it has them, its records are taken and none are read again.
	Cache *Cache
	// Wait is how long to wait, while others change the ledger; with 0 not at all.
	Wait time.Duration
	// For says what the ledger is opened for, such as the command line; others
	// who wait meanwhile are told.
	For string
	// Waiting, which may be nil, is called once when the wait is longer than a
	// second, with whom it is for.
	Waiting func(Holder)
}

// Open opens the ledger in dir for changes: it waits for its lock, in the order
// in which others came, completes a save that was interrupted, and reads all
// records. When the wait ends without the lock the error is [ErrBusy].
func (o Opening) Open(ctx context.Context, dir string) (*Book, error) {
	return o.begin(dir, func(b *Book) error { return b.open(ctx, o) })
}

// Look opens the ledger to see what a change would do: [Book.Try],
// [Book.TryUndoOf] and [Book.TryRedo]. It takes no lock, waits for nobody and
// writes nothing; nothing can be saved by the Book.
func (o Opening) Look(dir string) (*Book, error) {
	return o.begin(dir, func(b *Book) error {
		b.stuck = &ledger.Fault{Kind: ErrInvalid, What: "the ledger is only looked at, so nothing can be saved"}
		return b.look()
	})
}

// begin makes a book of the ledger in dir by reading it.
func (o Opening) begin(dir string, read func(*Book) error) (*Book, error) {
	root, err := openRoot(dir)
	if err != nil {
		return nil, err
	}
	b := newBook(root, dir, o)
	if err := read(b); err != nil {
		_ = b.Close()
		return nil, err
	}
	return b, nil
}

func newBook(root *tree, dir string, o Opening) *Book {
	lacks := new(lacking)
	return &Book{dir: dir, root: root, disk: rootDisk{root, lacks}, lacks: lacks, check: o.Check, judge: o.Judge, cache: o.Cache, clock: time.Now}
}

// look reads the ledger as it is between two saves.
func (b *Book) look() error {
	files, at, err := settledAt(b.root)
	if err != nil {
		return err
	}
	if b.files = files; at.pending != nil {
		b.last, b.pending = *at.pending, at.pending
		b.without = placeless(b.root, at.pending)
		return nil
	}
	return b.findLast()
}

func (b *Book) open(ctx context.Context, o Opening) (err error) {
	if b.lock, err = o.take(ctx, b.root, b.dir); err != nil {
		return err
	}
	if _, err = complete(b.root, b.disk, false); errors.Is(err, errNoPlace) {
		known := new(ledger.Fault)
		errors.As(err, &known)
		known.What = "nothing was saved: " + known.What
		b.stuck = known // till it is written in by hand, or given up
		return b.look()
	}
	if err != nil {
		return err
	}
	return b.read()
}

// giveUp completes a save that has no place any more without the files that do
// not have it.
func (b *Book) giveUp() (err error) {
	if b.without, err = complete(b.root, b.disk, true); err != nil {
		return err
	}
	b.stuck, b.pending = nil, nil
	return b.read()
}

// read reads the ledger, of which nobody else changes anything.
func (b *Book) read() error {
	if err := b.findLast(); err != nil {
		return err
	}
	b.files, b.sums, b.flawless = snap(b.root, nil), nil, false
	b.records, b.faults = nil, nil
	return nil
}

// findLast finds the newest change in the history.
func (b *Book) findLast() error {
	number, err := lastNumber(b.root)
	if err != nil {
		return cannot("the history of changes cannot be read", err)
	}
	if number > 0 {
		// Without it nothing can be undone, but all else goes on.
		if c, err := readChange(b.root, changeFile(number)); err == nil {
			b.last = *c
		}
		b.last.Number = number
	}
	return nil
}

// Close gives the lock back. A Book that is closed is of no more use. An error
// after a change was saved is of [ErrSaved]: the change counts all the same.
func (b *Book) Close() error {
	err := errors.Join(b.lock.close(), b.root.Close())
	switch {
	case err == nil:
		return nil
	case b.saved:
		return &ledger.Fault{
			Kind: ErrSaved, What: fmt.Sprintf("it is saved as change %d, but the ledger could not be closed", b.last.Number), Err: Cause(err),
			Hint: "do not enter it again",
		}
	}
	return cannot("the ledger could not be closed", err)
}

// Records returns the ledger's records as they are now, and the faults that
// reading them found. They are not to be changed.
func (b *Book) Records() (*ledger.Records, ledger.Faults) {
	b.readAll()
	return b.records, b.faults
}

// Edit changes the ledger: edit says what, in a [Tx], and then all of it is
// saved together or, on an error, nothing is. Command is what the change is
// listed as. An error of [ErrSaved] alone comes with a change: that is saved,
// and something went wrong after. Besides the errors of edit there are
//   - a [*Refusal], when the ledger would have faults with the change; a change
//     that leaves fewer faults than there were is saved,
//   - an [ledger.Fault], when a file was changed by another program since it was read
//     ([ErrChanged]), the folder cannot be written, the disk is full ...
//
// A change that changes nothing is not saved, and has number 0.
func (b *Book) Edit(command string, edit func(*Tx) error) (Change, error) {
	s, err := b.stage(command, edit)
	if err != nil || len(s.change.Files) == 0 {
		return Change{}, err
	}
	return b.save(s)
}

// Try is [Book.Edit] without saving: the change that it would make, numbered
// 0, or the error that it would give.
func (b *Book) Try(command string, edit func(*Tx) error) (Change, error) {
	return tried(b.stage(command, edit))
}

// A staged change is ready to be saved.
type staged struct {
	change  Change
	texts   map[string]*string // of the changed files, nil for one that goes
	others  map[string]*string // files without records that it rests on, as they were
	files   *snapshot          // with the change
	records *ledger.Records
	faults  ledger.Faults
	sound   bool // the check found no fault
}

func (b *Book) stage(command string, edit func(*Tx) error) (*staged, error) {
	if b.records == nil {
		b.readAll()
	}
	tx := &Tx{book: b, sheets: map[string]*sheet{}, files: map[string]*string{}, others: map[string]*string{}}
	if err := edit(tx); err != nil {
		return nil, err
	}
	s := &staged{others: tx.others, texts: map[string]*string{}}
	s.change = Change{Time: b.clock().UTC(), Command: command, Kind: Edited, Mark: tx.mark}
	tx.collect(s)
	return s, b.judged(s, false)
}

// save saves a staged change.
func (b *Book) save(s *staged) (Change, error) {
	if b.stuck != nil {
		return Change{}, b.stuck
	}
	for name := range s.texts {
		// A rename would take the place of a link and leave alone what it leads to (TestLinkStays).
		if info, err := b.root.Lstat(name); err == nil && !info.Mode().IsRegular() {
			return Change{}, &ledger.Fault{
				Kind: ErrFailed, What: "nothing was saved: " + name + " is not a file but a link or the like",
				Hint: "put the file itself here",
			}
		}
	}
	c := s.change
	c.Number = b.last.Number + 1
	c.chain = b.last.next(c)
	err := b.writing(&c, s).save(func() error { return b.unchanged(s) })
	saved := err == nil || errors.Is(err, ErrSaved)
	b.stuck = b.stuckBy(err)
	if !saved {
		return Change{}, err
	}
	b.last, b.files, b.records, b.faults, b.saved = c, s.files, s.records, s.faults, true
	if b.flawless = s.sound; s.sound && err == nil {
		b.noteSound(&c)
	} else {
		b.sums = nil
	}
	return c, err
}

// writing is a staged change on its way.
func (b *Book) writing(c *Change, s *staged) *writing {
	w := newWriting(b.disk, c)
	for name, text := range s.texts {
		before, known := s.others[name]
		if was, found := b.files.texts[name]; !known {
			before = textIf(found, was)
		}
		w.texts[name], w.before[name] = text, before
	}
	return w
}

// stuckBy is why nothing can be saved any more once a save ended in an error;
// nil where it can.
func (b *Book) stuckBy(err error) error {
	if !errors.Is(err, ErrSaved) && !errors.Is(err, ErrInterrupted) {
		return nil
	}
	return &ledger.Fault{
		Kind: ErrInterrupted, What: "nothing more was saved, since the save before could not be finished",
		Hint: "open the ledger again: that finishes it",
	}
}

// unchanged sees to it that no other program has changed a file since it was
// read.
func (b *Book) unchanged(s *staged) error {
	want := make(map[string]*string, len(b.files.texts)+len(s.others))
	names, fault := recordNames(b.root)
	if fault != nil && !b.files.unread(fault.File) {
		return notReread(fault)
	}
	for _, name := range names {
		want[name] = nil // not there, unless it was read
	}
	for name, text := range b.files.texts {
		want[name] = &text
	}
	maps.Copy(want, s.others)
	var mu sync.Mutex
	var found []error
	ledger.ParallelEach(slices.Sorted(maps.Keys(want)), func(name string) {
		if err := b.unchangedFile(name, want[name]); err != nil {
			mu.Lock()
			defer mu.Unlock()
			found = append(found, err)
		}
	})
	if len(found) == 0 {
		return nil
	}
	// The same one each time, whichever file was looked at first.
	return slices.MinFunc(found, func(a, b error) int { return strings.Compare(a.Error(), b.Error()) })
}

// unchangedFile sees to it that a file is as it was, nil for one that was not
// there.
func (b *Book) unchangedFile(name string, was *string) error {
	if b.files.unread(name) {
		return nil
	}
	same, err := b.disk.same(name, was)
	switch {
	case err != nil:
		return notReread(faultOf(name, err))
	case !same:
		return changed(name)
	}
	return nil
}

func changed(name string) error {
	return &ledger.Fault{
		Kind: ErrChanged, What: "nothing was saved: " + name + " was changed by another program since it was read",
		Hint: "close it there, and run the command again",
	}
}

// notReread says that a file could be read before a change, and cannot be now.
func notReread(f *ledger.Fault) error {
	return &ledger.Fault{Kind: ErrFailed, What: "nothing was saved: " + f.Error(), Hint: f.Hint}
}

// readOther reads a file without records; nil means that there is none.
func (b *Book) readOther(name string) (*string, error) {
	text, found, err := b.root.read(name, MaxFile)
	if err != nil {
		fault := faultOf(name, err)
		return nil, &ledger.Fault{Kind: ErrFailed, What: fault.Error(), Hint: fault.Hint}
	}
	return textIf(found, text), nil
}
