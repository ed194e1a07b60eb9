package folder

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strconv"

	"putby/ledger"
	"putby/ledger/advice"
)

// A writing is a change on its way into the files.
type writing struct {
	disk   disk
	change *Change
	texts  map[string]*string // of the files after it; nil for one that is taken away
	before map[string]*string // what they were made from; nil for one that was not there
}

func newWriting(d disk, c *Change) *writing {
	return &writing{d, c, map[string]*string{}, map[string]*string{}}
}

// textIf is the text of a file that is there, and else nil.
func textIf(there bool, text string) *string {
	if !there {
		return nil
	}
	return &text
}

// save saves a change: all of its files or none. Check is called when all is
// written, and again right before it counts.
//
//  1. Every file is written beside the one that it will replace, through to
//     the disk.
//  2. The change is written to the journal. With its rename it is decided.
//  3. The files take their places.
//  4. The journal becomes the change's record in the history.
//
// Stopped before 2 is done, nothing has happened; afterwards [complete] does
// what is left, readers see the files as they will be, and an error is one of
// [ErrSaved].
func (w *writing) save(check func() error) error {
	err := w.prepare(check)
	if err == nil {
		err = writeNewBy(w.disk, journalFile, w.change.encode)
	}
	if err == nil {
		err = check() // once more: what is large takes its time to be written
	}
	if err != nil {
		w.clear()
		return cannot("nothing was saved", err)
	}
	if err := publish(w.disk, journalFile); err != nil {
		return w.takeBack(err)
	}
	if err := w.place(); err != nil {
		return unfinished(w.change, err)
	}
	if err := finish(w.disk, w.change); err != nil {
		return unfinished(w.change, err)
	}
	return nil
}

// place puts the new files where they belong. A file that was edited by hand at
// the last moment keeps that edit, and gets the lines of the change too.
func (w *writing) place() error {
	for _, f := range w.change.Files {
		if _, ours := w.texts[f.Name]; !ours {
			continue
		}
		if err := w.placeFile(f); err != nil {
			return err
		}
	}
	for _, dir := range foldersOf(w.texts) {
		if err := w.disk.syncDir(dir); err != nil {
			return err
		}
	}
	return nil
}

// placeFile puts one file where it belongs, and as often as it is edited meanwhile makes
// the change in what it has become.
func (w *writing) placeFile(f FileChange) error {
	for {
		before := w.before[f.Name]
		same, err := w.disk.same(f.Name, before)
		if err != nil {
			return err
		}
		if same {
			if placed, err := w.replace(f.Name, before); placed || err != nil {
				return err
			}
		}
		if done, err := w.reconcile(f); done || err != nil {
			return err
		}
	}
}

// replace puts one new file in its place. What it takes the place of is looked
// at once more behind it, where the file system lets two files change names, and
// put back when it is not what it should be; where there was no file it takes the
// place of none, where the file system has links. So an edit that came in between
// is seen. It reports false then.
func (w *writing) replace(name string, before *string) (placed bool, err error) {
	beside := newName(name)
	back := func() error { _, err := w.disk.swap(beside, name); return err }
	switch {
	case w.texts[name] == nil:
		back = func() error { return w.disk.rename(beside, name) }
		err = w.disk.rename(name, beside)
	case before == nil:
		return w.placeNew(beside, name)
	default:
		var swapped bool
		if swapped, err = w.disk.swap(beside, name); err == nil && !swapped {
			return true, w.disk.rename(beside, name)
		}
	}
	if err != nil {
		return false, err
	}
	same, err := w.disk.same(beside, before)
	if err != nil {
		return false, err
	}
	if !same {
		return false, back()
	}
	return true, w.disk.remove(beside)
}

// placeNew puts a file in a place where there is none; it reports false where one
// has come meanwhile.
func (w *writing) placeNew(beside, name string) (placed bool, err error) {
	linked, err := w.disk.link(beside, name)
	switch {
	case errors.Is(err, fs.ErrExist):
		return false, nil
	case err != nil:
		return false, err
	case linked:
		return true, w.disk.remove(beside)
	}
	return true, w.disk.rename(beside, name)
}

