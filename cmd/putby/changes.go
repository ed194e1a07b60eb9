package main

import (
	"errors"
	"time"

	"github.com/spf13/cobra"

	"putby/ledger/folder"
	reports "putby/ledger/report"
)

type changesOptions struct {
	output
	last int
}

func newChangesCommand(a *app) *cobra.Command {
	o := &changesOptions{}
	cmd := &cobra.Command{
		Use:   "changes [NUMBER]",
		Short: "list every saved change",
		Long: `List every saved change, oldest first: its time, the command that made it, and
how many lines of which files it took out and put in. With NUMBER show the lines
of that one. Undoing is a change too.`,
		Example: "  putby changes --last 5\n  putby changes 1 --format csv",
		Args:    between(0, 1, "NUMBER"),
		RunE:    func(_ *cobra.Command, args []string) error { return runChanges(a, o, args) },
	}
	o.output.add(cmd)
	cmd.Flags().IntVar(&o.last, "last", 0, "list the last so `many` alone (all)")
	return cmd
}

func runChanges(a *app, o *changesOptions, args []string) error {
	number, err := changeNumber(args)
	switch {
	case err != nil:
		return err
	case o.last < 0 || o.last > 0 && number > 0:
		return usageError{errors.New("--last is how many changes to list, such as 5, and goes without NUMBER")}
	}
	rec, _, err := folder.Read(a.ledgerDir())
	if err != nil {
		return err
	}
	if number > 0 {
		c, err := folder.ChangeOf(a.ledgerDir(), number)
		if err != nil {
			return err
		}
		if c == nil {
			return notFoundError{"the ledger has no change " + args[0], "putby changes, which lists them"}
		}
		return a.print(reports.Change(changeRow(*c, rec.Settings.Zone)), o.output)
	}
	changes, err := folder.LastChanges(a.ledgerDir(), o.last)
	if err != nil {
		return err
	}
	list := make([]reports.ChangeRow, len(changes))
	for i, c := range changes {
		list[i] = changeRow(c, rec.Settings.Zone)
	}
	return a.print(reports.Changes(list, rec.Settings.Show()), o.output)
}

// changeRow is a change as it is shown.
func changeRow(c folder.Change, zone *time.Location) reports.ChangeRow {
	row := reports.ChangeRow{Number: c.Number, Time: c.Time.In(zone), Kind: c.Kind, Of: c.Of, Command: c.Command}
	for _, f := range c.Files {
		removed, added := f.Lines()
		row.Files = append(row.Files, reports.ChangedFile{Name: f.Name, Removed: removed, Added: added})
	}
	return row
}
