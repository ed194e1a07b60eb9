package main

import (
	"time"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/render"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/question"
	reports "putby/ledger/report"
)

const costLong = `Show what each run's food cost in all, per unit once water is added again,
beside what the shop asked for the same amount.

A row is one food of one run, or with --by a sum of such rows. "total" is what
the good food cost; "lost" stands beside it, never inside. The shelf price is
the regular one of the run's day. --without leaves elements out everywhere, for
what one more run costs a household that owns the machine anyway.`

type costOptions struct {
	reportFlags
	costView
	by string
}

func newCostCommand(a *app) *cobra.Command {
	o := &costOptions{}
	return newReportCommand(a, &cobra.Command{
		Use:   "cost",
		Short: "what each run's food cost per unit, beside the shelf price",
		Long:  costLong,
		Example: `  putby cost
  putby cost --by food
  putby cost --item chicken-broth --from 2025-01-01
  putby cost --without wear,labour --format csv
  putby cost --households co-op --by household`,
		Args: arguments(),
	}, reporting{on: &o.reportFlags, chart: true, many: true, by: &o.by, whole: true, join: ledger.Options{Bare: true}, flags: o.flags, ask: asking(o.query, question.Asked(o.report))})
}

func (o *costOptions) flags(cmd *cobra.Command) {
	o.queryFlags.add(cmd)
	cmd.Flags().StringVar(&o.by, "by", "run", "a row for each `kind`: run, food, month or machine; with --households also household")
	o.costView.add(cmd)
	fixed(cmd, "by", "run", "food", "month", "machine", byHousehold)
}

// report has for machines what is known of runs that are not packed, too.
func (o *costOptions) report(g *ledger.Ledger, q figures.CostQuery) (reports.Doc, error) {
	return reports.Cost(g, q, o.format == render.CSV.String() || o.format == render.JSON.String())
}

// query reads the flags.
func (o *costOptions) query(now time.Time, _ []string) (q figures.CostQuery, err error) {
	if q.Query, err = o.part(now); err != nil {
		return q, err
	}
	if q.By, err = question.ParseBy(o.by); err != nil {
		return q, err
	}
	q.Without, q.Against, err = o.costView.read()
	return q, err
}