// reconcile makes the change in a file that has become another since it was
// prepared. It reports true where the file has it already.
func (w *writing) reconcile(f FileChange) (done bool, err error) {
	have, found, err := w.disk.read(f.Name)
	if err != nil {
		return false, err
	}
	text, there, err := f.after(w.change, have, found)
	if err != nil {
		return false, conflict(err)
	}
	if there == found && text == have {
		return true, w.disk.remove(newName(f.Name))
	}
	w.texts[f.Name], w.before[f.Name] = textIf(there, text), textIf(found, have)
	if !there {
		return false, nil
	}
	return false, writeNew(w.disk, f.Name, text)
}

// takeBack undoes the step that decides a change, when it failed, as far as the
// disk lets it.
func (w *writing) takeBack(err error) error {
	d := w.disk
	if d.remove(journalFile) != nil {
		switch there, look := d.exists(journalFile); {
		case look != nil:
			return &ledger.Fault{
				Kind: ErrInterrupted, What: "the disk does not say whether the change was saved", Err: Cause(err),
				Hint: "see whether it is there before you enter it again", Do: []advice.Doing{advice.Do(advice.Changes)},
			}
		case there: // and then it counts
			return unfinished(w.change, err)
		}
	}
	_ = d.syncDir(stateFolder)
	w.clear()
	return cannot("nothing was saved", err)
}

// clear takes away what was written beside the files. What a disk does not let
// go, the next opening sweeps up.
func (w *writing) clear() {
	_ = w.disk.remove(newName(journalFile))
	for name := range w.texts {
		_ = w.disk.remove(newName(name))
	}
}

// unfinished says that a change is saved though not all of its files are in
// their places.
func unfinished(c *Change, err error) error {
	return &ledger.Fault{
		Kind: ErrSaved, What: fmt.Sprintf("it is saved as change %d, but the save could not be finished", c.Number), Err: Cause(err),
		Hint: "do not enter it again: every report has it, and the next command that saves finishes it",
	}
}

// foldersOf returns the folders that files are in.
func foldersOf(texts map[string]*string) []string {
	dirs := map[string]bool{}
	for name := range texts {
		dirs[path.Dir(name)] = true
	}
	return slices.Sorted(maps.Keys(dirs))
}

// prepare writes the new files beside the old.
func (w *writing) prepare(check func() error) error {
	dirs := foldersOf(w.texts)
	for _, dir := range dirs {
		if dir == "." {
			continue
		}
		if err := w.disk.mkdir(dir); err != nil {
			return err
		}
		if err := w.disk.syncDir("."); err != nil {
			return err
		}
	}
	for _, name := range slices.Sorted(maps.Keys(w.texts)) {
		if text := w.texts[name]; text != nil {
			if err := writeNew(w.disk, name, *text); err != nil {
				return err
			}
		}
	}
	for _, dir := range dirs {
		if err := w.disk.syncDir(dir); err != nil {
			return err
		}
	}
	return check()
}

// publish puts a file of the ledger's own, such as the journal, in its place.
func publish(d disk, name string) error {
	if err := d.rename(newName(name), name); err != nil {
		return err
	}
	return d.syncDir(stateFolder)
}

// finish makes the journal a part of the history.
func finish(d disk, c *Change) error {
	// The number is in its place before the journal goes: [now] takes it from either, and must not
	// see an older one between the two.
	err := writeNew(d, lastFile, strconv.Itoa(c.Number)+"\n")
	if err == nil {
		err = d.rename(newName(lastFile), lastFile)
	}
	if err == nil {
		err = d.rename(journalFile, changeFile(c.Number))
	}
	for _, dir := range []string{stateFolder, pastFolder} {
		if err == nil {
			err = d.syncDir(dir)
		}
	}
	return err
}
