package main

import (
	"github.com/spf13/cobra"

	"putby/ledger/folder"
	reports "putby/ledger/report"
)

func newChangesCommand(a *app) *cobra.Command {
	o := &output{}
	cmd := &cobra.Command{
		Use:   "changes",
		Short: "list every saved change",
		Long: "List every saved change, oldest first: its time, the command that made it, and the files with the lines " +
			"taken out and put in. Undoing is a change too.",
		Example: "  putby changes",
		Args:    arguments(),
		RunE:    func(*cobra.Command, []string) error { return runChanges(a, o) },
	}
	o.add(cmd)
	return cmd
}

func runChanges(a *app, o *output) error {
	changes, err := folder.Changes(a.ledgerDir())
	if err != nil {
		return err
	}
	rec, _, err := folder.Read(a.ledgerDir())
	if err != nil {
		return err
	}
	list := make([]reports.ChangeRow, len(changes))
	for i, c := range changes {
		list[i] = reports.ChangeRow{Number: c.Number, Time: c.Time.In(rec.Settings.Zone), Kind: c.Kind, Of: c.Of, Command: c.Command}
		for _, f := range c.Files {
			removed, added := f.Lines()
			list[i].Files = append(list[i].Files, reports.ChangedFile{Name: f.Name, Removed: len(removed), Added: len(added)})
		}
	}
	return a.print(reports.Changes(list), *o)
}
