package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"putby/ledger"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

const worthLong = `Say whether food on offer is worth buying in bulk to dry, and how many packages.

Everything that is not given comes from the ledger: the shelf price, the
machine and its load, the usual cycle and its electricity under the tariff, the
packing as last done, wear, stock, monthly use and how long it keeps. Every one
can be given, so that it also works in a ledger with nothing but settings and
the food.`

func newWorthCommand(a *app) *cobra.Command {
	o := &worthOptions{visits: 1}
	cmd := &cobra.Command{
		Use:   "worth ITEM --price P --size S [--limit N]",
		Short: "is this sale worth buying in bulk, and how many?",
		Long:  worthLong,
		Example: `  putby worth blueberries --price 3.49 --size "500 g" --limit 12
  putby worth eggs --as beaten-egg --price 2.50 --size "12 ea" --limit 5`,
		Args: arguments("ITEM"),
		RunE: func(_ *cobra.Command, args []string) error { return runWorth(a, o, args[0]) },
	}
	o.output.add(cmd)
	o.output.addChart(cmd)
	o.add(cmd)
	return cmd
}

func runWorth(a *app, o *worthOptions, item string) error {
	q, err := o.query(item)
	if err != nil {
		return err
	}
	g, err := a.load(ledger.Options{Through: q.AsOf, PricesThrough: exact.NoDate})
	if err != nil {
		return err
	}
	if err := o.local(g, &q); err != nil {
		return err
	}
	d, err := reports.Worth(g, q)
	if missing := (*reports.MissingError)(nil); errors.As(err, &missing) {
		return usageError{fmt.Errorf("worth %s: %w", item, err)}
	}
	if err != nil {
		return err
	}
	return a.print(d, o.output)
}
