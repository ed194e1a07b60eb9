package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
	reports "putby/ledger/report"
)

func newShowCommand(a *app, k ledger.Kind) *cobra.Command {
	return newReportCommand(a, &cobra.Command{
		Use:     "show NAME",
		Short:   "show one, with what belongs to it",
		Long:    "Show one record with those of other files that name it. NAME is its identifier, IDENTIFIER:PART where two columns identify it (a receipt's line), or @LINE of its file.",
		Example: "  putby " + k.Name + " show @2",
		Args:    arguments("NAME"),

		ValidArgsFunction: a.completeOwn(k),
	}, reporting{on: &reportFlags{}, look: func(args []string) (reports.Doc, error) { return a.show(k, args[0]) }})
}

// show shows the records that a name tells: of one alone what belongs to it, too.
func (a *app) show(k ledger.Kind, text string) (d reports.Doc, err error) {
	rows, err := folder.Rows(a.ledgerDir(), k)
	if err != nil {
		return d, err
	}
	found, err := entry.RecordsNamed(k, entry.RecordsOf(rows), text)
	if err != nil {
		return d, err
	}
	shown := make([]folder.Row, len(found))
	for i, r := range found {
		shown[i] = rows[r.At]
	}
	if len(shown) > 1 {
		return reports.Records(k, rowCells(shown), len(shown), reports.Show{}), nil
	}
	others, err := a.belonging(k, shown[0])
	return reports.Record(k, reports.RecordRow(shown[0]), others), err
}

// belonging finds the records of other kinds that name this one in a column of
// its kind's name.
func (a *app) belonging(k ledger.Kind, r folder.Row) ([]reports.Field, error) {
	if len(k.Key) != 1 {
		return nil, nil
	}
	id := r.Cells[k.Key[0]]
	var fields []reports.Field
	for _, other := range ledger.Kinds() {
		if other.Name == k.Name || !other.Has(k.Key[0]) {
			continue
		}
		rows, err := folder.Rows(a.ledgerDir(), other)
		if err != nil {
			return nil, err
		}
		mine := slices.DeleteFunc(rows, func(o folder.Row) bool { return o.Cells[k.Key[0]] != id })
		if len(mine) > 0 {
			fields = append(fields, reports.Field{Key: strings.TrimSuffix(other.File, ".csv"), Title: other.File, Node: reports.Records(other, rowCells(mine), len(mine), reports.Show{}).Fields[0].Node})
		}
	}
	return fields, nil
}
