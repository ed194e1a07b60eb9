package main

import (
	"context"
	"fmt"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger/folder"
)

// act records what was done, in one change. On a terminal what is unlikely is
// asked about first, without the ledger's lock, so that nobody has to wait for an
// answer; the act is then made again of the ledger as it is under the lock.
func (a *app) act(ctx context.Context, o saving, act entry.Act) error {
	foreseen := a.ask && !o.dryRun
	if foreseen {
		if err := a.foresee(o, act); err != nil {
			return err
		}
	}
	return a.withBook(ctx, o, func(b *folder.Book) error {
		rec, faults := b.Records()
		if len(faults) > 0 {
			return &folder.Refusal{Faults: faults, Already: true}
		}
		d, v, err := a.draw(entry.NewBase(rec, a.at(rec)), act)
		switch {
		case err != nil:
			return err
		case !foreseen && v.Twice != nil:
			return v.Twice
		case !foreseen:
			a.sayLines(v.Notes)
			a.sayLines(v.Odd)
		}
		return a.saveDraft(b, o, d)
	})
}

// saveDraft saves a draft in one change, and says what to heed and do next.
func (a *app) saveDraft(b *folder.Book, o saving, d *entry.Draft) error {
	if err := a.edit(b, o, d.Change, d.Said); err != nil {
		return err
	}
	a.sayLines(d.After)
	if o.dryRun {
		return nil
	}
	for _, command := range d.Next {
		fmt.Fprintln(a.stdout, "Next: "+printable(command))
	}
	return nil
}

// sayLines says lines that a person should know.
func (a *app) sayLines(lines []string) {
	for _, line := range lines {
		fmt.Fprintln(a.stdout, a.wrapped(printable(line)))
	}
}

// draw makes an act's draft, and judges it.
func (a *app) draw(base *entry.Base, act entry.Act) (*entry.Draft, entry.Verdict, error) {
	d, err := act(base)
	if err != nil {
		return nil, entry.Verdict{}, err
	}
	v, err := d.Vet(base)
	if a.meant.Again {
		v.Twice = nil
	}
	return d, v, err
}

// foresee says what to know of an act, and asks about what is unlikely.
func (a *app) foresee(o saving, act entry.Act) error {
	rec, err := a.soundRecords()
	if err != nil {
		return err
	}
	d, v, err := a.draw(entry.NewBase(rec, a.at(rec)), act)
	if err != nil {
		return err
	}
	a.sayLines(v.Notes)
	return a.hold("", func(t *ask.Talk) error { return a.leave(t, v, o, &draft{Draft: *d}) })
}
