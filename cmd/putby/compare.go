package main

import (
	"time"

	"github.com/spf13/cobra"

	"putby/ledger/figures"
	"putby/ledger/question"
	reports "putby/ledger/report"
)

const compareLong = `Set foods side by side: what each cost per litre, kilogram or piece once water
is added again, per serving, per 1000 kcal and per 100 g of protein, taken apart
into food, electricity, supplies, wear and labour, beside what the shelf asked.

Litres and kilograms do not compare: a ranking by a figure of those ranks each
unit by itself. Servings, kcal and protein come from foods.csv, by way of the
density or the weight of a piece; what the record lacks, the notes say.

The spread shows the cheapest, the middle and the dearest run; the standard
deviation is an estimate. What a whole run of a food earns once all is used, less
losses and before wear, is the same figure as in payback and worth machine; where
foods shared a run, each counts for its share of it.`

type compareOptions struct {
	reportFlags
	costView
	rank  string
	worst bool
}

func newCompareCommand(a *app) *cobra.Command {
	o := &compareOptions{}
	return newReportCommand(a, &cobra.Command{
		Use:   "compare",
		Short: "foods side by side: per litre, per serving, per 1000 kcal",
		Long:  compareLong,
		Example: `  putby compare
  putby compare --rank per_1000_kcal --chart
  putby compare --rank saving --worst
  putby compare --rank per_run
  putby compare --without wear,labour --against preserved
  putby compare --from 2025-01-01 --format csv --table spread`,
		Args: arguments(),
	}, reporting{on: &o.reportFlags, chart: true, many: true, whole: true, flags: o.flags, ask: asking(o.query, question.Asked(reports.Compare))})
}

func (o *compareOptions) flags(cmd *cobra.Command) {
	o.queryFlags.add(cmd)
	o.costView.add(cmd)
	f := cmd.Flags()
	f.StringVar(&o.rank, "rank", "per_unit", "rank by this `column`, the best first")
	f.BoolVar(&o.worst, "worst", false, "the worst first")
	fixed(cmd, "rank", reports.RankKeys()...)
}

// query reads the flags.
func (o *compareOptions) query(now time.Time, _ []string) (q figures.CompareQuery, err error) {
	q.Worst = o.worst
	if q.Query, err = o.part(now); err != nil {
		return q, err
	}
	if q.Rank, err = question.ParseRank(o.rank); err != nil {
		return q, err
	}
	q.Without, q.Against, err = o.costView.read()
	return q, err
}
