package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"

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

With --households the tables hold every ledger in that folder, by the names of
their folders; a ledger with faults is named and left out, and the exit status is
3. Memory does not grow with their number. Never add up money of households with
different currencies, which the table households names.

DIR gets schema.sql too: the tables with their keys, what each column is and its
unit, and the views cost_by_item, cost_by_month, cost_by_machine, month and
compare, which give the reports again to the last digit. To load it all into an
empty database, in DIR:

  psql -v ON_ERROR_STOP=1 -d DATABASE -f load-postgresql.sql
  duckdb DATABASE < load-duckdb.sql

--format parquet writes typed files for larger engines instead, one for each
household and year in folders that name them (runs/household=NAME/year=2025):
decimals are exact in them too. PostgreSQL does not read those.

DIR is there whole or not at all. One that holds an earlier export is refused
without --force, one that holds anything else always. A number with more digits
than its column takes is refused, never cut. Texts stand as they were typed, so
that they load as they are: do not open these files in a spreadsheet, which could
take a text that begins with = for a formula. Take the CSV of a report for that.`

type exportOptions struct {
	format     string
	households string
	asOf       string
	force      bool
}

func newExportCommand(a *app) *cobra.Command {
	o := &exportOptions{}
	cmd := &cobra.Command{
		Use:   "export DIR",
		Short: "all that is known as tables, for a database",
		Long:  exportLong,
		Example: `  putby export tables
  putby export columns --format parquet
  putby export tables --force --as-of 2025-06-30`,
		Args: arguments("DIR"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if o.households != "" && cmd.Flags().Changed("ledger") {
				return errOneOrMany
			}
			return runExport(cmd.Context(), a, o, args[0])
		},
	}
	f := cmd.Flags()
	f.StringVarP(&o.format, "format", "f", export.Formats[0], "`format`: csv or parquet")
	fixed(cmd, "format", export.Formats...)
	f.StringVar(&o.households, "households", "", "of all ledgers in this `folder`, each a folder of its own")
	_ = cmd.MarkFlagDirname("households")
	f.StringVar(&o.asOf, "as-of", "", "leave out what was recorded for days after this `date`")
	f.BoolVar(&o.force, "force", false, "replace an earlier export in DIR")
	return cmd
}

func runExport(ctx context.Context, a *app, o *exportOptions, dir string) error {
	format := slices.Index(export.Formats, o.format)
	if format < 0 {
		return misused("--format: %s is not a format of tables: csv or parquet", exact.Quote(o.format))
	}
	if err := a.mayExport(dir, o.force); err != nil {
		return err
	}
	write, err := a.exported(ctx, o)
	if err != nil {
		return err
	}
	w, err := a.exportTo(ctx, dir, o.force, export.Format(format), write)
	if w == nil {
		return err
	}
	of := ""
	if o.households != "" {
		of = " of " + howMany(w.Households, "household")
	}
	fmt.Fprintf(a.stdout, "%d tables with %s rows%s are in %s.\nNext, in that folder: %s\n", w.Tables(), a.locale().Number(fmt.Sprint(w.Rows)), of, printable(dir), w.Format.Load())
	return err
}

// exported returns what writes the ledger, or those of many households. The one
// ledger is read at once.
func (a *app) exported(ctx context.Context, o *exportOptions) (func(*export.Writer) error, error) {
	if o.households != "" {
		list, err := folder.Households(o.households)
		return func(w *export.Writer) error { return a.exportMany(ctx, w, list, o.asOf) }, err
	}
	home, err := filepath.Abs(a.ledgerDir())
	if err != nil {
		return nil, err
	}
	h, err := a.tables(filepath.Base(home), a.ledgerDir(), o.asOf)
	return func(w *export.Writer) error { return w.Add(h) }, err
}

// exportMany writes the ledgers of many households, in order of name. The error may
// be a [*leftOutError]: all others are written.
func (a *app) exportMany(ctx context.Context, w *export.Writer, list []folder.Household, asOf string) error {
	type result struct {
		*tables.Household
		err error
	}
	read := func(one folder.Household) result {
		if one.Err != nil {
			return result{err: one.Err}
		}
		h, err := a.tables(one.Name, one.Dir, asOf)
		return result{h, err}
	}
	show, left := a.progress(fmt.Sprintf("of %d households read", len(list))), &leftOutError{of: len(list)}
	done := 0
	for one, of := range ledger.InOrder(list, read) {
		switch {
		case ctx.Err() != nil:
			return errBroken
		case of.err != nil && statusOf(of.err) == exitUsage:
			return of.err
		case of.err != nil:
			left.list = append(left.list, *leaveOut(one, of.err))
		default:
			if err := w.Add(of.Household); err != nil {
				return err
			}
		}
		done++
		show(done, len(list))
	}
	if len(left.list) > 0 {
		return left
	}
	return nil
}

// tables joins a ledger for its tables.
func (a *app) tables(name, dir, asOf string) (*tables.Household, error) {
	s, err := a.standIn(dir, asOf)
	if err != nil {
		return nil, err
	}
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
		return misused("%s is a place where the ledger keeps its records: write somewhere else", exact.Quote(dir))
	}
	switch known, other, err := export.Known(dir); {
	case err != nil:
		return fmt.Errorf("%s cannot be written: %w", exact.Quote(dir), folder.Cause(err))
	case other != "":
		return misused("%s %s: name a folder that is not there yet", exact.Quote(dir), other)
	case known && !replace:
		return misused("%s holds an earlier export: --force replaces it", exact.Quote(dir))
	}
	return nil
}

// exportTo makes a folder of what is written; it is there whole or, on any error
// but a [*leftOutError], as it was. An interruption ends it.
func (a *app) exportTo(ctx context.Context, dir string, replace bool, format export.Format, write func(*export.Writer) error) (*export.Writer, error) {
	a.endsItself.Store(true)
	if ctx.Err() != nil {
		return nil, errBroken
	}
	out, err := folder.MakeOutside(dir)
	if err != nil {
		return nil, notExported(dir, err)
	}
	defer out.Discard()
	w, err := export.New(out.Dir, format)
	if err != nil {
		return nil, notExported(dir, err)
	}
	defer w.Discard()
	left := (*leftOutError)(nil)
	switch err := write(w); {
	case errors.As(err, &left) && w.Households > 0:
	case err != nil:
		return nil, notExported(dir, err)
	}
	if err := w.Close(); err != nil {
		return nil, notExported(dir, err)
	}
	if ctx.Err() != nil {
		return nil, errBroken
	}
	if err := a.place(dir, func() error { return out.Place(replace) }); err != nil {
		return nil, notExported(dir, err)
	}
	if left != nil {
		return w, left
	}
	return w, nil
}

// notExported says of a folder that it was not written, unless the error says why
// by itself.
func notExported(dir string, err error) error {
	if errors.Is(err, errBroken) || errors.As(err, new(*leftOutError)) || statusOf(err) == exitUsage {
		return err
	}
	return fmt.Errorf("%s was not written: %w", exact.Quote(dir), folder.Cause(err))
}
