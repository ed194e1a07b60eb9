package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"putby/ledger"
)

// newRecordCommand builds the command of one kind of record: add, list, show.
// Kinds that need more than their columns bring their own add.
func newRecordCommand(a *app, name string, add *cobra.Command) *cobra.Command {
	k := ledger.MustKind(name)
	cmd := newGroupCommand(k.Name, kindShort[k.Name],
		fmt.Sprintf("Record %s, list all that is recorded, or show one. Each is a row of %s.", kindLong[k.Name], k.File))
	if add == nil {
		add = newAddCommand(a, k)
	}
	cmd.AddCommand(add, newListCommand(a, k), newShowCommand(a, k))
	return cmd
}

// newGroupCommand builds a command that only holds others.
func newGroupCommand(name, short, long string) *cobra.Command {
	return &cobra.Command{
		Use: name, Short: short, Long: long,
		Args: noCommand,
		RunE: func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
}

// kindShort says in a few words what each kind of record is.
var kindShort = map[string]string{
	"food": "foods that are bought, dried or eaten", "supply": "jars, bags, absorbers, oil",
	"machine": "freeze-dryers", "wattage": "a machine's usual draw in each phase", "tariff": "bands of electricity tariffs",
	"holiday": "days that are holidays for a tariff", "receipt": "what was bought", "price": "what shops ask",
	"batch": "kitchen work before drying", "run": "runs of the machine", "phase": "phases of runs", "load": "what went into runs",
	"pack": "jars and bags that were packed", "draw": "what was taken out", "frozen": "fresh food that went into the freezer", "count": "stocktakes",
	"setting": "what applies to the whole ledger",
}

// kindLong says what one record of a kind is of, behind a verb.
var kindLong = map[string]string{
	"food": "a food that is bought, dried or eaten", "supply": "a jar, a bag, an absorber, oil or the like",
	"machine": "a freeze-dryer", "wattage": "what a machine usually draws in a phase", "tariff": "a band of an electricity tariff",
	"holiday": "a day that is a holiday for a tariff", "receipt": "what was bought", "price": "what a shop asks",
	"batch": "kitchen work before drying", "run": "a run of the machine", "phase": "a phase of a run", "load": "what went into a run",
	"pack": "jars and bags that were packed", "draw": "what was taken out", "frozen": "fresh food that went into the freezer",
	"count": "what a stocktake found",
}
