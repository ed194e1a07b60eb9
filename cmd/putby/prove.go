package main

import (
	"time"

	"github.com/spf13/cobra"

	"putby/ledger"
	reports "putby/ledger/report"
)

const proveLong = `Check every record, and prove that nothing was lost or made.

All faults come at once, each as file:line:column with a hint, on standard
error. Without faults it shows the two identities of the ledger, equal to the
last digit: all that was bought is in lots, runs, packs or gone; and all that
was put into runs is awaiting packing, in store, used, given, spoiled, missing
or lost.`

func newProveCommand(a *app) *cobra.Command {
	o := &reportFlags{}
	var proof error
	return newReportCommand(a, &cobra.Command{
		Use:     "prove",
		Short:   "list all faults at once; prove that the books balance",
		Long:    proveLong,
		Example: "  putby prove\n  putby prove --as-of 2025-06-30",
		Args:    arguments(),
	}, reporting{
		on: o, warn: true, join: ledger.Options{Brief: true}, end: func() error { return proof },
		flags: func(cmd *cobra.Command) { addAsOf(cmd.Flags(), &o.asOf) },
		ask: func(time.Time, []string) (answer, error) {
			return func(_ *standing, g *ledger.Ledger) (d reports.Doc, _ error) {
				d, proof = reports.Proof(g)
				return d, nil
			}, nil
		},
	})
}
