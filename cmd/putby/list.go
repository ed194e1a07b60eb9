package main

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
	reports "putby/ledger/report"
)

func newListCommand(a *app, k ledger.Kind) *cobra.Command {
	return newReportCommand(a, &cobra.Command{
		Use:   "list [COLUMN=VALUE...]",
		Short: "list them, as the file has them",
		Long: fmt.Sprintf("List the records of %s in file order, with the line at which each begins.\n"+
			"COLUMN=VALUE keeps those whose cell holds VALUE.", k.File),
		Example: "  putby " + k.Name + " list",
	}, reporting{on: &reportFlags{}, look: func(args []string) (reports.Doc, error) { return a.list(k, args) }})
}

// list shows the records of a kind, or those of them whose cells are as wanted.
func (a *app) list(k ledger.Kind, args []string) (d reports.Doc, err error) {
	keep, err := entry.ParseCells(k, args)
	if err != nil {
		return d, err
	}
	rows, err := folder.Rows(a.ledgerDir(), k)
	if err != nil {
		return d, err
	}
	rec := &ledger.Records{Settings: folder.SettingsOf(a.ledgerDir())}
	rec.Settings.Zone = cmp.Or(rec.Settings.Zone, time.UTC) // what is wrong with the settings is no concern of lists
	typed, err := a.at(rec).ReadCells(rec, k, keep)
	if err != nil {
		return d, err
	}
	all := len(rows)
	rows = slices.DeleteFunc(rows, func(r folder.Row) bool {
		for column, value := range keep {
			if r.Cells[column] != value && r.Cells[column] != typed[column] {
				return true
			}
		}
		return false
	})
	return reports.Records(k, rowCells(rows), all, rec.Settings.Show()), nil
}

// rowCells gives the rows the form that reports take.
func rowCells(rows []folder.Row) []reports.RecordRow {
	list := make([]reports.RecordRow, len(rows))
	for i, r := range rows {
		list[i] = reports.RecordRow(r)
	}
	return list
}
