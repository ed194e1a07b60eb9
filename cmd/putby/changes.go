package main

import (
	"strconv"

	"github.com/spf13/cobra"

	"putby/ledger/folder"
	reports "putby/ledger/report"
)

func newChangesCommand(a *app) *cobra.Command {
	o := &output{}
	cmd := &cobra.Command{
		Use:   "changes [NUMBER]",
		Short: "list every saved change",
		Long: `List every saved change, oldest first: its time, the command that made it, and
how many lines of which files it took out and put in. With NUMBER show the lines
of that one. Undoing is a change too.`,
		Example: "  putby changes\n  putby changes 1 --format csv",
		Args:    between(0, 1, "NUMBER"),
		RunE:    func(_ *cobra.Command, args []string) error { return runChanges(a, o, args) },
	}
	o.add(cmd)
	return cmd
}

func runChanges(a *app, o *output, args []string) error {
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
			list[i].Files = append(list[i].Files, reports.ChangedFile{Name: f.Name, Removed: removed, Added: added})
		}
	}
	if len(args) == 0 {
		return a.print(reports.Changes(list), *o)
	}
	for _, c := range list {
		if strconv.Itoa(c.Number) == args[0] {
			return a.print(reports.Change(c), *o)
		}
	}
	return notFoundError{"the ledger has no change " + args[0], "putby changes, which lists them"}
}
