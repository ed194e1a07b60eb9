package main

import (
	"slices"

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

// A branch is a command below the root.
type branch struct {
	group, name string
	make        func(*app) *cobra.Command
}

// branches are all commands below the root, those of a group in the order of its
// help.
var branches = []branch{
	{"tell", "today", newTodayCommand},
	{"tell", "cost", newCostCommand},
	{"tell", "explain", newExplainCommand},
	{"tell", "prove", newProveCommand},
	{"tell", "worth", newWorthCommand},
	{"tell", "card", newCardCommand},
	{"tell", "offers", newOffersCommand},
	{"tell", "month", newMonthCommand},
	{"tell", "when", newWhenCommand},
	{"tell", "energy", newEnergyCommand},
	{"keep", "start", newStartCommand},
	{"keep", "finish", newFinishCommand},
	{"keep", "take", newTakeCommand},
	{"keep", "freeze", newFreezeCommand},
	{"keep", "stocktake", newStocktakeCommand},
	recorded("receipt", newReceiptAddCommand),
	{"keep", "run", newRunCommand},
	recorded("pack", newPackAddCommand),
	recorded("draw", newDrawAddCommand),
	recorded("count", newCountAddCommand),
	{"keep", "food", newFoodCommand},
	recorded("price", nil),
	recorded("batch", nil),
	recorded("supply", nil),
	recorded("machine", nil),
	recorded("holiday", nil),
	recorded("wattage", nil),
	recorded("phase", nil),
	recorded("load", nil),
	recorded("frozen", nil),
	{"keep", "tariff", newTariffCommand},
	{"keep", "setting", newSettingCommand},
	{"keep", "import", newImportCommand},
	{"keep", "edit", newEditCommand},
	{"keep", "remove", newRemoveCommand},
	{"keep", "undo", newUndoCommand},
	{"keep", "redo", newRedoCommand},
	{"keep", "changes", newChangesCommand},
	{"tell", "compare", newCompareCommand},
	{"tell", "onhand", newOnHandCommand},
	{"tell", "labels", newLabelsCommand},
	{"tell", "page", newPageCommand},
	{"tell", "serve", newServeCommand},
	{"tell", "payback", newPaybackCommand},
	{"tell", "trace", newTraceCommand},
	{"tell", "export", newExportCommand},
	{"begin", "setup", newSetupCommand},
	{"begin", "init", newInitCommand},
	{"begin", "sample", newSampleCommand},
	{"begin", "man", newManCommand},
	{"begin", "version", newVersionCommand},
}

// recorded is the branch of a kind of record, whose add may be of its own.
func recorded(kind string, add func(*app) *cobra.Command) branch {
	return branch{"keep", kind, func(a *app) *cobra.Command {
		if add == nil {
			return newRecordCommand(a, kind, nil)
		}
		return newRecordCommand(a, kind, add(a))
	}}
}

// branchOf returns the branch that a command line is about, and false where only
// the whole tree can tell: of help, of completion, of what is mistyped.
func branchOf(args []string) (branch, bool) {
	if len(args) > 2 && args[0] == "--ledger" {
		args = args[2:]
	}
	i := -1
	if len(args) > 0 {
		i = slices.IndexFunc(branches, func(b branch) bool { return b.name == args[0] })
	}
	if i < 0 || args[0] == "man" {
		return branch{}, false
	}
	return branches[i], true
}

// newRootCommand builds the command tree: of a command line that names its
// command first, that one alone, since all others take longer to build than most
// commands need.
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
	setHelp(a, root)
	add := func(b branch) {
		c := b.make(a)
		c.GroupID = b.group
		root.AddCommand(c)
	}
	if b, sure := branchOf(a.args); sure {
		add(b)
		root.CompletionOptions.DisableDefaultCmd = true
		return root
	}
	for _, b := range branches {
		add(b)
	}
	root.SetHelpCommand(newHelpCommand(a))
	root.SetHelpCommandGroupID("begin")
	addCompletion(root)
	a.completeNames(root)
	return root
}
