package main

import (
	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
)

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
