package folder

import (
	"fmt"
	"maps"
	"path"
	"slices"
	"strconv"
)

// save saves a change: all of its files or none. The texts are those of the
// files after it, nil for a file that is taken away. Check is called once all
// is written and before any of it counts.
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
func save(d disk, c *Change, texts map[string]*string, check func() error) error {
	err := prepare(d, texts, check)
	if err == nil {
		err = draft(d, c)
	}
	if err != nil {
		clearNew(d, texts)
		return cannot("nothing was saved", err)
	}
	if err := publish(d); err != nil {
		return takeBack(d, c, texts, err)
	}
	if err := place(d, texts); err != nil {
		return unfinished(c, err)
	}
	if err := finish(d, c); err != nil {
		return unfinished(c, err)
	}
	return nil
}

// place puts the new files where they belong.
func place(d disk, texts map[string]*string) (err error) {
	for _, name := range slices.Sorted(maps.Keys(texts)) {
		if texts[name] == nil {
			err = d.remove(name)
		} else {
			err = d.rename(newName(name), name)
		}
		if err != nil {
			return err
		}
	}
	for _, dir := range foldersOf(texts) {
		if err := d.syncDir(dir); err != nil {
			return err
		}
	}
	return nil
}

// takeBack undoes the step that decides a change, when it failed, as far as the
// disk lets it.
func takeBack(d disk, c *Change, texts map[string]*string, err error) error {
	if d.remove(journalFile) != nil {
		switch there, look := d.exists(journalFile); {
		case look != nil:
			return &Error{
				Kind: ErrInterrupted, What: "the disk does not say whether the change was saved", Err: Cause(err),
				Hint: "see whether it is there before you enter it again: putby changes lists it if it was saved",
			}
		case there: // and then it counts
			return unfinished(c, err)
		}
	}
	_ = d.syncDir(houseFolder)
	clearNew(d, texts)
	return cannot("nothing was saved", err)
}

// clearNew takes away what was written beside the files. What a disk does not let
// go, the next opening sweeps up.
func clearNew(d disk, texts map[string]*string) {
	_ = d.remove(newName(journalFile))
	for name := range texts {
		_ = d.remove(newName(name))
	}
}

// unfinished says that a change is saved though not all of its files are in
// their places.
func unfinished(c *Change, err error) error {
	return &Error{
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
func prepare(d disk, texts map[string]*string, check func() error) error {
	dirs := foldersOf(texts)
	for _, dir := range dirs {
		if dir == "." {
			continue
		}
		if err := d.mkdir(dir); err != nil {
			return err
		}
		if err := d.syncDir("."); err != nil {
			return err
		}
	}
	for _, name := range slices.Sorted(maps.Keys(texts)) {
		if text := texts[name]; text != nil {
			if err := writeNew(d, name, *text); err != nil {
				return err
			}
		}
	}
	for _, dir := range dirs {
		if err := d.syncDir(dir); err != nil {
			return err
		}
	}
	return check()
}

// draft writes the journal beside its place.
func draft(d disk, c *Change) error {
	data, err := c.encode()
	if err != nil {
		return err
	}
	return writeNew(d, journalFile, string(data))
}

// publish puts the journal in its place.
func publish(d disk) error {
	if err := d.rename(newName(journalFile), journalFile); err != nil {
		return err
	}
	return d.syncDir(houseFolder)
}

// finish makes the journal a part of the history.
func finish(d disk, c *Change) error {
	err := writeNew(d, lastFile, strconv.Itoa(c.Number)+"\n")
	if err == nil {
		err = d.rename(newName(lastFile), lastFile)
	}
	if err == nil {
		err = d.rename(journalFile, changeFile(c.Number))
	}
	for _, dir := range []string{houseFolder, pastFolder} {
		if err == nil {
			err = d.syncDir(dir)
		}
	}
	return err
}
