package folder

import (
	"errors"
	"fmt"
	"slices"

	"putby/ledger"
	"putby/ledger/advice"
)

// next returns the chain of a change that follows c.
func (c Change) next(after Change) chain {
	switch after.Kind {
	case Created:
		return chain{}
	case Edited:
		return chain{Top: after.Number, Below: c.Top, Gone: c.Gone}
	}
	return after.chain // set where a change is undone or redone
}

// Undo takes back the last change that is not taken back yet; called again it
// goes on to the one before. What it does is itself a saved change, so that
// [Book.Redo] can take it back. Where another program has edited a file since,
// only the lines of the change are taken back, and the Change says so
// (Merged); where they are no longer as the change left them, nothing is saved
// and the error is [ErrChanged].
func (b *Book) Undo() (Change, error) { return b.UndoOf(0) }

// UndoOf is [Book.Undo] of the change with a number, whatever was saved after
// it: as far as that has not touched the same lines. With 0 it is [Book.Undo].
func (b *Book) UndoOf(number int) (Change, error) {
	if errors.Is(b.stuck, errNoPlace) && (number <= 0 || number == b.last.origin()) {
		if err := b.giveUp(); err != nil {
			return Change{}, err
		}
	}
	return b.saveStaged(b.stageUndo(number))
}

// TryUndoOf is [Book.UndoOf] without saving: the change that it would make,
// numbered 0, or the error that it would give.
func (b *Book) TryUndoOf(number int) (Change, error) { return tried(b.stageUndo(number)) }

// change returns a change of the history.
func (b *Book) change(number int) (*Change, error) {
	if b.pending != nil && b.pending.Number == number {
		return b.pending, nil
	}
	return readChange(b.root, changeFile(number))
}

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

func (b *Book) stageUndo(number int) (*staged, error) {
	if b.last.Top == 0 {
		return nil, &ledger.Fault{Kind: ErrNothing, What: "there is no change to undo"}
	}
	c, top, err := b.toUndo(number)
	if err != nil {
		return nil, err
	}
	after := b.last.Number + 1
	with := Change{Command: "undo", Kind: Undone, Of: c.origin()}
	with.chain = chain{Top: c.Below, Back: after, Beyond: b.last.Back, Gone: b.last.Gone}
	// Out of its order: the top stays where it is, and Gone tells that this one is undone.
	if c.Number != top {
		with.Command = fmt.Sprintf("undo %d", number)
		with.Top, with.Gone = b.last.Top, append(slices.Clone(b.last.Gone), c.Number)
	}
	s, err := b.takeBack(c, with)
	if known := new(ledger.Fault); errors.As(err, &known) && known.Kind == ErrChanged {
		known.Hint, known.Do = b.instead(c)
	}
	return s, err
}

// toUndo finds a change that can be undone, by its number as people know it, and
// the number of the record that an undo would take back without one.
func (b *Book) toUndo(number int) (c *Change, top int, err error) {
	for at := b.last.Top; at > 0; at = c.Below {
		if c, err = b.change(at); err != nil {
			return nil, 0, cannot("the change to undo cannot be read", err)
		}
		if slices.Contains(b.last.Gone, at) {
			continue
		}
		if top == 0 {
			top = at
		}
		if number <= 0 || c.origin() == number {
			return c, top, nil
		}
	}
	if number <= 0 {
		return nil, 0, &ledger.Fault{Kind: ErrNothing, What: "there is no change to undo"}
	}
	return nil, 0, &ledger.Fault{
		Kind: ErrNothing, What: fmt.Sprintf("there is no change %d to undo", number),
		Hint: "see which there are\nhave back one that is undone", Do: []advice.Doing{advice.Do(advice.Changes), advice.Do(advice.Redo)},
	}
}

// instead says what can be done where a change cannot be undone.
func (b *Book) instead(c *Change) (hint string, do []advice.Doing) {
	hint, do = "edit or remove the records by hand, by its lines", []advice.Doing{advice.Do(advice.Changes, fmt.Sprint(c.origin()))}
	for at := c.Below; at > 0; {
		before, err := b.change(at)
		if err != nil {
			break
		}
		if !slices.Contains(b.last.Gone, at) {
			return hint + "\ntake back the change before", append(do, advice.Do(advice.Undo, fmt.Sprint(before.origin())))
		}
		at = before.Below
	}
	return hint, do
}

func (b *Book) stageRedo() (*staged, error) {
	if b.last.Back == 0 {
		return nil, &ledger.Fault{Kind: ErrNothing, What: "there is no undo to take back"}
	}
	c, err := b.change(b.last.Back)
	if err != nil {
		return nil, cannot("the undo to take back cannot be read", err)
	}
	number := b.last.Number + 1
	return b.takeBack(c, Change{
		Command: "redo", Kind: Redone, Of: c.Of,
		chain: chain{Top: number, Below: c.Top, Back: c.Beyond, Gone: b.last.Gone},
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
	return s, b.judged(s, true)
}

func (b *Book) takeBackFile(s *staged, c *Change, f FileChange) error {
	if c.Number == b.last.Number && slices.Contains(b.without, f.Name) { // given up: the file never had it
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
			return &ledger.Fault{Kind: ErrDamaged, What: fmt.Sprintf("the record of change %d does not fit %s", c.Number, f.Name)}
		}
		var after *string
		if f.Before != "" {
			after = &text
		}
		s.add(f.Name, have, found, after, surround(have, hunks))
		return nil
	}
	merged, ok := f.merge(have, hunks)
	if !ok || !found || f.Before == "" { // a file that was made and edited since is not taken away
		return &ledger.Fault{
			Kind: ErrChanged,
			What: fmt.Sprintf("nothing was saved: %s was edited since change %d (%s), and undoing it would lose that", f.Name, c.Number, c.Command),
		}
	}
	s.change.Merged = append(s.change.Merged, f.Name)
	text, _ := apply(have, merged)
	s.add(f.Name, have, true, &text, merged)
	return nil
}
