package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"putby/ledger"
	"putby/ledger/folder"
	reports "putby/ledger/report"
)

func newListCommand(a *app, k ledger.Kind) *cobra.Command {
	o := &output{}
	cmd := &cobra.Command{
		Use:   "list [COLUMN=VALUE...]",
		Short: "list them, as the file has them",
		Long: fmt.Sprintf("List the records of %s in file order, with the line at which each begins.\n"+
			"COLUMN=VALUE keeps those whose cell holds VALUE.", k.File),
		Example: "  putby " + k.Name + " list",
		RunE:    func(_ *cobra.Command, args []string) error { return runList(a, k, o, args) },
	}
	o.add(cmd)
	return cmd
}

func runList(a *app, k ledger.Kind, o *output, args []string) error {
	keep, err := parseCells(k, args)
	if err != nil {
		return err
	}
	rows, err := folder.Rows(a.ledgerDir(), k)
	if err != nil {
		return err
	}
	rows = slices.DeleteFunc(rows, func(r folder.Row) bool {
		for column, value := range keep {
			if r.Cells[column] != value {
				return true
			}
		}
		return false
	})
	return a.print(reports.Records(k, rowCells(rows)), *o)
}

// rowCells gives the rows the form that reports take.
func rowCells(rows []folder.Row) []reports.RecordRow {
	list := make([]reports.RecordRow, len(rows))
	for i, r := range rows {
		list[i] = reports.RecordRow(r)
	}
	return list
}

// parseCells reads COLUMN=VALUE arguments.
func parseCells(k ledger.Kind, args []string) (map[string]string, error) {
	cells := map[string]string{}
	for _, arg := range args {
		column, value, found := strings.Cut(arg, "=")
		if !found || !k.Has(column) {
			return nil, nearError{fmt.Sprintf("%q is not COLUMN=VALUE with a column of %s", arg, k.File), columnHint(k, column)}
		}
		cells[column] = value
	}
	return cells, nil
}

// columnHint says which column was probably meant, or which there are.
func columnHint(k ledger.Kind, column string) string {
	if near := ledger.Nearest(column, k.Header()); near != "" {
		return near + "=VALUE"
	}
	return "its columns are " + strings.Join(k.Header(), " ")
}
