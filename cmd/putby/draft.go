package main

import (
	"context"
	"fmt"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
	reports "putby/ledger/report"
)

// A draft is records about to be added.
type draft struct {
	rows  []entry.Row
	args  []string // the command that adds them without being asked
	asked bool
	notes []string // what to know before they are saved
	look  []string // the last look of a person who was asked; nil: cell by cell
	after []string // what to know once they are saved
}

// fill makes a draft of what the command line gave, asking for the rest.
type fill func(a *app, rec *ledger.Records, k ledger.Kind, given map[string]string) (*draft, error)

// add saves the draft that is made of the ledger's records. Where a person may
// be asked it is made without the ledger's lock, so that nobody has to wait for
// an answer; else with it, so that two commands at once find different names.
func (a *app) add(ctx context.Context, o saving, make func(*ledger.Records) (*draft, error)) error {
	if !a.ask {
		return a.withBook(ctx, o, func(b *folder.Book) error {
			rec, faults := b.Records()
			if len(faults) > 0 {
				return &folder.Refusal{Faults: faults, Already: true}
			}
			d, err := make(rec)
			if err == nil {
				err = a.vet(rec, d, o)
			}
			if err != nil {
				return err
			}
			a.sayLines(d.notes)
			return a.saveDraft(b, o, d)
		})
	}
	rec, err := a.soundRecords()
	if err != nil {
		return err
	}
	d, err := make(rec)
	if err == nil {
		err = a.vet(rec, d, o)
	}
	if err != nil {
		return err
	}
	a.sayLines(d.notes)
	if err := a.lastLook(o, d); err != nil {
		return err
	}
	return a.withBook(ctx, o, func(b *folder.Book) error { return a.saveDraft(b, o, d) })
}

// soundRecords reads the ledger, and refuses to have anybody asked anything
// where nothing could be saved.
func (a *app) soundRecords() (*ledger.Records, error) {
	rec, faults, err := folder.Read(a.ledgerDir())
	if err != nil {
		return nil, err
	}
	if len(faults) == 0 {
		faults = joins(rec)
		folder.Locate(a.ledgerDir(), faults)
	}
	if len(faults) > 0 {
		return nil, &folder.Refusal{Faults: faults, Already: true}
	}
	return rec, nil
}

// sayLines says lines that a person should know.
func (a *app) sayLines(lines []string) {
	for _, line := range lines {
		fmt.Fprintln(a.stdout, printable(line))
	}
}

// lastLook shows what was asked for once more, and asks for leave to save it.
func (a *app) lastLook(o saving, d *draft) error {
	if !d.asked {
		return nil
	}
	a.args = append(d.args, a.ledgerArgs()...)
	for _, line := range d.look {
		a.tell("%s", line)
	}
	if d.look == nil {
		a.look(d.rows)
	}
	if o.dryRun {
		return nil
	}
	return a.confirm("save it")
}

// saveDraft saves a draft in one change.
func (a *app) saveDraft(b *folder.Book, o saving, d *draft) error {
	if err := a.saveRows(b, o, d.rows); err != nil {
		if d.asked {
			return askedError{err, commandLine(a.args)}
		}
		return err
	}
	a.sayLines(d.after)
	return nil
}

// ledgerArgs names the ledger again as the command line did.
func (a *app) ledgerArgs() []string {
	if a.dir == "" {
		return nil
	}
	return []string{"--ledger", a.dir}
}

// look shows rows once more, cell by cell. Rows that belong to the first do not
// repeat what they share with it.
func (a *app) look(rows []entry.Row) {
	for i, r := range rows {
		var words []string
		for _, c := range r.Kind.Columns {
			text := r.Cells[c.Name]
			if text == "" || i > 0 && text == rows[0].Cells[c.Name] {
				continue
			}
			words = append(words, c.Name+" "+text)
		}
		a.tell("%s: %s", r.Kind.Name, strings.Join(words, "; "))
	}
}

// saveRows appends rows in one change.
func (a *app) saveRows(b *folder.Book, o saving, rows []entry.Row) error {
	return a.edit(b, o, func(tx *folder.Tx) error {
		for _, r := range rows {
			if err := tx.Append(r.Kind, r.Cells); err != nil {
				return err
			}
		}
		return nil
	}, tellRows(rows))
}

// tellRows tells what rows come to that were added last.
func tellRows(rows []entry.Row) telling {
	return func(g *ledger.Ledger) []string { return reports.Saved(g, entry.Written(g.Records, rows)) }
}
