package main

import (
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
)

// howToName explains how records are named.
const howToName = `WHICH is what you know of the record: its identifier, or the number in it (48 for
c48); the name of a food, a shop or whatever else it names, in any case; a day; or
last, which is that of the latest day: where another was saved last, both are named,
and nothing is done. Several narrow the choice: "price strawberries last".
IDENTIFIER:PART is one line of several (r12:3 is line 3 of receipt r12), and @LINE a
line of the file. Where several records fit, they are listed with the command for each.`

func editLong() string {
	return "Change cells of a record. KIND is one of: " + strings.Join(entry.KindNames(), ", ") + ".\n\n" + howToName + editHow
}

const editHow = `

COLUMN=VALUE is typed as you would say it: place=cellar, date=yesterday, "size=2 lbs".
COLUMN= makes a cell blank. Date, shop and identifier of a receipt are changed on all
of its lines, and a shelf price that a line told of goes with it. A setting may be
given as edit setting hour_value 12.

What would put a fault into the ledger is refused, with the faults: a run that
packs name keeps its identifier, a receipt that was used up keeps its amounts.
Editing a setting that is not there yet sets it.`

func newEditCommand(a *app) *cobra.Command {
	o := &saving{}
	cmd := &cobra.Command{
		Use:     "edit KIND WHICH COLUMN=VALUE...",
		Aliases: []string{"amend"}, // as it was called once
		Short:   "change a record",
		Long:    editLong(),
		Example: `  putby edit pack c01-a "place=cellar, left shelf"
  putby edit draw last reason=given
  putby edit the last receipt "shop=Quillet & Daughters"
  putby edit food "chicken broth" keep_months=18
  putby edit receipt mb-251112:3 "item=salt for the steps" --dry-run
  putby edit setting hour_value 12`,
		Args:              cobra.ArbitraryArgs,
		ValidArgsFunction: a.completeRecord,
		RunE: func(cmd *cobra.Command, args []string) error {
			return runEdit(cmd, a, o, args)
		},
	}
	a.addAhead(cmd)
	o.add(cmd)
	return cmd
}

func runEdit(cmd *cobra.Command, a *app, o *saving, args []string) error {
	settings := ledger.SettingsKind()
	if len(args) == 2 && args[0] == settings.Name {
		if setting, value, set := strings.Cut(args[1], "="); set {
			return mistyped("a setting is named first, and then its value", commandLine([]string{"putby", "edit", settings.Name, setting, "value=" + value}))
		}
	}
	r, err := entry.ParseRecordRef(cmd.Name(), args)
	if err != nil {
		return err
	}
	if r.Kind.Name == settings.Name && len(r.Sets) == 0 && len(r.Words) == 2 {
		r.Words, r.Sets = r.Words[:1], []string{"value=" + r.Words[1]}
	}
	if len(r.Sets) == 0 {
		return misused("edit needs what is to be changed, as COLUMN=VALUE; %s", entry.ColumnHint(r.Kind, ""))
	}
	cells, err := entry.ParseCells(r.Kind, r.Sets)
	if err != nil {
		return err
	}
	return a.amend(cmd.Context(), *o, r.Amend(cells), a.ask && !o.dryRun)
}

const removeLong = `Take a record out. ` + howToName + `

A receipt is taken out with all of its lines and the shelf prices that they told of,
and a run takes its phases, loads and meter log with it. Packs and draws are never taken along: what they would then lack
is said, and nothing is changed.`

func newRemoveCommand(a *app) *cobra.Command {
	o := &saving{}
	cmd := &cobra.Command{
		Use:               "remove KIND WHICH",
		Aliases:           []string{"strike"}, // as it was called once
		Short:             "take a record out",
		Long:              removeLong,
		Example:           "  putby remove draw last\n  putby remove price strawberries last\n  putby remove the last price --dry-run\n  putby remove draw @5",
		Args:              cobra.ArbitraryArgs,
		ValidArgsFunction: a.completeRecord,
		RunE:              func(cmd *cobra.Command, args []string) error { return runRemove(cmd, a, o, args) },
	}
	o.add(cmd)
	return cmd
}

func runRemove(cmd *cobra.Command, a *app, o *saving, args []string) error {
	r, err := entry.ParseRecordRef(cmd.Name(), args)
	if err != nil {
		return err
	}
	return a.amend(cmd.Context(), *o, r.Remove, false)
}
