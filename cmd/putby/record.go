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
	cmd := newGroupCommand(k.Name, k.Short,
		fmt.Sprintf("Record %s, list all that is recorded, or show one. Each is a row of %s.", k.Long, k.File))
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
