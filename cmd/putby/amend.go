package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"putby/ledger"
	"putby/ledger/folder"
)

const amendLong = `Change cells of a record. KIND is food, supply, machine, wattage, tariff, holiday,
receipt, price, batch, run, phase, load, pack, draw, count or setting. NAME is
the record's identifier; IDENTIFIER:PART where two columns identify it (r12:3 is
line 3 of receipt r12); or @LINE of its file, as list shows it. COLUMN= makes a
cell blank.

What would put a fault into the ledger is refused, with the faults.`

func newAmendCommand(a *app) *cobra.Command {
	o := &saving{}
	cmd := &cobra.Command{
		Use:   "amend KIND NAME COLUMN=VALUE...",
		Short: "change a record",
		Long:  amendLong,
		Example: `  putby amend pack c01-a "place=cellar, left shelf"
  putby amend draw @5 reason=given`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) < 3 {
				return arguments("KIND", "NAME", "COLUMN=VALUE...")(cmd, nil)
			}
			return nil
		},
		ValidArgsFunction: completeKinds,
		RunE: func(cmd *cobra.Command, args []string) error {
			return runAmend(cmd, a, o, args[0], args[1], args[2:])
		},
	}
	o.add(cmd)
	return cmd
}

func runAmend(cmd *cobra.Command, a *app, o *saving, kindName, text string, args []string) error {
	k, err := kindOf(kindName)
	if err != nil {
		return err
	}
	cells, err := parseCells(k, args)
	if err != nil {
		return err
	}
	n, err := parseName(text)
	if err != nil {
		return err
	}
	return a.edit(cmd.Context(), *o, func(tx *folder.Tx) error {
		lines, err := n.find(k, tx.Rows(k))
		if err != nil {
			return err
		}
		if len(lines) > 1 {
			return usageError{fmt.Errorf("%s tells %d records of %s: name one, as %s:PART or @LINE", text, len(lines), k.File, text)}
		}
		return tx.Replace(k, lines[0], cells)
	})
}

func kindOf(name string) (ledger.Kind, error) {
	k, ok := ledger.KindOf(name)
	if !ok {
		return k, usageError{fmt.Errorf("%q is not a kind of record: food, supply, machine, receipt, run and so on", name)}
	}
	return k, nil
}

func completeKinds(_ *cobra.Command, args []string, _ string) ([]cobra.Completion, cobra.ShellCompDirective) {
	var names []cobra.Completion
	if len(args) == 0 {
		for _, k := range ledger.Kinds() {
			names = append(names, k.Name)
		}
	}
	return names, cobra.ShellCompDirectiveNoFileComp
}
