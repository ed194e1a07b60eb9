package main

import (
	"context"
	"errors"
	"fmt"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger/folder"
	reports "putby/ledger/report"
)

// drafting makes a draft of a ledger, and judges it.
type drafting func(*folder.Book) (*entry.Draft, entry.Verdict, error)

// act records what was done, in one change. On a terminal what is unlikely is
// asked about first, without the ledger's lock, so that nobody has to wait for an
// answer; the act is then made again of the ledger as it is under the lock. About
// finds all foods, packs and supplies that the act is about; nil is for an act that
// may be about anything.
func (a *app) act(ctx context.Context, o saving, about entry.About, act entry.Act) error {
	foreseen := func() (*entry.Draft, entry.Verdict, error) { return a.foreseen(about, act) }
	return a.record(ctx, o, a.ask && !o.dryRun, foreseen, func(b *folder.Book) (*entry.Draft, entry.Verdict, error) {
		return a.drafted(b, about, act)
	})
}

// amend changes records that are there, or takes them out; others may have faults. Asked
// has what is unlikely be asked about first, as [app.act] has.
func (a *app) amend(ctx context.Context, o saving, act entry.Amending, asked bool) error {
	drafted := func(b *folder.Book) (*entry.Draft, entry.Verdict, error) {
		rec, _ := b.Records()
		return a.makeDraft(a.baseOf(rec), func(base *entry.Base) (*entry.Draft, error) { return act(b, base) })
	}
	return a.record(ctx, o, asked, func() (*entry.Draft, entry.Verdict, error) { return a.looked(drafted) }, drafted)
}

// looked drafts by the ledger without its lock.
func (a *app) looked(drafted drafting) (*entry.Draft, entry.Verdict, error) {
	b, err := a.opening().Look(a.ledgerDir())
	if err != nil {
		return nil, entry.Verdict{}, err
	}
	d, v, err := drafted(b)
	return d, v, errors.Join(err, b.Close())
}

// record saves what is drafted under the lock. Asked has what is unlikely be asked about
// first, by what is foreseen.
func (a *app) record(ctx context.Context, o saving, asked bool, foreseen func() (*entry.Draft, entry.Verdict, error), drafted drafting) error {
	if asked {
		d, v, err := foreseen()
		if err != nil {
			return err
		}
		a.sayLines(reports.Lines(v.Notes))
		if err := a.hold("", func(t *ask.Talk) error { return a.askToSave(t, v, o, &draft{Draft: *d}) }); err != nil {
			return err
		}
	}
	return a.withBook(ctx, o, func(b *folder.Book) error {
		d, v, err := drafted(b)
		switch {
		case err != nil:
			return err
		case !asked && v.Twice != nil:
			return v.Twice
		case !asked:
			a.sayLines(append(reports.Lines(v.Notes), v.Odd...))
		}
		return d.Refused(b, a.saveDraft(b, o, d))
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
	return a.makeDraft(a.baseOf(rec), act)
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
	d, v, err := a.makeDraft(base, act)
	return d, v, err == nil && base.Fits(d)
}

// saveDraft saves a draft in one change, and says what to heed and do next.
func (a *app) saveDraft(b *folder.Book, o saving, d *entry.Draft) error {
	if err := a.edit(b, o, d.Change, d.Lines); err != nil {
		return err
	}
	a.sayLines(reports.Lines(d.After))
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

// makeDraft makes an act's draft, and judges it.
func (a *app) makeDraft(base *entry.Base, act entry.Act) (*entry.Draft, entry.Verdict, error) {
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

// foreseen makes an act's draft without the lock; it is refused where nothing
// could be saved.
func (a *app) foreseen(about entry.About, act entry.Act) (*entry.Draft, entry.Verdict, error) {
	if about != nil {
		ok := false
		d, v, err := a.looked(func(b *folder.Book) (d *entry.Draft, v entry.Verdict, err error) {
			d, v, ok = a.ofExcerpt(b, about, act)
			return d, v, nil
		})
		if ok || err != nil {
			return d, v, err
		}
	}
	b, err := a.base()
	if err != nil {
		return nil, entry.Verdict{}, err
	}
	return a.makeDraft(b, act)
}
