package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"
)

const rootLong = `Putby answers, from your own receipts and run records, what a litre of food
really costs once you have freeze-dried it and added water again, beside what
the shop asks for the same litre; whether a sale is worth buying in bulk; and
what you spent and saved.

The ledger is a folder of plain CSV files. It is the one named by --ledger,
else by the environment variable PUTBY_LEDGER, else the current folder.

Putby counts money. It does not say that food is safe: follow the makers'
manuals and your food-safety authority.`

// newRootCommand builds the whole command tree.
func newRootCommand(a *app) *cobra.Command {
	root := &cobra.Command{
		Use:           "putby",
		Short:         "what put-by food really costs, and saves",
		Long:          rootLong,
		Example:       "  putby sample my-ledger\n  putby cost --ledger my-ledger",
		SilenceErrors: true,
		SilenceUsage:  true,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				return usageError{fmt.Errorf("there is no command %q", args[0])}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.PersistentFlags().StringVar(&a.dir, "ledger", "", "the ledger's `folder` (PUTBY_LEDGER, else the current one)")
	_ = root.MarkPersistentFlagDirname("ledger")
	root.SetFlagErrorFunc(func(_ *cobra.Command, err error) error { return usageError{err} })
	root.AddGroup(
		&cobra.Group{ID: "tell", Title: "Ask:"},
		&cobra.Group{ID: "keep", Title: "Keep the books:"},
		&cobra.Group{ID: "begin", Title: "Begin:"},
	)
	add := func(group string, commands ...*cobra.Command) {
		for _, c := range commands {
			c.GroupID = group
			c.Long = strings.TrimRight(c.Long, "\n") + "\n\n" + exitHelp()
			root.AddCommand(c)
		}
	}
	add("tell", newCostCommand(a), newExplainCommand(a), newProveCommand(a))
	add("tell", newWorthCommand(a), newOffersCommand(a))
	add("tell", newMonthCommand(a))
	add("tell", newWhenCommand(a))
	add("tell", newEnergyCommand(a))
	add("keep", newRecordCommand(a, "receipt", newReceiptAddCommand(a)), newRunCommand(a),
		newRecordCommand(a, "pack", newPackAddCommand(a)), newRecordCommand(a, "draw", newDrawAddCommand(a)))
	for _, name := range []string{"price", "batch", "count", "supply", "machine", "holiday", "wattage", "phase", "load"} {
		add("keep", newRecordCommand(a, name, nil))
	}
	add("keep", newTariffCommand(a))
	add("keep", newFoodCommand(a), newImportCommand(a), newAmendCommand(a), newStrikeCommand(a), newUndoCommand(a), newRedoCommand(a), newChangesCommand(a))
	add("tell", newCompareCommand(a))
	add("tell", newOnHandCommand(a))
	add("tell", newLabelsCommand(a), newPageCommand(a), newServeCommand(a))
	add("tell", newPaybackCommand(a))
	add("tell", newTraceCommand(a))
	add("begin", newInitCommand(a), newSampleCommand(a))
	return root
}

// exitHelp lists the exit statuses for a command's help.
func exitHelp() string {
	var b strings.Builder
	b.WriteString("Exit status:\n")
	for _, s := range statuses {
		fmt.Fprintf(&b, "  %d  %s\n", s.status, s.means)
	}
	return strings.TrimRight(b.String(), "\n")
}
