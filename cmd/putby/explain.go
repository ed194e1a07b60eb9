package main

import (
	"time"

	"github.com/spf13/cobra"

	"putby/ledger"
	reports "putby/ledger/report"
)

const explainLong = `Take the cost of a run or a pack apart: from the receipt lines it drew on, the
tariff bands its electricity fell in, the wear, the supplies and the labour, by
way of each load's share, to the cost per unit. Every step names the file and
line of the record behind it.`

func newExplainCommand(a *app) *cobra.Command {
	o := &reportFlags{}
	return newReportCommand(a, &cobra.Command{
		Use:               "explain RUN|PACK",
		Short:             "what the cost of a run or a pack is made of",
		Long:              explainLong,
		Example:           "  putby explain c10\n  putby explain c10-a --format json",
		Args:              arguments("RUN|PACK"),
		ValidArgsFunction: a.completeFirst(ledger.Runs, ledger.Packs),
	}, reporting{
		on: o, whole: true, join: ledger.Options{Itemize: true}, closed: true, // of one run, whatever is later
		hint:  "putby run list and putby pack list show what there is",
		flags: func(cmd *cobra.Command) { addAsOf(cmd.Flags(), &o.asOf) },
		ask: func(_ time.Time, args []string) (answer, error) {
			return func(_ *standing, g *ledger.Ledger) (reports.Doc, error) { return reports.Explain(g, args[0]) }, nil
		},
	})
}
