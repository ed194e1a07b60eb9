package folder

import (
	"fmt"
	"slices"
)

// next returns the thread of a change that follows c.
func (c Change) next(after Change) thread {
	switch after.Kind {
	case Created:
		return thread{}
	case Edited:
		return thread{Top: after.Number, Below: c.Top}
	}
	return after.thread // set by who undoes or redoes
}

// Undo takes back the last change that is not taken back yet; called again it
// goes on to the one before. What it does is itself a saved change, so that
// [Book.Redo] can take it back. Where another program has edited a file since,
// only the lines of the change are taken back, and the Change says so
// (Merged); where they are no longer as the change left them, nothing is saved
// and the error is [ErrChanged].
func (b *Book) Undo() (Change, error) { return b.saveStaged(b.stageUndo()) }

// TryUndo is [Book.Undo] without saving: the change that it would make,
// numbered 0, or the error that it would give.
func (b *Book) TryUndo() (Change, error) { return tried(b.stageUndo()) }

// Redo takes back the last undo, if nothing else was changed since.
func (b *Book) Redo() (Change, error) { return b.saveStaged(b.stageRedo()) }

// TryRedo is [Book.Redo] without saving.
func (b *Book) TryRedo() (Change, error) { return tried(b.stageRedo()) }

func (b *Book) saveStaged(s *staged, err error) (Change, error) {
	if err != nil {
		return Change{}, err
	}
	return b.save(s)
}

func tried(s *staged, err error) (Change, error) {
	if err != nil {
		return Change{}, err
	}
	return s.change, nil
}

func (b *Book) stageUndo() (*staged, error) {
	if b.last.Top == 0 {
		return nil, &Error{Kind: ErrNothing, What: "there is no change to undo"}
	}
	c, err := readChange(b.root, changeFile(b.last.Top))
	if err != nil {
		return nil, cannot("the change to undo cannot be read", err)
	}
	number := b.last.Number + 1
	return b.takeBack(c, Change{
		Command: "undo", Kind: Undone, Of: c.origin(),
		thread: thread{Top: c.Below, Back: number, Beyond: b.last.Back},
	})
}

func (b *Book) stageRedo() (*staged, error) {
	if b.last.Back == 0 {
		return nil, &Error{Kind: ErrNothing, What: "there is no undo to take back"}
	}
	c, err := readChange(b.root, changeFile(b.last.Back))
	if err != nil {
		return nil, cannot("the undo to take back cannot be read", err)
	}
	number := b.last.Number + 1
	return b.takeBack(c, Change{
		Command: "redo", Kind: Redone, Of: c.Of,
		thread: thread{Top: number, Below: c.Top, Back: c.Beyond},
	})
}

// origin is the number of the edit that a change makes, for the first time or
// again.
func (c *Change) origin() int {
	if c.Kind == Redone {
		return c.Of
	}
	return c.Number
}

// takeBack makes the change that takes c back.
func (b *Book) takeBack(c *Change, with Change) (*staged, error) {
	with.Time = b.clock().UTC()
	s := &staged{change: with, texts: map[string]*string{}, others: map[string]*string{}}
	for _, f := range c.Files {
		if err := b.takeBackFile(s, c, f); err != nil {
			return nil, err
		}
	}
	return s, b.judge(s, true)
}

func (b *Book) takeBackFile(s *staged, c *Change, f FileChange) error {
	if c.Number == b.last.Number && slices.Contains(b.without, f.Name) {
		return nil
	}
	have, found := b.files.texts[f.Name]
	if !isRecords(f.Name) {
		other, err := b.readOther(f.Name)
		if err != nil {
			return err
		}
		s.others[f.Name] = other
		if found = other != nil; found {
			have = *other
		}
	}
	hunks := reverse(f.Hunks)
	if sumOf(have, found) == f.After {
		text, ok := apply(have, hunks)
		if !ok || sumOf(text, f.Before != "") != f.Before {
			return &Error{Kind: ErrDamaged, What: fmt.Sprintf("the record of change %d does not fit %s", c.Number, f.Name)}
		}
		var after *string
		if f.Before != "" {
			after = &text
		}
		s.add(f.Name, have, found, after, surround(have, hunks))
		return nil
	}
	merged, ok := f.merge(have, hunks)
	if !ok || !found || f.Before == "" {
		return &Error{
			Kind: ErrChanged,
			What: fmt.Sprintf("nothing was saved: %s was edited since change %d (%s), and undoing it would lose that", f.Name, c.Number, c.Command),
			Hint: "amend or strike the records by hand; putby changes shows the lines",
		}
	}
	s.change.Merged = append(s.change.Merged, f.Name)
	text, _ := apply(have, merged)
	s.add(f.Name, have, true, &text, merged)
	return nil
}
