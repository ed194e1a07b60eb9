package main

import (
	"github.com/spf13/cobra"

	"putby/ledger"
	"putby/ledger/folder"
)

const strikeLong = `Take a record out. KIND and NAME are as for amend; the identifier of a receipt
alone is all of its lines, and a run takes its phases, loads and meter log with
it. Packs and draws are never taken along: what they would then lack is said, and
nothing is changed.`

func newStrikeCommand(a *app) *cobra.Command {
	o := &saving{}
	cmd := &cobra.Command{
		Use:               "strike KIND NAME",
		Short:             "take a record out",
		Long:              strikeLong,
		Example:           "  putby strike draw @5\n  putby strike price @12 --dry-run",
		Args:              arguments("KIND", "NAME"),
		ValidArgsFunction: a.completeRecord,
		RunE:              func(cmd *cobra.Command, args []string) error { return runStrike(cmd, a, o, args[0], args[1]) },
	}
	o.add(cmd)
	return cmd
}

func runStrike(cmd *cobra.Command, a *app, o *saving, kindName, text string) error {
	k, err := kindOf(kindName)
	if err != nil {
		return err
	}
	n, err := parseName(text)
	if err != nil {
		return err
	}
	strike := func(tx *folder.Tx) error {
		lines, err := n.find(k, tx.Rows(k))
		if err != nil {
			return err
		}
		for _, line := range lines {
			if k.Name == "run" {
				if err := strikeParts(tx, k, line); err != nil {
					return err
				}
			}
			if err := tx.Strike(k, line); err != nil {
				return err
			}
		}
		return nil
	}
	return a.withBook(cmd.Context(), *o, func(b *folder.Book) error { return a.edit(b, *o, strike, nil) })
}

// strikeParts takes out a run's phases, loads and meter log.
func strikeParts(tx *folder.Tx, k ledger.Kind, line int) error {
	run, err := tx.Row(k, line)
	if err != nil {
		return err
	}
	for _, part := range []string{"phase", "load"} {
		kind, _ := ledger.KindOf(part)
		for line, cells := range tx.Rows(kind) {
			if cells["run"] == run["run"] {
				if err := tx.Strike(kind, line); err != nil {
					return err
				}
			}
		}
	}
	return tx.RemoveFile(ledger.MeterFolder + "/" + run["run"] + ".csv")
}
