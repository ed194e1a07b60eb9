package main

import "github.com/spf13/cobra"

// newTariffCommand is the command of tariffs: like all records, check and
// import.
func newTariffCommand(a *app) *cobra.Command {
	cmd := newRecordCommand(a, "tariff", nil)
	cmd.AddCommand(newTariffCheckCommand(a), newTariffImportCommand(a))
	return cmd
}

// completeTariffs offers the names of tariffs to the shell.
func (a *app) completeTariffs(*cobra.Command, []string, string) ([]cobra.Completion, cobra.ShellCompDirective) {
	rec, _, err := a.readPrices()
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return rec.TariffNames(), cobra.ShellCompDirectiveNoFileComp
}
