package main

import (
	"time"

	"github.com/spf13/cobra"

	"putby/ledger"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

const explainLong = `Take the cost of a run or a pack apart: from the receipt lines it drew on, the
tariff bands its electricity fell in, the wear, the supplies and the labour, by
way of each load's share, to the cost per unit. Every step names the file and
line of the record behind it.`

type explainOptions struct {
	output
	asOf string
}

func newExplainCommand(a *app) *cobra.Command {
	o := &explainOptions{}
	return newReportCommand(a, &cobra.Command{
		Use:               "explain RUN|PACK",
		Short:             "how the cost of a run or a pack comes about",
		Long:              explainLong,
		Example:           "  putby explain c10\n  putby explain c10-a --format json",
		Args:              arguments("RUN|PACK"),
		ValidArgsFunction: a.completeRunsAndPacks,
	}, reporting{
		out: &o.output, asOf: &o.asOf, whole: true, join: ledger.Options{Itemize: true},
		flags: func(cmd *cobra.Command) { addAsOf(cmd.Flags(), &o.asOf) },
		ask: func(_ time.Time, args []string) (answer, error) {
			return func(_ *standing, g *ledger.Ledger) (reports.Doc, error) {
				d, err := reports.Explain(g, args[0])
				return d, a.unknown(err, "runs are in "+ledger.RunsFile+", packs in "+ledger.PacksFile)
			}, nil
		},
		write: func(_ *ledger.Ledger, d reports.Doc) error { return a.print(d, o.output) }, // of one run, whatever is later
	})
}

// completeRunsAndPacks offers the names of runs and packs to the shell.
func (a *app) completeRunsAndPacks(*cobra.Command, []string, string) ([]cobra.Completion, cobra.ShellCompDirective) {
	g, err := a.load(ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	var names []cobra.Completion
	for i := range g.Records.Runs {
		names = append(names, g.Records.Runs[i].ID)
	}
	for i := range g.Records.Packs.Len() {
		names = append(names, g.Records.Packs.At(i).ID)
	}
	return names, cobra.ShellCompDirectiveNoFileComp
}
