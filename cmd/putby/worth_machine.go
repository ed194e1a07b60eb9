package main

import (
	"time"

	"github.com/spf13/cobra"

	"putby/ledger"
	"putby/ledger/question"
	reports "putby/ledger/report"
)

const worthMachineLong = `Say how many runs it takes until a machine has paid for itself, and whether
that is within its life.

What a run saves comes from this household's own runs: the shelf price of what
was packed, less all that it cost but the machine's wear, and less what was lost
(all of a spoiled run). It is what payback and compare say that a run earns. Its
spread from run to run shows what the answer hangs on. --saving and --per-year
stand in for runs that are not recorded yet.`

type worthMachineOptions struct {
	reportFlags
	question.MachineTexts
}

func newWorthMachineCommand(a *app) *cobra.Command {
	o := &worthMachineOptions{}
	return newReportCommand(a, &cobra.Command{
		Use:   "machine --price MONEY --cycles CYCLES",
		Short: "does a machine pay, and after how many runs?",
		Long:  worthMachineLong,
		Example: `  putby worth machine --price 2400 --cycles 800
  putby worth machine --price 2400 --residual 600 --cycles 800 --saving 7.50 --per-year 40`,
		Args: arguments(),
	}, reporting{on: &o.reportFlags, whole: true, flags: o.flags, ask: o.ask})
}

func (o *worthMachineOptions) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.SortFlags = false
	f.StringVar(&o.Price, "price", "", "`money` for the machine")
	f.StringVar(&o.Residual, "residual", "", "`money` back at its end (0)")
	f.StringVar(&o.Cycles, "cycles", "", "`cycles` that it is expected to last")
	f.StringVar(&o.Saving, "saving", "", "`money` that a run saves, before wear and less losses (as the runs did)")
	f.StringVar(&o.PerYear, "per-year", "", "`runs` a year (as in the last 12 months)")
	addAsOf(f, &o.asOf)
}

func (o *worthMachineOptions) ask(time.Time, []string) (answer, error) {
	q, err := question.ParseMachineQuery(o.MachineTexts)
	return func(s *standing, g *ledger.Ledger) (reports.Doc, error) {
		q.AsOf = s.day
		return question.Machine(g, q)
	}, err
}
