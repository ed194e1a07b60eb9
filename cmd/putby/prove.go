package main

import (
	"github.com/spf13/cobra"

	"putby/ledger"
	"putby/ledger/folder"
	reports "putby/ledger/report"
)

const proveLong = `Check every record, and prove that nothing was lost or made.

All faults come at once, each as file:line:column with a hint, on standard
error. Without faults it shows the two identities of the ledger, equal to the
last digit: all that was bought is in lots, runs, packs or gone; and all that
was put into runs is awaiting packing, in store, used, given, spoiled, missing
or lost.`

type proveOptions struct {
	output
	queryFlags
}

func newProveCommand(a *app) *cobra.Command {
	o := &proveOptions{}
	cmd := &cobra.Command{
		Use:     "prove",
		Short:   "list all faults at once; prove that the books balance",
		Long:    proveLong,
		Example: "  putby prove\n  putby prove --as-of 2025-06-30",
		Args:    arguments(),
		RunE:    func(*cobra.Command, []string) error { return runProve(a, o) },
	}
	o.output.add(cmd)
	addAsOf(cmd.Flags(), &o.asOf)
	return cmd
}

func runProve(a *app, o *proveOptions) error {
	q, err := o.query(a.now())
	if err != nil {
		return err
	}
	s, err := a.stand(o.asOf)
	if err != nil {
		return err
	}
	q.AsOf = s.day
	warnings, err := folder.Warnings(a.ledgerDir())
	if err != nil {
		return err
	}
	defer a.sayWarnings(warnings)
	g, err := s.byDay(ledger.Options{Brief: true})
	if err != nil {
		return err
	}
	d, proof := reports.Proof(g)
	if err := a.printReport(g, d, o.output); err != nil {
		return err
	}
	return proof
}
