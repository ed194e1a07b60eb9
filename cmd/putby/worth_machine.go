package main

import (
	"github.com/spf13/cobra"

	"putby/ledger"
	reports "putby/ledger/report"
)

const worthMachineLong = `Say how many cycles it takes until a machine has paid for itself, and whether
that is within its life.

What a cycle saves comes from this household's own runs: the shelf price of what
was packed, less all that it cost but the machine's wear, and less what was lost
(all of a spoiled run). It is what payback and compare say that a run earns. Its
spread from run to run shows what the answer hangs on. --saving and --per-year
stand in for runs that are not recorded yet.`

type worthMachineOptions struct {
	output
	price, residual, saving, perYear, asOf string
	cycles                                 string
}

func newWorthMachineCommand(a *app) *cobra.Command {
	o := &worthMachineOptions{}
	cmd := &cobra.Command{
		Use:   "machine --price MONEY --cycles CYCLES",
		Short: "does a machine pay, and after how many cycles?",
		Long:  worthMachineLong,
		Example: `  putby worth machine --price 2400 --cycles 800
  putby worth machine --price 2400 --residual 600 --cycles 800 --saving 7.50 --per-year 40`,
		Args: arguments(),
		RunE: func(*cobra.Command, []string) error { return runWorthMachine(a, o) },
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.StringVar(&o.price, "price", "", "`money` for the machine")
	f.StringVar(&o.residual, "residual", "", "`money` back at its end (0)")
	f.StringVar(&o.cycles, "cycles", "", "`cycles` that it is expected to run")
	f.StringVar(&o.saving, "saving", "", "`money` that a cycle saves, before wear and less losses (as the runs did)")
	f.StringVar(&o.perYear, "per-year", "", "`cycles` a year (as in the last 12 months)")
	addAsOf(f, &o.asOf)
	o.output.add(cmd)
	return cmd
}

func runWorthMachine(a *app, o *worthMachineOptions) error {
	q, err := reports.ParseMachineQuery(reports.MachineTexts{
		Price: o.price, Residual: o.residual, Cycles: o.cycles, Saving: o.saving, PerYear: o.perYear,
	})
	if err != nil {
		return err
	}
	s, err := a.stand(o.asOf)
	if err != nil {
		return err
	}
	q.AsOf = s.day
	g, err := s.wholeRuns(ledger.Options{})
	if err != nil {
		return err
	}
	d, err := reports.MachineWorth(g, q)
	if err != nil {
		return err
	}
	return a.printReport(g, d, o.output)
}
