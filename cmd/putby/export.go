package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/export"
	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/tables"
	"putby/pricing/exact"
)

const exportLong = `Write the ledger into DIR as flat tables, for programs that answer questions in
SQL: what was bought, lots, runs, what each food of a run cost, packs, what was
taken out, months and shelf prices, each a CSV file with a column household.

DIR gets schema.sql too: the tables with their keys, what each column is and its
unit, and the views cost_by_item, cost_by_month, cost_by_machine, month and
compare, which give the reports again to the last digit. To load it all into an
empty database, in DIR:

  psql -v ON_ERROR_STOP=1 -d DATABASE -f load-postgresql.sql
  duckdb DATABASE < load-duckdb.sql

DIR is there whole or not at all. One that holds an earlier export is refused
without --force, one that holds anything else always. A number with more digits
than its column takes is refused, never cut. Texts stand as they were typed, so
that they load as they are: do not open these files in a spreadsheet, which could
take a text that begins with = for a formula. Take the CSV of a report for that.`

type exportOptions struct {
	asOf  string
	force bool
}

func newExportCommand(a *app) *cobra.Command {
	o := &exportOptions{}
	cmd := &cobra.Command{
		Use:   "export DIR",
		Short: "all that is known as tables, for a database",
		Long:  exportLong,
		Example: `  putby export tables
  putby export tables --force --as-of 2025-06-30`,
		Args: arguments("DIR"),
		RunE: func(cmd *cobra.Command, args []string) error { return runExport(cmd.Context(), a, o, args[0]) },
	}
	f := cmd.Flags()
	f.StringVar(&o.asOf, "as-of", "", "leave out what was recorded for days after this `date`")
	f.BoolVar(&o.force, "force", false, "replace an earlier export in DIR")
	return cmd
}

func runExport(ctx context.Context, a *app, o *exportOptions, dir string) error {
	if err := a.mayExport(dir, o.force); err != nil {
		return err
	}
	s, err := a.stand(o.asOf)
	if err != nil {
		return err
	}
	home, err := filepath.Abs(s.dir)
	if err != nil {
		return err
	}
	h, err := s.tables(filepath.Base(home))
	if err != nil {
		return err
	}
	w, err := a.exportTo(ctx, dir, o.force, func(w *export.Writer) error { return w.Add(h) })
	if err != nil {
		return err
	}
	fmt.Fprintf(a.stdout, "%d tables with %d rows are in %s.\nNext: in that folder, psql -d DATABASE -f %s or duckdb DATABASE < %s\n",
		w.Tables(), w.Rows, printable(dir), export.PostgreSQLFile, export.DuckDBFile)
	return nil
}

// tables joins the ledger for its tables.
func (s *standing) tables(name string) (*tables.Household, error) {
	g, err := s.byDay(ledger.Options{Brief: true})
	if err != nil {
		return nil, err
	}
	whole := g
	if len(s.rec.After(s.day)) > 0 {
		if whole, err = s.wholeRuns(ledger.Options{Brief: true}); err != nil {
			return nil, err
		}
	}
	return tables.Of(name, g, whole)
}

// mayExport refuses a folder that an export must not take the place of.
func (a *app) mayExport(dir string, replace bool) error {
	if a.isRecord(dir) {
		return usageError{fmt.Errorf("%s is a place where the ledger keeps its records: write somewhere else", exact.Quote(dir))}
	}
	known, err := export.Known(dir)
	if full := (*export.FullError)(nil); errors.As(err, &full) {
		return usageError{fmt.Errorf("%w: name a folder that is not there yet", full)}
	}
	if err != nil {
		return fmt.Errorf("%s cannot be written: %w", exact.Quote(dir), folder.Cause(err))
	}
	if known && !replace {
		return usageError{fmt.Errorf("%s holds an earlier export: --force replaces it", exact.Quote(dir))}
	}
	return nil
}

// exportTo makes a folder of what is written; it is there whole or, on any error,
// as it was. An interruption ends it.
func (a *app) exportTo(ctx context.Context, dir string, replace bool, write func(*export.Writer) error) (*export.Writer, error) {
	out, err := folder.MakeOutside(dir)
	if err != nil {
		return nil, notExported(dir, err)
	}
	defer out.Discard()
	w, err := export.New(out.Dir)
	if err != nil {
		return nil, notExported(dir, err)
	}
	if err := errors.Join(write(w), w.Close()); err != nil {
		return nil, notExported(dir, err)
	}
	err = a.saves.do(func() (counted, error) {
		if err := out.Place(replace); err != nil {
			return counted{}, err
		}
		return counted{exact.Quote(dir) + " is written", "it is there whole"}, nil
	})
	if err != nil {
		return nil, notExported(dir, err)
	}
	return w, nil
}

func notExported(dir string, err error) error {
	return fmt.Errorf("%s was not written: %w", exact.Quote(dir), folder.Cause(err))
}
