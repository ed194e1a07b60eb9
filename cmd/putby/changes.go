package main

import (
	"time"

	"github.com/spf13/cobra"

	"putby/ledger/folder"
	reports "putby/ledger/report"
)

func newChangesCommand(a *app) *cobra.Command {
	last := 0
	return newReportCommand(a, &cobra.Command{
		Use:   "changes [NUMBER]",
		Short: "list every saved change",
		Long: `List every saved change, oldest first: its time, the command that made it, and
how many lines of which files it took out and put in. With NUMBER show the lines
of that one. Undoing is a change too.`,
		Example: "  putby changes --last 5\n  putby changes 1 --format csv",
		Args:    between(0, 1, "NUMBER"),
	}, reporting{on: &reportFlags{}, look: func(args []string) (reports.Doc, error) { return a.changes(args, last) },
		flags: func(cmd *cobra.Command) {
			cmd.Flags().IntVar(&last, "last", 0, "list only the last, this `number` of them (all)")
		}})
}

// changes shows one change, or lists them.
func (a *app) changes(args []string, last int) (d reports.Doc, err error) {
	number, err := changeNumber(args)
	switch {
	case err != nil:
		return d, err
	case last < 0 || last > 0 && number > 0:
		return d, misused("--last is how many changes to list, such as 5, and goes without NUMBER")
	}
	rec, _, err := folder.Read(a.ledgerDir())
	if err != nil {
		return d, err
	}
	rec.Settings.Wording = commands{}
	if number > 0 {
		c, err := folder.ChangeOf(a.ledgerDir(), number)
		switch {
		case err != nil:
			return d, err
		case c == nil:
			return d, notFound("the ledger has no change "+args[0], "putby changes, which lists them")
		}
		return reports.Change(changeRow(*c, rec.Settings.Zone)), nil
	}
	changes, err := folder.LastChanges(a.ledgerDir(), last)
	list := make([]reports.ChangeRow, len(changes))
	for i, c := range changes {
		list[i] = changeRow(c, rec.Settings.Zone)
	}
	return reports.Changes(list, rec.Settings.Show()), err
}

// changeRow is a change as it is shown.
func changeRow(c folder.Change, zone *time.Location) reports.ChangeRow {
	row := reports.ChangeRow{Number: c.Number, Time: c.Time.In(zone), Kind: c.Kind, Of: c.Of, Command: c.Command}
	if c.Kind == folder.Damaged {
		row.Damaged = folder.FileOf(c)
	}
	for _, f := range c.Files {
		removed, added := f.Lines()
		row.Files = append(row.Files, reports.ChangedFile{Name: f.Name, Removed: removed, Added: added})
	}
	return row
}
