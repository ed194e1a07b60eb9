package main

import (
	"io"
	"time"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/question"
	reports "putby/ledger/report"
)

const labelsLong = `Make labels for packs, one for each container: what it is, which container of
how many, when it was packed and until when it is best, how much water to add,
and the food's caution.

Without PACK and dates they are for the last packing day. The water is the
weight of what a container gives less its dry weight; where that cannot be
known, the label says what is missing.

--format html is a sheet to print and cut, or to print on sheets of stickers:
large cuts it in 8, medium in 12, small in 24. Print at 100 %, without
margins of the printer's own. A caution is never cut: if it does not fit, a
larger size is asked for.`

type labelsOptions struct {
	reportFlags
	toFile
	page.LabelOptions
	left   bool
	labels reports.Told[[]reports.Label] // laid out
}

func newLabelsCommand(a *app) *cobra.Command {
	o := &labelsOptions{}
	return newReportCommand(a, &cobra.Command{
		Use:   "labels [PACK...]",
		Short: "labels for packs, to print",
		Long:  labelsLong,
		Example: `  putby labels
  putby labels --format html -o labels.html
  putby labels c40-a --format html --size small --paper letter -o small.html
  putby labels --from 2025-09-01 --to 2025-09-30 --left --format csv`,
		ValidArgsFunction: a.completeThings(ledger.Packs),
	}, reporting{on: &o.reportFlags, flags: o.flags, hint: "putby pack list", closed: true, file: &o.toFile, html: o.write,
		ask: asking(o.query, o.lay)})
}

func (o *labelsOptions) flags(cmd *cobra.Command) {
	o.toFile.add(cmd, "the labels")
	f := cmd.Flags()
	f.StringVar(&o.from, "from", "", "packs of this `date` and later")
	f.StringVar(&o.to, "to", "", "packs of this `date` and earlier")
	f.StringVar(&o.item, "item", "", "only this `food`")
	addAsOf(f, &o.asOf)
	f.BoolVar(&o.left, "left", false, "only containers that are still in store")
	f.StringVar(&o.Paper, "paper", "a4", "with html: the `paper`, a4 or letter")
	f.StringVar(&o.Size, "size", "large", "with html: the `size` of a label: large, medium or small")
	f.IntVar(&o.Skip, "skip", 0, "with html: `places` of the first sheet that are used already")
	fixed(cmd, "paper", page.Papers()...)
	fixed(cmd, "size", page.Sizes()...)
}

// query reads the flags.
func (o *labelsOptions) query(now time.Time, packs []string) (q figures.LabelQuery, err error) {
	q.Packs, q.Left = packs, o.left
	q.Query, err = o.part(now)
	return q, err
}

// lay lays the labels out, and keeps them for a sheet.
func (o *labelsOptions) lay(g *ledger.Ledger, q figures.LabelQuery) (d reports.Doc, err error) {
	o.labels, err = question.Asked(reports.Labels)(g, q)
	return o.labels.Doc, err
}

func (o *labelsOptions) write(w io.Writer, _ reports.Doc) error {
	if o.labels.Figures == nil {
		return notFound("there is no pack to label", "putby labels shows what there is to label")
	}
	return page.WriteLabels(w, o.labels, o.LabelOptions)
}
