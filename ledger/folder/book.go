package folder

import (
	"context"
	"errors"
	"io/fs"
	"maps"
	"os"
	"slices"
	"time"

	"github.com/gofrs/flock"

	"putby/ledger"
)

// A Check holds records against each other: what [ledger.Join] does. It is
// called only with records that can be read without a fault.
type Check func(*ledger.Records) ledger.Faults

// A Book is an opened ledger that may be changed. It holds the ledger's lock
// until it is closed. It is not for use by several goroutines at once.
type Book struct {
	dir   string
	root  *os.Root
	disk  disk
	lock  *flock.Flock
	check Check
	clock func() time.Time

	files   *snapshot // as they were when last read or saved
	records *ledger.Records
	faults  ledger.Faults // of the reading alone
	last    Change        // the newest in the history; its number is 0 when there is none
	stuck   error         // why nothing can be saved any more before it is opened again
}

// Open opens the ledger in dir for changes: it waits for its lock, completes a
// save that was interrupted, and reads all records. A change is saved only if
// check, which may be nil, finds no fault in the ledger that it would make.
func Open(ctx context.Context, dir string, check Check) (*Book, error) {
	root, err := openRoot(dir)
	if err != nil {
		return nil, err
	}
	b := &Book{dir: dir, root: root, disk: rootDisk{root}, check: check, clock: time.Now}
	if err := b.open(ctx); err != nil {
		_ = b.Close()
		return nil, err
	}
	return b, nil
}

func (b *Book) open(ctx context.Context) (err error) {
	if b.lock, err = takeLock(ctx, b.root, b.dir); err != nil {
		return err
	}
	if err := complete(b.root, b.disk); err != nil {
		return err
	}
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
	b.files = snap(b.root, nil)
	b.records, b.faults = parse(b.files)
	return nil
}

// Close gives the lock back. A Book that is closed is of no more use.
func (b *Book) Close() error {
	var err error
	if b.lock != nil {
		err = b.lock.Close()
	}
	return errors.Join(err, b.root.Close())
}

// Records returns the ledger's records as they are now, and the faults that
// reading them found. They are not to be changed.
func (b *Book) Records() (*ledger.Records, ledger.Faults) { return b.records, b.faults }

// Edit changes the ledger: edit says what, in a [Tx], and then all of it is
// saved together or, on an error, nothing is. Command is what the change is
// listed as. Besides the errors of edit there are
//   - a [*Refusal], when the ledger would have faults with the change; a change
//     that leaves fewer faults than there were is saved,
//   - an [*Error], when a file was changed by another program since it was read
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
}

func (b *Book) stage(command string, edit func(*Tx) error) (*staged, error) {
	tx := &Tx{book: b, sheets: map[string]*sheet{}, files: map[string]*string{}, others: map[string]*string{}}
	if err := edit(tx); err != nil {
		return nil, err
	}
	s := &staged{others: tx.others, texts: map[string]*string{}}
	s.change = Change{Time: b.clock().UTC(), Command: command, Kind: Edited}
	tx.collect(s)
	return s, b.judge(s, false)
}

// judge reads the ledger as it would be, and refuses it if it has faults. A
// ledger that has some already may be changed so that it has fewer; taking
// back a change must only not add to them.
func (b *Book) judge(s *staged, back bool) error {
	s.files = b.files.with(s.texts)
	s.records, s.faults = parse(s.files)
	faults := b.inspect(s.records, s.faults, s.files)
	if len(faults) == 0 {
		return nil
	}
	had := len(b.inspect(b.records, b.faults, b.files))
	if len(faults) < had || back && len(faults) == had {
		return nil
	}
	return &Refusal{Faults: faults, Already: had > 0}
}

// inspect returns the faults of reading a ledger or, without any, those that
// the check finds.
func (b *Book) inspect(rec *ledger.Records, faults ledger.Faults, files *snapshot) ledger.Faults {
	if len(faults) > 0 || b.check == nil {
		return faults
	}
	found := slices.Clone(b.check(rec))
	locateIn(files.text, found)
	return found
}

// save saves a staged change.
func (b *Book) save(s *staged) (Change, error) {
	if b.stuck != nil {
		return Change{}, b.stuck
	}
	for name := range s.texts {
		if info, err := b.root.Lstat(name); err == nil && !info.Mode().IsRegular() {
			return Change{}, &Error{
				Kind: ErrFailed, What: "nothing was saved: " + name + " is not a file but a link or the like",
				Hint: "put the file itself here",
			}
		}
	}
	c := s.change
	c.Number = b.last.Number + 1
	c.thread = b.last.next(c)
	if err := save(b.disk, &c, s.texts, func() error { return b.unchanged(s) }); err != nil {
		if errors.Is(err, ErrInterrupted) {
			b.stuck = err
		}
		return Change{}, err
	}
	b.last, b.files, b.records, b.faults = c, s.files, s.records, s.faults
	return c, nil
}

// unchanged sees to it that no other program has changed a file since it was
// read.
func (b *Book) unchanged(s *staged) error {
	for name, was := range s.others {
		text, found, _ := readFile(b.root, name)
		if found != (was != nil) || found && text != *was {
			return changed(name)
		}
	}
	disk := snap(b.root, nil).texts
	names := maps.Clone(b.files.texts)
	maps.Copy(names, disk)
	for _, name := range slices.Sorted(maps.Keys(names)) {
		was, had := b.files.texts[name]
		if now, has := disk[name]; had != has || was != now {
			return changed(name)
		}
	}
	return nil
}

func changed(name string) error {
	return &Error{
		Kind: ErrChanged, What: "nothing was saved: " + name + " was changed by another program since it was read",
		Hint: "close it there, and run the command again",
	}
}

// readOther reads a file without records; nil means that there is none.
func (b *Book) readOther(name string) (*string, error) {
	text, found, fault := readFile(b.root, name)
	if fault != nil {
		return nil, &Error{Kind: ErrFailed, What: fault.Error(), Hint: fault.Hint, Err: fs.ErrInvalid}
	}
	if !found {
		return nil, nil
	}
	return &text, nil
}
