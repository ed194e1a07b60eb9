package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	reports "putby/ledger/report"
)

const addLong = `The flags say it all. On a terminal you are asked for what is missing, one by one,
with what the ledger suggests in brackets, and have a last look before it is
saved.

Nothing is saved that would put a fault into the ledger; undo takes back what
was. A figure far from your usual ones is asked about, or told.`

// addOptions are a record's columns as flags.
type addOptions struct {
	saving
	columnFlags
	food  string   // that is drawn, where the packs are still to be chosen
	loads []string // of a run
}

// about finds what a record moves, where it moves one thing and no more, or is a run;
// else it is nil.
func (o *addOptions) about(k ledger.Kind, cells map[string]string) entry.About {
	if k.Name == "run" {
		return entry.AboutRun(cells["machine"], o.loads)
	}
	if !slices.Contains([]string{"draw", "frozen", "count"}, k.Name) {
		return nil
	}
	return entry.AboutThings([]string{o.food, cells["pack"], cells["item"]})
}

// newAddCommand builds an add whose flags are the kind's columns.
func newAddCommand(a *app, k ledger.Kind) *cobra.Command {
	return newAdding(a, k, &cobra.Command{
		Use:     "add",
		Short:   "add one",
		Long:    "Record " + k.Long + ".\n\n" + addLong + aheadHelp(k) + boughtHelp[k.Name] + careHelp(k) + neededHelp(k),
		Example: addExamples[k.Name],
	}, adding{on: &addOptions{}, fill: fillPlain})
}

// An adding is a command that adds records of a kind by their columns.
type adding struct {
	on    *addOptions
	flags func(*cobra.Command) // besides those of the columns; may be nil
	fill  fill
}

// newAdding makes a command of its texts and what it adds. Where the command says
// nothing else, it takes flags alone and adds what they say.
func newAdding(a *app, k ledger.Kind, cmd *cobra.Command, r adding) *cobra.Command {
	if cmd.Args == nil {
		cmd.Args = arguments()
	}
	if cmd.RunE == nil {
		cmd.RunE = func(cmd *cobra.Command, _ []string) error { return a.runAdd(cmd, r.on, k, r.fill) }
	}
	r.on.columnFlags.add(a, cmd, k)
	if r.flags != nil {
		r.flags(cmd)
	}
	a.addMeant(cmd, k)
	r.on.saving.add(cmd)
	return cmd
}

var addExamples = map[string]string{
	"supply":  "  putby supply add --supply jar-2l --name \"2 L jar\" --kind jar --uses 20 --capacity \"2 L\" --price 3.20",
	"machine": "  putby machine add --machine shed --name \"Shed dryer\" --load-mass \"7 kg\" --cycles 900 --residual 300",
	"tariff": "  putby tariff add --tariff flat --rate 0.21 --tax 15\n" +
		"  putby tariff add --tariff flat --from 2026-07-01 --start 23:00 --end 7:00 --rate 0.14 --tax 15",
	"price": "  putby price add --shop \"Quirk & Thimble\" --item carrots --size \"2 kg\" --price 2.80\n" +
		"  putby price add --shop \"Quirk & Thimble\" --item carrots --size \"2 kg\" --price 1.90 --terms offer",
	"batch":   "  putby batch add --item squash-puree --quantity \"2 L\" --from \"2.4 kg squash\"",
	"count":   "  putby count add --item onions --quantity \"0 kg\"\n  putby count add --pack c46-a --quantity 4",
	"frozen":  "  putby frozen add --item onions --quantity \"0.5 kg\"\n  putby frozen add --item apples --quantity \"1 kg\" --date yesterday --note \"bottom drawer\"",
	"wattage": "  putby machine add --machine shed --cycles 900\n  putby wattage add --machine shed --phase primary --watts 640",
	"holiday": "  putby holiday add --tariff harbour --date 2026-12-26",
	"phase":   "  putby phase add --run c47 --phase hold --duration 40m --watts 150",
	"load":    "  putby load add --run c47 --item apples --quantity \"0.4 kg\" --trays 1 --wet \"0.4 kg\" --dry \"50 g\"",
}

// careHelp is a paragraph on what to heed.
func careHelp(k ledger.Kind) string {
	if care := careOf[k.Name]; care != "" {
		return "\n\n" + care
	}
	return ""
}

// aheadHelp says of kinds of record that are of a day what becomes of one ahead.
func aheadHelp(k ledger.Kind) string {
	if !k.Happens() {
		return ""
	}
	return " A date still\nto come is refused, unless --ahead says that it is meant."
}

// neededHelp names the flags that a record cannot do without.
func neededHelp(k ledger.Kind) string {
	var flags []string
	for i := range k.Columns {
		if c := &k.Columns[i]; c.Need && !entry.NeedsNoAnswer(c, &ledger.Records{}, nil) {
			flags = append(flags, "--"+flagName(c.Name))
		}
	}
	return "\n\nNeeded: " + strings.Join(flags, ", ") + "."
}

// A fill makes a draft of a form, asking for what it lacks. With an error it
// returns what there is of the draft.
type fill func(*form) (*draft, error)

// fillPlain is fill for records that need no more than their columns.
func fillPlain(f *form) (*draft, error) {
	err := f.complete()
	d := f.draft()
	return d, err
}

// draft is the record of a form, with what is to be said of it.
func (f *form) draft() *draft {
	d := &draft{Draft: *entry.NewRecord(f.base, f.kind, f.cells), args: f.args()}
	if f.taken != "" {
		d.Notes = append([]string{f.taken}, d.Notes...)
	}
	return d
}

// args writes a form as a command line that needs no asking. A column that was
// left blank is written too where the ledger would fill it in.
func (f *form) args() []string {
	args := []string{f.kind.Name, "add"}
	for i := range f.kind.Columns {
		c := &f.kind.Columns[i]
		text, given := f.cells[c.Name]
		if text != "" || given && entry.NeedsNoAnswer(c, f.base.Records, f.cells) {
			args = append(args, "--"+flagName(c.Name), text)
		}
	}
	return args
}

// runAdd adds what fill makes of the flags.
func (a *app) runAdd(cmd *cobra.Command, o *addOptions, k ledger.Kind, fill fill) error {
	cells := o.given(cmd)
	return a.add(cmd.Context(), o.saving, o.about(k, cells), func(t *ask.Talk, b *entry.Base) (*draft, error) {
		f := newForm(t, b, k, cells)
		if err := f.given(); err != nil {
			return nil, err
		}
		return fill(f)
	})
}

// careOf is what to heed with the things that records of a kind are of.
var careOf = map[string]string{"machine": reports.MachineCare}

// boughtHelp says of kinds of things where what they cost is recorded.
var boughtHelp = map[string]string{
	"machine": "\n\nWhat it cost is a line of a receipt, and its wear is drawn from that:\nputby receipt add --shop \"Ferryside Tools\" \"shed 2900\".",
	"supply":  "\n\nWhat it cost is a line of a receipt, such as putby receipt add \"12 jar-2l 38.40\".",
}
