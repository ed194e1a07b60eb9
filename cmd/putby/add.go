package main

import (
	"context"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
)

const addLong = `Add one by flags. On a terminal you are asked for what is missing, one by one,
with what the ledger suggests in brackets, and have a last look before it is
saved.

Nothing is saved that would put a fault into the ledger; undo takes back what
was.`

// addOptions are a record's columns as flags.
type addOptions struct {
	saving
	columnFlags
}

// newAddCommand builds an add whose flags are the kind's columns.
func newAddCommand(a *app, k ledger.Kind) *cobra.Command {
	o := &addOptions{}
	cmd := &cobra.Command{
		Use:     "add",
		Short:   "add one",
		Long:    addLong + neededHelp(k),
		Example: addExamples[k.Name],
		Args:    arguments(),
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.runAdd(cmd, o, k, fillPlain)
		},
	}
	o.columnFlags.add(a, cmd, k)
	o.saving.add(cmd)
	return cmd
}

var addExamples = map[string]string{
	"supply":  "  putby supply add --supply jar-2l --name \"2 L jar\" --kind jar --uses 20 --capacity \"2 L\" --price 3.20",
	"machine": "  putby machine add --machine shed --name \"Shed dryer\" --load-mass \"7 kg\" --cycles 900 --residual 300",
	"tariff": "  putby tariff add --tariff flat --rate 0.21 --tax 15\n" +
		"  putby tariff add --tariff flat --from 2026-07-01 --start 23:00 --end 7:00 --rate 0.14 --tax 15",
	"price": "  putby price add --shop \"Brine & Bramble\" --item carrots --size \"2 kg\" --price 2.80\n" +
		"  putby price add --shop \"Brine & Bramble\" --item carrots --size \"2 kg\" --price 1.90 --terms offer",
	"batch":   "  putby batch add --item squash-puree --quantity \"2 L\" --from \"2.4 kg squash\"",
	"count":   "  putby count add --item onions --quantity \"0 kg\"\n  putby count add --pack c46-a --quantity 4",
	"wattage": "  putby machine add --machine shed --cycles 900\n  putby wattage add --machine shed --phase primary --watts 640",
	"holiday": "  putby holiday add --tariff harbour-tou --date 2026-12-26",
	"phase":   "  putby phase add --run c47 --phase hold --duration 40m --watts 150",
	"load":    "  putby load add --run c47 --item apples --quantity \"0.4 kg\" --trays 1 --wet \"0.4 kg\" --dry \"50 g\"",
}

// neededHelp names the flags that a record cannot do without.
func neededHelp(k ledger.Kind) string {
	var flags []string
	for _, c := range k.Columns {
		if c.Need && c.Name != "date" && c.Name != k.Name && c.Name != "step" {
			flags = append(flags, "--"+flagName(c.Name))
		}
	}
	return "\n\nNeeded: " + strings.Join(flags, ", ") + "."
}

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

// fillPlain is fill for records that need no more than their columns.
func fillPlain(a *app, rec *ledger.Records, k ledger.Kind, given map[string]string) (*draft, error) {
	f := a.newForm(k, rec, given)
	if err := a.complete(f); err != nil {
		return nil, err
	}
	return f.draft(), nil
}

// draft is the record of a form.
func (f *form) draft() *draft {
	d := &draft{rows: []entry.Row{{Kind: f.kind, Cells: f.cells}}, asked: f.asked, args: f.args()}
	if f.taken != "" {
		d.notes = append(d.notes, f.taken)
	}
	return d
}

// args writes a form as a command line that needs no asking. A column that was
// left blank is written too where the ledger would fill it in.
func (f *form) args() []string {
	args := []string{f.kind.Name, "add"}
	for _, c := range f.kind.Columns {
		text, given := f.cells[c.Name]
		if text != "" || given && entry.Sure(f.kind, f.rec, f.cells, c.Name) {
			args = append(args, "--"+flagName(c.Name), text)
		}
	}
	return args
}

// runAdd adds what fill makes of the flags.
func (a *app) runAdd(cmd *cobra.Command, o *addOptions, k ledger.Kind, fill fill) error {
	return a.add(cmd.Context(), o.saving, func(rec *ledger.Records) (*draft, error) {
		return fill(a, rec, k, o.given(cmd))
	})
}

// add saves the draft that is made of the ledger's records. Where a person may
// be asked it is made without the ledger's lock, so that nobody has to wait for
// an answer; else with it, so that two commands at once find different names.
func (a *app) add(ctx context.Context, o saving, make func(*ledger.Records) (*draft, error)) error {
	if !a.ask {
		return a.withBook(ctx, func(b *folder.Book) error {
			rec, faults := b.Records()
			if len(faults) > 0 {
				return &folder.Refusal{Faults: faults, Already: true}
			}
			d, err := make(rec)
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
	if err != nil {
		return err
	}
	a.sayLines(d.notes)
	if err := a.lastLook(o, d); err != nil {
		return err
	}
	return a.withBook(ctx, func(b *folder.Book) error { return a.saveDraft(b, o, d) })
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
	return a.editBook(b, o, func(tx *folder.Tx) error {
		for _, r := range rows {
			if err := tx.Append(r.Kind, r.Cells); err != nil {
				return err
			}
		}
		return nil
	})
}
