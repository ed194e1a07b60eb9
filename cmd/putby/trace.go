package main

import (
	"strings"
	"time"

	"github.com/spf13/cobra"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/question"
	reports "putby/ledger/report"
)

const traceLong = `Follow a receipt, a batch, a run or a pack through the records, back to what it
was made of and forward to every pack that holds it.

From a receipt, or one of its lines, it is a list for a recall: the packs with
how many containers are in store, used and given away, by way of batches too;
what was eaten fresh; and what is still in hand. From a pack it leads to its
receipts, its run, the tariff bands, and the receipts of its supplies. A line is
named after the receipt: mb-250301 2, or mb-250301:2.

The books take the oldest lot first where no load names one. In a recall do as
the maker or the food-safety authority says; in doubt do not eat it.`

type traceOptions struct {
	reportFlags
	kind string
}

func newTraceCommand(a *app) *cobra.Command {
	o := &traceOptions{}
	return newReportCommand(a, &cobra.Command{
		Use:   "trace RECEIPT [LINE]|BATCH|RUN|PACK",
		Short: "from a receipt to every pack that holds it, and back",
		Long:  traceLong,
		Example: `  putby trace mb-240910 1
  putby trace egg-2
  putby trace c12
  putby trace c12-a --format csv --table sources`,
		Args:              between(1, 2, "a RECEIPT and maybe a LINE, a BATCH, a RUN or a PACK"),
		ValidArgsFunction: a.completeFirst(ledger.Runs, ledger.Packs, ledger.Receipts, ledger.Batches),
	}, reporting{on: &o.reportFlags, join: ledger.Options{Itemize: true}, flags: o.flags,
		hint: "see putby receipt list, putby batch list, putby run list and putby pack list; with --as-of only records by then count",
		ask: func(_ time.Time, args []string) (answer, error) {
			return func(_ *standing, g *ledger.Ledger) (reports.Doc, error) { return question.Trace(g, o.traceQuery(args)) }, nil
		}})
}

func (o *traceOptions) flags(cmd *cobra.Command) {
	addAsOf(cmd.Flags(), &o.asOf)
	cmd.Flags().StringVar(&o.kind, "kind", "", "the `kind`, where several have the name: "+ledger.Either(figures.TraceKinds()))
	fixed(cmd, "kind", figures.TraceKinds()...)
}

// traceQuery reads the name, with its line after a space or a colon.
func (o *traceOptions) traceQuery(args []string) figures.TraceQuery {
	q := figures.TraceQuery{Kind: o.kind}
	q.Name, q.Line, _ = strings.Cut(args[0], ":")
	if len(args) == 2 {
		q.Name, q.Line = args[0], args[1]
	}
	return q
}
