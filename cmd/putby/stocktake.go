package main

import (
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/folder"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

const stocktakeLong = `Walk through the store, place by place, and say of each pack how many containers
are there: Enter where the books are right, a number where they are not, - for
what you do not look at. --supplies goes on with jars, absorbers and oil (of what
serves again count the empty ones), --fresh with the fresh food. What was counted
is saved in one change; what the books have beyond it is missing, and you are told
what that cost.

--sheet prints the list to take along, in any --format. Filled in (CSV or .xlsx), in the
column counted, --read FILE brings it back; a row left blank was not looked at.
The column gone may say of what is missing: eaten, given or spoiled.`

type stocktakeOptions struct {
	saving
	output
	query      figures.CountQuery
	place      string
	sheet      bool
	file       string
	date, note string
}

func newStocktakeCommand(a *app) *cobra.Command {
	o := &stocktakeOptions{}
	cmd := &cobra.Command{
		Use: "stocktake", Short: "count what is there, place by place", Long: stocktakeLong + aheadHelp(ledger.MustKind("count")),
		Example: `  putby stocktake --sheet --supplies
  putby stocktake --sheet --place cellar --format csv`,
		Args: arguments(),
		RunE: func(cmd *cobra.Command, _ []string) error { return runStocktake(cmd, a, o) },
	}
	f := cmd.Flags()
	f.BoolVar(&o.query.Supplies, "supplies", false, "jars, absorbers and oil too")
	f.BoolVar(&o.query.Fresh, "fresh", false, "the fresh food too")
	f.StringVar(&o.place, "place", "", "of the packs only those that stand in this `place`")
	f.BoolVar(&o.sheet, "sheet", false, "print the list to fill in")
	f.StringVar(&o.file, "read", "", "bring back a filled list, a `file` of CSV or .xlsx")
	f.StringVar(&o.date, "date", "", "the `day` at whose end it is counted (today)")
	f.StringVar(&o.note, "note", "", "a `note` to keep with it")
	_ = cmd.MarkFlagFilename("read", "csv", "xlsx")
	o.output.add(cmd)
	a.addAhead(cmd)
	o.saving.add(cmd)
	return cmd
}

func runStocktake(cmd *cobra.Command, a *app, o *stocktakeOptions) error {
	if cmd.Flags().Changed("place") {
		o.query.Place = exact.Some(o.place)
	}
	var in entry.StocktakeIn
	var err error
	switch {
	case o.sheet && o.file != "":
		return misused("--sheet and --read exclude each other")
	case o.sheet:
		return a.printSheet(o)
	case o.file != "":
		in, err = a.readSheet(o)
	case a.ask:
		in, err = a.walk(o)
	default:
		return misused("a stocktake is a walk on a terminal; elsewhere print the list with --sheet, and bring it back with --read FILE")
	}
	if err != nil {
		return err
	}
	return a.act(cmd.Context(), o.saving, nil, func(b *entry.Base) (*entry.Draft, error) { return entry.Stocktake(b, in) })
}

// printSheet prints the list of what is to be counted.
func (a *app) printSheet(o *stocktakeOptions) error {
	b, err := a.base()
	if err != nil {
		return err
	}
	list, g, err := entry.ToCount(b, o.date, o.query)
	if err != nil {
		return err
	}
	return a.print(reports.StocktakeSheet(g, list), o.output)
}

// readSheet reads a filled list.
func (a *app) readSheet(o *stocktakeOptions) (in entry.StocktakeIn, err error) {
	b, err := a.base()
	if err != nil {
		return in, err
	}
	file, err := os.Open(o.file)
	if err != nil {
		return in, fmt.Errorf("%s cannot be read: %w", exact.Quote(o.file), folder.Cause(err))
	}
	defer file.Close()
	in.Date, in.Note = o.date, o.note
	in.Counted, err = entry.ReadSheet(b, o.date, file)
	return in, placedFaults(o.file, err)
}
