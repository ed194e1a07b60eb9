package main

import (
	"github.com/spf13/cobra"
)

const rootLong = `Putby answers, from your own receipts and run records, what a litre of food
really costs once you have freeze-dried it and added water again, beside what
the shop asks for the same litre; whether a sale is worth buying in bulk; and
what you spent and saved. Alone, in a ledger's folder, it says what the day needs.

The ledger is a folder of plain CSV files. It is the one named by --ledger,
else by the environment variable PUTBY_LEDGER, else the current folder. Tables
are as wide as the terminal, or COLUMNS; NO_COLOR keeps them plain.

Putby counts money. It does not say that food is safe: follow the makers'
manuals and your food-safety authority.`

// newRootCommand builds the whole command tree.
func newRootCommand(a *app) *cobra.Command {
	root := newGroupCommand("putby", "what put-by food really costs, and saves", rootLong)
	root.Example = "  putby sample my-ledger\n  putby cost --ledger my-ledger"
	root.RunE = func(cmd *cobra.Command, _ []string) error { return runAlone(a, cmd) }
	root.SilenceErrors, root.SilenceUsage = true, true
	root.PersistentFlags().StringVar(&a.dir, "ledger", "", "the ledger's `folder` (PUTBY_LEDGER, else the current one)")
	_ = root.MarkPersistentFlagDirname("ledger")
	root.SetFlagErrorFunc(flagError)
	root.AddGroup(
		&cobra.Group{ID: "tell", Title: "Ask:"},
		&cobra.Group{ID: "keep", Title: "Keep the books:"},
		&cobra.Group{ID: "begin", Title: "Begin:"},
	)
	add := func(group string, commands ...*cobra.Command) {
		for _, c := range commands {
			c.GroupID = group
			root.AddCommand(c)
		}
	}
	add("tell", newTodayCommand(a), newCostCommand(a), newExplainCommand(a), newProveCommand(a))
	add("tell", newWorthCommand(a), newCardCommand(a), newOffersCommand(a))
	add("tell", newMonthCommand(a))
	add("tell", newWhenCommand(a))
	add("tell", newEnergyCommand(a))
	add("keep", newStartCommand(a), newFinishCommand(a), newTakeCommand(a), newFreezeCommand(a), newStocktakeCommand(a))
	add("keep", newRecordCommand(a, "receipt", newReceiptAddCommand(a)), newRunCommand(a),
		newRecordCommand(a, "pack", newPackAddCommand(a)), newRecordCommand(a, "draw", newDrawAddCommand(a)),
		newRecordCommand(a, "count", newCountAddCommand(a)), newFoodCommand(a))
	for _, name := range []string{"price", "batch", "supply", "machine", "holiday", "wattage", "phase", "load", "frozen"} {
		add("keep", newRecordCommand(a, name, nil))
	}
	add("keep", newTariffCommand(a), newSettingCommand(a), newImportCommand(a))
	add("keep", newEditCommand(a), newRemoveCommand(a), newUndoCommand(a), newRedoCommand(a), newChangesCommand(a))
	add("tell", newCompareCommand(a))
	add("tell", newOnHandCommand(a))
	add("tell", newLabelsCommand(a), newPageCommand(a), newServeCommand(a))
	add("tell", newPaybackCommand(a))
	add("tell", newTraceCommand(a), newExportCommand(a))
	add("begin", newSetupCommand(a), newInitCommand(a), newSampleCommand(a))
	add("begin", newManCommand(a), newVersionCommand(a))
	root.SetHelpCommand(newHelpCommand(a))
	root.SetHelpCommandGroupID("begin")
	addCompletion(root)
	a.completeNames(root)
	setHelp(a, root)
	return root
}
