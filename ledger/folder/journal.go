package folder

import (
	"errors"
	"io/fs"
	"path"
	"strconv"
	"strings"
	"time"
)

// A moment is where a ledger stands between its saves.
type moment struct {
	number  string  // of the last change that is decided
	pending *Change // that change, while its files take their places
}

// now reads where a ledger stands. A change counts from the moment that its
// journal is there, and its number is the same before and after the journal
// goes into the history; so two equal numbers with a reading of all files
// between them mean that the reading saw one state of the ledger. Neither a
// lock nor permission to write is needed for that.
func now(root *tree) (moment, error) {
	c, err := readChange(root, journalFile)
	switch {
	case err == nil:
		return moment{strconv.Itoa(c.Number), c}, nil
	case errors.Is(err, ErrDamaged):
		return moment{}, err
	}
	return moment{lastSaid(root), nil}, nil
}

// settled reads all files as they are between two saves.
func settled(root *tree) (*snapshot, error) {
	s, _, err := settledAt(root)
	return s, err
}

// settledAt is settled, with the moment at which it was.
func settledAt(root *tree) (*snapshot, moment, error) {
	const tries = 100
	for try := range tries {
		before, err := now(root)
		if err != nil {
			return nil, before, err
		}
		s := snap(root, before.pending)
		after, err := now(root)
		if err != nil {
			return nil, after, err
		}
		if before.number == after.number {
			return s, before, nil
		}
		time.Sleep(time.Duration(try) * time.Millisecond)
	}
	return nil, moment{}, &Error{
		Kind: ErrBusy, What: "the ledger kept changing while it was being read",
		Hint: "another putby is saving to it; try again when it is done",
	}
}

// after returns the text that a file has once the change is made, from what it
// has now. It reports false when the file is neither as the change found it
// nor as it left it; then the text stays.
func (f FileChange) after(text string, found bool) (string, bool, bool) {
	switch sumOf(text, found) {
	case f.After:
		return text, found, true
	case f.Before:
		next, ok := apply(text, f.Hunks)
		if ok && f.After == "" {
			return "", false, true
		}
		if ok && sum(next) == f.After {
			return next, true, true
		}
	}
	return text, found, false
}

// complete does what is left of a save that was stopped, and clears away what
// it left. Only who holds the lock may call it.
func complete(root *tree, d disk) error {
	c, err := readChange(root, journalFile)
	if errors.Is(err, fs.ErrNotExist) {
		return sweep(root, d)
	}
	if err == nil {
		err = forward(root, d, c)
	}
	if err != nil {
		return cannot("a save that was interrupted could not be completed", err)
	}
	return sweep(root, d)
}

// forward makes the change of a journal.
func forward(root *tree, d disk, c *Change) error {
	texts := map[string]*string{}
	for _, f := range c.Files {
		have, found, err := root.read(f.Name, MaxFile)
		text, there, ok := f.after(have, found)
		switch {
		case err != nil:
			return err
		case !ok:
			return &Error{
				Kind: ErrInterrupted,
				What: "a save of " + f.Name + " was interrupted, and the file was edited since",
				Hint: "put the lines that " + journalFile + " tells of in by hand where they are missing, then remove that file",
			}
		case there && (!found || text != have):
			texts[f.Name] = &text
		case !there && found:
			texts[f.Name] = nil
		}
	}
	if err := prepare(d, texts, func() error { return nil }); err != nil {
		return err
	}
	if err := place(d, texts); err != nil {
		return err
	}
	return finish(d, c)
}

// sweep removes files that were being written when a save was stopped.
func sweep(root *tree, d disk) error {
	top, err := fs.ReadDir(root.FS(), ".")
	if err != nil {
		return err
	}
	dirs := []string{"."}
	for _, e := range top {
		if e.IsDir() {
			dirs = append(dirs, e.Name())
		}
	}
	for _, dir := range dirs {
		entries, err := fs.ReadDir(root.FS(), dir)
		if err != nil {
			continue // not one that saves go to
		}
		for _, e := range entries {
			if name := e.Name(); strings.HasPrefix(name, ".") && strings.HasSuffix(name, newSuffix) {
				if err := d.remove(path.Join(dir, name)); err != nil {
					return cannot("what an interrupted save left could not be removed", err)
				}
			}
		}
	}
	return nil
}
