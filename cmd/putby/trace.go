package main

import (
	"errors"
	"strings"

	"github.com/spf13/cobra"

	"putby/ledger"
	"putby/ledger/figures"
	reports "putby/ledger/report"
	"putby/pricing/exact"
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
	output
	queryFlags
	kind string
}

func newTraceCommand(a *app) *cobra.Command {
	o := &traceOptions{}
	cmd := &cobra.Command{
		Use:   "trace RECEIPT [LINE]|BATCH|RUN|PACK",
		Short: "from a receipt to every pack that holds it, and back",
		Long:  traceLong,
		Example: `  putby trace mb-240910 1
  putby trace egg-2
  putby trace c12
  putby trace c12-a --format csv --table sources`,
		Args:              between(1, 2, "a RECEIPT and maybe a LINE, a BATCH, a RUN or a PACK"),
		ValidArgsFunction: a.completeTraced,
		RunE:              func(_ *cobra.Command, args []string) error { return runTrace(a, o, args) },
	}
	o.output.add(cmd)
	f := cmd.Flags()
	addAsOf(f, &o.asOf)
	f.StringVar(&o.kind, "kind", "", "pack, run, batch or receipt, where several have the name")
	fixed(cmd, "kind", "pack", "run", "batch", "receipt")
	return cmd
}

func runTrace(a *app, o *traceOptions, args []string) error {
	s, err := a.stand(o.asOf)
	if err != nil {
		return err
	}
	g, err := s.byDay(ledger.Options{Itemize: true})
	if err != nil {
		return err
	}
	d, err := reports.Trace(g, o.traceQuery(args))
	if unknown := (*figures.UnknownError)(nil); errors.As(err, &unknown) {
		return a.unknown(unknown, "see putby receipt list, putby batch list, putby run list and putby pack list; with --as-of only records by then count")
	}
	if err != nil {
		return err
	}
	return a.printReport(g, d, o.output)
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

// completeTraced offers names of receipts, batches, runs and packs to the
// shell.
func (a *app) completeTraced(_ *cobra.Command, args []string, _ string) ([]cobra.Completion, cobra.ShellCompDirective) {
	names, directive := a.completeRunsAndPacks(nil, nil, "")
	g, err := a.load(ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
	if err != nil || len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	last := ""
	for i := range g.Receipts {
		if id := g.Receipts[i].Receipt; id != last {
			names, last = append(names, id), id
		}
	}
	for i := range g.Batches {
		names = append(names, g.Batches[i].ID)
	}
	return names, directive
}
