package folder

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"strconv"
	"strings"
	"time"

	"putby/ledger"
	"putby/ledger/advice"
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
// lock nor permission to write is needed for that. A journal that is damaged
// tells nothing, and the files are taken as they are; see [Warnings].
func now(root *tree) (moment, error) {
	c, err := readChange(root, journalFile)
	switch {
	case err == nil:
		return moment{strconv.Itoa(c.Number), c}, nil
	case isMissing(err), errors.Is(err, ErrDamaged):
		return moment{lastSaid(root), nil}, nil
	}
	return moment{}, err
}

// settled reads all files, or those that are named, as they are between two saves.
func settled(root *tree, only ...string) (*snapshot, error) {
	s, _, err := settledAt(root, only...)
	return s, err
}

// settledAt is settled, with the moment at which it was.
func settledAt(root *tree, only ...string) (*snapshot, moment, error) {
	const tries = 100
	for try := range tries {
		before, err := now(root)
		if err != nil {
			return nil, before, err
		}
		s := snap(root, before.pending, only...)
		after, err := now(root)
		if err != nil {
			return nil, after, err
		}
		if before.number == after.number {
			return s, before, nil
		}
		time.Sleep(time.Duration(try) * time.Millisecond) // 5 s in all
	}
	return nil, moment{}, &ledger.Fault{
		Kind: ErrBusy, What: "the ledger kept changing while it was being read",
		Hint: "another putby is saving to it; try again when it is done",
	}
}

// after returns the text that a file has once the change is made, from what it
// has now; found is false where there is none. A file that was edited by hand
// since gets the lines of the change all the same, where they still have a place
// in it. The error is a [*fileError] where they have none; then the text stays.
func (f FileChange) after(c *Change, text string, found bool) (string, bool, error) {
	switch sumOf(text, found) {
	case f.After:
		return text, found, nil
	case f.Before:
		next, ok := apply(text, f.Hunks)
		if ok && f.After == "" {
			return "", false, nil
		}
		if ok && sum(next) == f.After {
			return next, true, nil
		}
	}
	if found && f.After != "" { // edited since: the lines decide
		made, open := standing(text, f.Hunks)
		if made {
			return text, true, nil
		}
		if hunks, ok := f.merge(text, f.Hunks); ok && open && f.Before != "" {
			next, ok := apply(text, hunks)
			if ok {
				return next, true, nil
			}
		}
	}
	return text, found, f.lost(c)
}

// lost is the error of a file that a change has no place in any more.
func (f FileChange) lost(c *Change) error {
	what := fmt.Sprintf("the file was edited while change %d (%s) was being saved, and does not have it", c.Number, c.Command)
	removed, added := f.Lines()
	for i, lines := range [][]string{added, removed} {
		if len(lines) == 0 {
			continue
		}
		what += [...]string{"; it lacks ", "; it should no longer have "}[i] + strings.Join(lines[:min(len(lines), 3)], " and ")
		if len(lines) > 3 {
			what += fmt.Sprintf(" and %d more lines", len(lines)-3)
		}
	}
	return &fileError{name: f.Name, what: what, hint: "write that into the file by hand, or give the change up", do: []advice.Doing{advice.Do(advice.Undo)}}
}

// complete does what is left of a save that was stopped, and clears away what
// it left. Only who holds the lock may call it. With giveUp, a change that has no
// place any more in a file that was edited is completed in its other files, and
// those without it are returned.
func complete(root *tree, d disk, giveUp bool) (without []string, err error) {
	c, err := readChange(root, journalFile)
	switch {
	case err == nil:
		without, err = forward(root, d, c, giveUp)
	case isMissing(err):
		err = nil
	case errors.Is(err, ErrDamaged):
		err = d.rename(journalFile, damagedFile)
	}
	if err != nil {
		return nil, cannot("a save that was interrupted could not be completed", err)
	}
	return without, sweep(root, d)
}

// forward makes the change of a journal.
func forward(root *tree, d disk, c *Change, giveUp bool) (without []string, err error) {
	w := newWriting(d, c)
	for _, f := range c.Files {
		have, found, err := root.read(f.Name, MaxFile)
		if err != nil {
			return nil, err
		}
		text, there, err := f.after(c, have, found)
		if err != nil && giveUp {
			without = append(without, f.Name)
			continue
		}
		if err != nil {
			return nil, conflict(err)
		}
		if there != found || text != have {
			w.texts[f.Name], w.before[f.Name] = textIf(there, text), textIf(found, have)
		}
	}
	if err := w.prepare(func() error { return nil }); err != nil { // it was decided with its journal
		return nil, err
	}
	if err := w.place(); err != nil {
		return nil, err
	}
	return without, finish(d, c)
}

// conflict is the error of a save that an edit by hand stands against.
func conflict(err error) error {
	f := faultOf("", err)
	return &ledger.Fault{Kind: errNoPlace, What: f.File + ": " + f.What, Hint: f.Hint, Do: f.Do}
}

// errNoPlace is the kind of such an error.
var errNoPlace = fmt.Errorf("%w, and there is no place for it", ErrInterrupted)

// placeless lists the files in which a change has no place any more.
func placeless(root *tree, c *Change) (names []string) {
	for _, f := range c.Files {
		have, found, err := root.read(f.Name, MaxFile)
		if err == nil {
			_, _, err = f.after(c, have, found)
		}
		if err != nil {
			names = append(names, f.Name)
		}
	}
	return names
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
