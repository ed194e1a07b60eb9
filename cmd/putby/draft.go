package main

import (
	"context"
	"errors"
	"strings"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/render"
	"putby/ledger"
	"putby/ledger/folder"
	reports "putby/ledger/report"
)

// A draft is what is about to be recorded of a command line and of what a person
// was asked for besides.
type draft struct {
	entry.Draft
	args []string // the command that records it without asking
	look []string // the last look of a person who was asked; nil: cell by cell
}

// take is what an act made of a form.
func (d *draft) take(made *entry.Draft, err error) error {
	if err == nil {
		made.Notes = append(d.Notes, made.Notes...)
		d.Draft = *made
	}
	return err
}

// tell notes what to know of a draft by the ledger as it will be: before it is saved,
// so that who is asked can still change it.
func (d *draft) tell(b *entry.Base, advise func(*ledger.Ledger) []reports.Remark) {
	if g, ok := entry.Joined(b.Records, d.Rows); ok {
		d.Heed = append(d.Heed, advise(g)...)
	}
}

// making makes a draft. What it lacks it asks for by a conversation, which is
// nil where nobody can be asked. With an error it returns what it has, if that is
// worth going on from.
type making func(*ask.Talk, *entry.Base) (*draft, error)

// add records the draft that is made. Where a person may be asked it is made
// without the ledger's lock, so that nobody has to wait for an answer; else with
// it, so that two commands at once find different names. About is as of [app.act].
func (a *app) add(ctx context.Context, o saving, about entry.About, make making) error {
	if !a.ask {
		return a.act(ctx, o, about, func(b *entry.Base) (*entry.Draft, error) {
			d, err := make(nil, b)
			if err != nil {
				return nil, err
			}
			return &d.Draft, nil
		})
	}
	b, err := a.base()
	if err != nil {
		return err
	}
	var d *draft
	asked := false
	err = a.hold(howToAnswer, func(t *ask.Talk) (err error) {
		d, err = a.talk(t, b, o, make)
		asked = asked || t.Asked()
		return err
	})
	if asked && d != nil {
		a.args = append(d.args, a.ledgerArgs()...)
	}
	if err == nil {
		err = a.withBook(ctx, o, func(book *folder.Book) error { return a.saveDraft(book, o, &d.Draft) })
	}
	if err != nil && asked && d != nil {
		err = askedError{err, commandLine(a.args)}
	}
	return err
}

// talk makes a draft, judges it, and has a person who was asked look at it once
// more. What is wrong with it is mended in the same conversation.
func (a *app) talk(t *ask.Talk, b *entry.Base, o saving, make making) (*draft, error) {
	d, err := make(t, b)
	if err != nil {
		return d, amended(t, err)
	}
	v, err := d.Vet(b)
	if err != nil {
		return d, amended(t, err)
	}
	if a.meant.Ahead {
		d.args = append(d.args, "--ahead")
	}
	if faults := b.Trial(d.Rows...); len(faults) > 0 && t.Asked() {
		for _, odd := range v.Odd { // what is likely to be why
			t.Tell("%s", odd)
		}
		for _, f := range faults[1:] {
			t.Tell("  %v", entry.FaultText(&f))
		}
		return d, t.Amend(entry.FaultText(&faults[0]).Error())
	}
	if !t.Asked() {
		a.sayLines(reports.Lines(v.Notes))
	}
	for _, line := range v.Notes {
		if t.Asked() {
			t.Tell("%v", line)
		}
	}
	return d, a.askToSave(t, v, o, d)
}

// askToSave asks about what is unlikely, and for leave to save.
func (a *app) askToSave(t *ask.Talk, v entry.Verdict, o saving, d *draft) error {
	asked := t.Asked()
	if o.dryRun {
		if !asked {
			a.sayLines(v.Odd)
			if v.Twice != nil && !a.meant.Again {
				return v.Twice
			}
			return nil
		}
		for _, line := range append(v.Odd, d.lastLook()...) {
			t.Tell("%s", line)
		}
		return nil
	}
	for _, odd := range v.Odd {
		if err := t.Sure(odd, "is that right"); err != nil {
			return err
		}
	}
	if v.Twice != nil && !a.meant.Again {
		d.args = append(d.args, "--again")
		if err := t.Sure(entry.LookAgain(v.Twice.What), "was it bought twice"); err != nil {
			return err
		}
	}
	if !asked {
		return nil
	}
	return t.Agree(render.Columns(d.lastLook(), a.width), "save it")
}

// amended has a person who was asked change an answer, where the answers
// together cannot be; else it is the error itself.
func amended(t *ask.Talk, err error) error {
	if ask.Ends(err) || errors.Is(err, errLater) || !t.Asked() {
		return err
	}
	return t.Amend(err.Error())
}

// soundRecords reads the ledger, and refuses to have anybody asked anything
// where nothing could be saved.
func (a *app) soundRecords() (*ledger.Records, error) {
	rec, faults, err := folder.Read(a.ledgerDir())
	if err != nil {
		return nil, err
	}
	rec.Settings.Wording = commands{}
	if len(faults) == 0 {
		faults = joins(rec)
		folder.Locate(a.ledgerDir(), faults)
	}
	if len(faults) > 0 {
		return nil, &folder.Refusal{Faults: faults, Already: true}
	}
	return rec, nil
}

// base is the ledger as its files have it, for whoever is asked and for what is only
// looked at.
func (a *app) base() (*entry.Base, error) {
	rec, err := a.soundRecords()
	if err != nil {
		return nil, err
	}
	return a.baseOf(rec), nil
}

// ledgerArgs names the ledger again as the command line did.
func (a *app) ledgerArgs() []string {
	if a.dir == "" {
		return nil
	}
	return []string{"--ledger", a.dir}
}

// lastLook shows the rows once more, if nothing better is known cell by cell.
// Rows that belong to the first do not repeat what they share with it.
func (d *draft) lastLook() []string {
	if d.look != nil {
		return d.look
	}
	var lines []string
	for _, s := range d.Sets {
		lines = append(lines, setLook(s))
	}
	for i, r := range d.Rows {
		var words []string
		for _, c := range r.Kind.Columns {
			text := r.Cells[c.Name]
			if text == "" || i > 0 && text == d.Rows[0].Cells[c.Name] {
				continue
			}
			words = append(words, c.Name+" "+text)
		}
		lines = append(lines, r.Kind.Name+": "+strings.Join(words, "; "))
	}
	return lines
}

// setLook shows the cells of a record that are to be changed.
func setLook(s entry.Set) string {
	var words []string
	for _, c := range s.Kind.Columns {
		if text, ok := s.Cells[c.Name]; ok {
			words = append(words, strings.TrimSpace(c.Name+" "+text))
		}
	}
	name := s.Kind.Name
	if s.ID != "" {
		name += " " + s.ID
	}
	return name + ": " + strings.Join(words, "; ")
}
