package main

import (
	"time"

	"github.com/spf13/cobra"

	"putby/ledger/figures"
	"putby/ledger/question"
)

const paybackLong = `Show what the machine has earned back so far, month by month, and when at this
pace it is paid for.

A month earns what was saved when food was used from packs, less all that was
lost, spoiled or missing; the wear inside those costs is added back, since wear
is the machine's own price handed on. That stands against what the machine and
its repairs cost, less what it brings at its end.

Where there are several machines they are taken together, and a table says of
each what it has earned of its own price; --machine asks about one alone.

Everything about the future is an estimate and marked so: the pace is the mean
of the last whole months since the machine came, three at least and twelve at
most, and its range holds in 95 cases of 100 if the months to come are like
those. A month without records earned nothing, and counts.

What a run earns, by food, is the same figure as in compare and worth machine:
once all is used, less losses, before wear. Where foods shared a run, each counts
for its share of it, so that the figure is that of a whole run of one food.`

func newPaybackCommand(a *app) *cobra.Command {
	o, machine := &reportFlags{}, ""
	flags := func(cmd *cobra.Command) {
		o.queryFlags.add(cmd)
		cmd.Flags().StringVar(&machine, "machine", "", "only what this `machine` dried, against its own price")
	}
	return newReportCommand(a, &cobra.Command{
		Use:   "payback",
		Short: "what the machine has earned back, and when it is paid for",
		Long:  paybackLong,
		Example: `  putby payback
  putby payback --chart
  putby payback --machine rimewell
  putby payback --as-of 2025-06-30
  putby payback --item leek-soup --format csv --table rows`,
		Args: arguments(),
	}, reporting{on: o, chart: true, many: true, flags: flags, ask: asking(func(now time.Time, _ []string) (figures.PaybackQuery, error) {
		q, err := o.part(now)
		return figures.PaybackQuery{Query: q, Machine: machine}, err
	}, question.Payback)})
}
