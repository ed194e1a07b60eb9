package main

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger/folder"
)

// act records what was done, in one change. On a terminal what is unlikely is
// asked about first, without the ledger's lock, so that nobody has to wait for an
// answer; the act is then made again of the ledger as it is under the lock. About
// finds all foods, packs and supplies that the act is about; nil is for an act that
// may be about anything.
func (a *app) act(ctx context.Context, o saving, about entry.About, act entry.Act) error {
	foreseen := a.ask && !o.dryRun
	if foreseen {
		if err := a.foresee(o, about, act); err != nil {
			return err
		}
	}
	return a.withBook(ctx, o, func(b *folder.Book) error {
		d, v, err := a.drafted(b, about, act)
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

// amend changes records that are there, or takes them out. Asked has what is unlikely be
// asked about first, as [app.act] has.
func (a *app) amend(ctx context.Context, o saving, act entry.Amending, asked bool) error {
	drafted := func(b *folder.Book) (*entry.Draft, entry.Verdict, error) {
		rec, _ := b.Records()
		return a.draw(a.baseOf(rec), func(base *entry.Base) (*entry.Draft, error) { return act(b, base) })
	}
	if asked {
		b, err := a.opening().Look(a.ledgerDir())
		if err != nil {
			return err
		}
		_, v, err := drafted(b)
		if err := errors.Join(err, b.Close()); err != nil {
			return err
		}
		a.sayLines(v.Notes)
		if err := a.hold("", func(t *ask.Talk) error { return a.leave(t, v, o, nil) }); err != nil {
			return err
		}
	}
	return a.withBook(ctx, o, func(b *folder.Book) error {
		d, v, err := drafted(b)
		if err != nil {
			return err
		}
		if !asked {
			a.sayLines(slices.Concat(v.Notes, v.Odd))
		}
		return d.Refused(b, a.edit(b, o, d.Change, d.Said))
	})
}

// mend records an act as [app.act] does, but in a ledger that may have faults, since the act
// may mend them. What is odd is said, and nobody is asked.
func (a *app) mend(ctx context.Context, o saving, act entry.Act) error {
	return a.withBook(ctx, o, func(b *folder.Book) error {
		rec, faults := b.Records()
		if rec.Settings.Zone == nil || rec.Settings.Currency.Code() == "" {
			return &folder.Refusal{Faults: faults, Already: true}
		}
		d, v, err := a.draw(a.baseOf(rec), act)
		if err != nil {
			return err
		}
		a.sayLines(v.Notes)
		sayRemarks(a.stdout, v.Odd, func(odd string) string { return odd })
		return flagged(a.saveDraft(b, o, d))
	})
}

// drafted makes an act's draft of the records that it is about, and of all where
// there is anything to say against it.
func (a *app) drafted(b *folder.Book, about entry.About, act entry.Act) (*entry.Draft, entry.Verdict, error) {
	if d, v, ok := a.ofExcerpt(b, about, act); ok {
		return d, v, nil
	}
	rec, faults := b.Records()
	if len(faults) > 0 {
		return nil, entry.Verdict{}, &folder.Refusal{Faults: faults, Already: true}
	}
	return a.draw(a.baseOf(rec), act)
}

// ofExcerpt makes an act's draft of the records that it is about alone. It reports
// false where that cannot be done, or something is wrong.
func (a *app) ofExcerpt(b *folder.Book, about entry.About, act entry.Act) (*entry.Draft, entry.Verdict, bool) {
	if about == nil {
		return nil, entry.Verdict{}, false
	}
	rec := b.Excerpt(about)
	if rec == nil {
		return nil, entry.Verdict{}, false
	}
	base := a.baseOf(rec)
	d, v, err := a.draw(base, act)
	return d, v, err == nil && base.Fits(d)
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
	for _, do := range d.Next {
		fmt.Fprintln(a.stdout, "Next: "+printable(commands{}.Say(do)))
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
func (a *app) foresee(o saving, about entry.About, act entry.Act) error {
	d, v, err := a.foreseen(about, act)
	if err != nil {
		return err
	}
	a.sayLines(v.Notes)
	return a.hold("", func(t *ask.Talk) error { return a.leave(t, v, o, &draft{Draft: *d}) })
}

// foreseen makes an act's draft without the lock; it is refused where nothing
// could be saved.
func (a *app) foreseen(about entry.About, act entry.Act) (*entry.Draft, entry.Verdict, error) {
	if about != nil {
		b, err := a.opening().Look(a.ledgerDir())
		if err != nil {
			return nil, entry.Verdict{}, err
		}
		d, v, ok := a.ofExcerpt(b, about, act)
		if err := b.Close(); ok || err != nil {
			return d, v, err
		}
	}
	b, err := a.base()
	if err != nil {
		return nil, entry.Verdict{}, err
	}
	return a.draw(b, act)
}
