package main

import (
	"errors"

	"github.com/spf13/cobra"

	"putby/ledger"
	"putby/ledger/figures"
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
	cmd := &cobra.Command{
		Use:               "explain RUN|PACK",
		Short:             "how the cost of a run or a pack comes about",
		Long:              explainLong,
		Example:           "  putby explain c10\n  putby explain c10-a --format json",
		Args:              arguments("RUN|PACK"),
		ValidArgsFunction: a.completeRunsAndPacks,
		RunE:              func(_ *cobra.Command, args []string) error { return runExplain(a, o, args[0]) },
	}
	o.output.add(cmd)
	addAsOf(cmd.Flags(), &o.asOf)
	return cmd
}

func runExplain(a *app, o *explainOptions, name string) error {
	s, err := a.stand(o.asOf)
	if err != nil {
		return err
	}
	g, err := s.wholeRuns(ledger.Options{Itemize: true})
	if err != nil {
		return err
	}
	d, err := reports.Explain(g, name)
	if unknown := (*figures.UnknownError)(nil); errors.As(err, &unknown) {
		return a.unknown(unknown, "runs are in "+ledger.RunsFile+", packs in "+ledger.PacksFile)
	}
	if err != nil {
		return err
	}
	return a.print(d, o.output)
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
	for i := range g.Records.Packs {
		names = append(names, g.Records.Packs[i].ID)
	}
	return names, cobra.ShellCompDirectiveNoFileComp
}
