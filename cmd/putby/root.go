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

// branches are all commands below the root, by the groups of the overview.
var branches = []branch{
	{"daily", "today", newTodayCommand},
	{"daily", "start", newStartCommand},
	{"daily", "finish", newFinishCommand},
	recorded("daily", "pack", newPackAddCommand),
	{"daily", "take", newTakeCommand},
	{"daily", "freeze", newFreezeCommand},
	recorded("daily", "frozen", nil),
	recorded("daily", "draw", newDrawAddCommand),
	recorded("daily", "receipt", newReceiptAddCommand),
	recorded("daily", "batch", nil),
	{"daily", "run", newRunCommand},
	recorded("daily", "load", nil),
	recorded("daily", "phase", nil),
	{"daily", "stocktake", newStocktakeCommand},
	recorded("daily", "count", newCountAddCommand),
	{"sale", "worth", newWorthCommand},
	{"sale", "card", newCardCommand},
	{"sale", "offers", newOffersCommand},
	{"sale", "when", newWhenCommand},
	{"back", "cost", newCostCommand},
	{"back", "compare", newCompareCommand},
	{"back", "onhand", newOnHandCommand},
	{"back", "month", newMonthCommand},
	{"back", "payback", newPaybackCommand},
	{"back", "energy", newEnergyCommand},
	{"back", "explain", newExplainCommand},
	{"back", "trace", newTraceCommand},
	{"back", "page", newPageCommand},
	{"back", "labels", newLabelsCommand},
	{"back", "export", newExportCommand},
	{"setup", "sample", newSampleCommand},
	{"setup", "setup", newSetupCommand},
	{"setup", "init", newInitCommand},
	{"setup", "food", newFoodCommand},
	recorded("setup", "supply", nil),
	recorded("setup", "machine", nil),
	recorded("setup", "wattage", nil),
	{"setup", "tariff", newTariffCommand},
	recorded("setup", "price", nil),
	{"setup", "setting", newSettingCommand},
	recorded("setup", "holiday", nil),
	{"setup", "import", newImportCommand},
	{"setup", "serve", newServeCommand},
	{"setup", "man", newManCommand},
	{"setup", "version", newVersionCommand},
	{"mend", "edit", newEditCommand},
	{"mend", "remove", newRemoveCommand},
	{"mend", "undo", newUndoCommand},
	{"mend", "redo", newRedoCommand},
	{"mend", "changes", newChangesCommand},
	{"mend", "prove", newProveCommand},
}

// recorded is the branch of a kind of record, whose add may be of its own.
func recorded(group, kind string, add func(*app) *cobra.Command) branch {
	return branch{group, kind, func(a *app) *cobra.Command {
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
	root.PersistentPreRunE = func(cmd *cobra.Command, args []string) error {
		a.machine = forMachines(cmd)
		return a.native(cmd, args)
	}
	root.SilenceErrors, root.SilenceUsage = true, true
	root.PersistentFlags().StringVar(&a.dir, "ledger", "", "the ledger's `folder` (PUTBY_LEDGER, else the current one)")
	_ = root.MarkPersistentFlagDirname("ledger")
	root.SetFlagErrorFunc(flagError)
	for _, w := range wants {
		root.AddGroup(&cobra.Group{ID: w.id, Title: w.what + ":"})
	}
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
	root.SetHelpCommandGroupID("setup")
	addCompletion(root)
	a.completeNames(root)
	return root
}
