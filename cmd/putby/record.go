package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
)

// newRecordCommand builds the command of one kind of record: add, list, show.
// Kinds that need more than their columns bring their own add.
func newRecordCommand(a *app, name string, add *cobra.Command) *cobra.Command {
	k, ok := ledger.KindOf(name)
	if !ok {
		panic("putby: no kind of record is called " + name) // a defect, found by any test
	}
	cmd := &cobra.Command{
		Use:   k.Name,
		Short: kindShort[k.Name],
		Long:  fmt.Sprintf("Add a %s to the ledger, list them all, or show one. They are kept in %s.", k.Name, k.File),
		Args:  arguments(),
		RunE:  func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	if add == nil {
		add = newAddCommand(a, k)
	}
	for _, c := range []*cobra.Command{add, newListCommand(a, k), newShowCommand(a, k)} {
		c.Long = strings.TrimRight(c.Long, "\n") + "\n\n" + exitHelp()
		cmd.AddCommand(c)
	}
	return cmd
}

// kindShort says in a few words what each kind of record is.
var kindShort = map[string]string{
	"food": "foods that are bought, dried or eaten", "supply": "jars, bags, absorbers, oil",
	"machine": "freeze-dryers", "wattage": "a machine's usual draw in each phase", "tariff": "bands of electricity tariffs",
	"holiday": "days that are holidays for a tariff", "receipt": "what was bought", "price": "what shops ask",
	"batch": "kitchen work before drying", "run": "cycles of the machine", "phase": "phases of runs", "load": "what went into runs",
	"pack": "jars and bags that were packed", "draw": "what was taken out", "count": "stocktakes",
}

// addOptions are a record's columns as flags.
type addOptions struct {
	saving
	cells map[string]*string
}

// newAddCommand builds an add whose flags are the kind's columns.
func newAddCommand(a *app, k ledger.Kind) *cobra.Command {
	o := &addOptions{}
	cmd := &cobra.Command{
		Use:     "add",
		Short:   "add one",
		Long:    "Add one by flags; what is missing is asked for on a terminal. Nothing is saved that would put a fault into the ledger.\n\n" + columnHelp(k),
		Example: addExamples[k.Name],
		Args:    arguments(),
		RunE:    func(cmd *cobra.Command, _ []string) error { return runAdd(cmd, a, k, o, nil) },
	}
	o.add(cmd, k)
	return cmd
}

var addExamples = map[string]string{
	"food":    "  putby food add --food pears --name Pears --basis mass --fresh-days 7 --keep-months 24 --caution \"Core them first.\"",
	"supply":  "  putby supply add --supply jar-2l --name \"2 L jar\" --kind jar --uses 20 --capacity \"2 L\" --price 3.20",
	"machine": "  putby machine add --machine shed --name \"Shed dryer\" --load-mass \"7 kg\" --cycles 900 --residual 300",
	"tariff":  "  putby tariff add --tariff flat --rate 0.21 --tax 15",
	"price":   "  putby price add --shop \"Brine & Bramble\" --item carrots --size \"2 kg\" --price 2.80",
	"batch":   "  putby batch add --batch soup-x --item leek-soup --quantity \"4 L\" --from \"1 kg onions\"",
	"count":   "  putby count add --item onions --quantity \"0 kg\"",
	"wattage": "  putby wattage add --machine shed --phase primary --watts 640",
	"holiday": "  putby holiday add --tariff flat --date 2026-01-01",
}

// columnHelp lists what each column holds.
func columnHelp(k ledger.Kind) string {
	var b strings.Builder
	b.WriteString("Columns (* may not be blank):\n")
	for _, c := range k.Columns {
		mark := " "
		if c.Need {
			mark = "*"
		}
		fmt.Fprintf(&b, " %s %-12s %s\n", mark, c.Name, c.Help)
	}
	return b.String()
}

// add makes a flag of each column that is not left out.
func (o *addOptions) add(cmd *cobra.Command, k ledger.Kind, without ...string) {
	o.cells = map[string]*string{}
	for _, c := range k.Columns {
		if slices.Contains(without, c.Name) {
			continue
		}
		text := new(string)
		o.cells[c.Name] = text
		cmd.Flags().StringVar(text, flagName(c.Name), "", c.Help)
	}
	o.saving.add(cmd)
}

func (o *saving) add(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&o.dryRun, "dry-run", false, "show what would be written, and write nothing")
}

// flagName is the flag of a column: fresh_days is --fresh-days.
func flagName(column string) string { return strings.ReplaceAll(column, "_", "-") }

// given returns the cells that flags gave.
func (o *addOptions) given(cmd *cobra.Command) map[string]string {
	cells := map[string]string{}
	for column, text := range o.cells {
		if cmd.Flags().Changed(flagName(column)) {
			cells[column] = *text
		}
	}
	return cells
}

// moreRows gives rows that belong to a record being added, once its cells are
// complete.
type moreRows func(*folder.Book, map[string]string) ([]entry.Row, error)

// runAdd adds one record, and more rows that belong to it.
func runAdd(cmd *cobra.Command, a *app, k ledger.Kind, o *addOptions, more moreRows) error {
	return a.withBook(cmd.Context(), func(b *folder.Book) error {
		return a.addRecord(b, k, o.saving, o.given(cmd), more)
	})
}

func (a *app) addRecord(b *folder.Book, k ledger.Kind, o saving, given map[string]string, more moreRows) error {
	rec, _ := b.Records()
	cells, err := a.complete(k, rec, given)
	if err != nil {
		return err
	}
	rows := []entry.Row{{Kind: k, Cells: cells}}
	if more != nil {
		others, err := more(b, cells)
		if err != nil {
			return err
		}
		rows = append(rows, others...)
	}
	if a.ask {
		for _, r := range rows {
			a.showRow(r)
		}
		if err := a.confirm("save it"); err != nil {
			return err
		}
	}
	return a.saveRows(b, o, rows)
}

// showRow gives a last look at a row.
func (a *app) showRow(r entry.Row) {
	fmt.Fprintln(a.stderr, r.Kind.Name)
	for _, c := range r.Kind.Columns {
		if text := r.Cells[c.Name]; text != "" {
			fmt.Fprintf(a.stderr, "  %-12s %s\n", c.Name, printable(text))
		}
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
