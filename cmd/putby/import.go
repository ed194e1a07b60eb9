package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/intake"
	"putby/ledger"
	"putby/ledger/folder"
)

const importLong = `Bring in receipts, runs or prices that a shop, a bank or a spreadsheet gives, as
CSV or .xlsx.

How its columns are read is a small named map, kept in the ledger (maps.csv): the
first time one is proposed from the header and shown; --map NAME names it, and the
next file of the same make needs nothing else. Where the order of dates or the
decimal sign could be either of two, --dates and --decimal say which.

What a shop calls otherwise than the ledger does is told by names.csv, which you
write: map,name,kind,item,size, one name a row. A name may begin or end with *; the
kind skip leaves such rows out. README tells more.

A preview is shown, and written only with --save (on a terminal you are asked).
Rows that are there already are recognised and skipped, so that importing twice
changes nothing. Bad rows are listed with their lines, and nothing is written
unless --skip-bad.`

// The files in which a ledger keeps how foreign files are read.
const (
	mapsFile  = "maps.csv"
	namesFile = "names.csv"
)

type importOptions struct {
	saving
	mapName, encoding, separator, sheet string
	dates, decimal                      string
	save, skipBad                       bool
}

func newImportCommand(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "import", Short: "bring in what shops, banks and spreadsheets give", Long: importLong,
		Example: "  putby import receipts till.csv --map corner-shop --save",
		Args:    arguments(),
		RunE:    func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	for _, target := range []intake.Target{intake.Receipts, intake.Runs, intake.Prices} {
		cmd.AddCommand(newImportTargetCommand(a, target))
	}
	return cmd
}

func newImportTargetCommand(a *app, target intake.Target) *cobra.Command {
	o := &importOptions{}
	cmd := &cobra.Command{
		Use:     target.String() + " FILE",
		Short:   "bring in " + target.String(),
		Long:    importLong,
		Example: "  putby import " + target.String() + " file.csv --map mine",
		Args:    arguments("FILE"),
		RunE:    func(cmd *cobra.Command, args []string) error { return runImport(cmd.Context(), a, o, target, args[0]) },
	}
	f := cmd.Flags()
	f.StringVar(&o.mapName, "map", "", "`name` of the map (the only one for "+target.String()+")")
	f.StringVar(&o.encoding, "encoding", "", "utf-8, utf-16 or windows-1252 (found out)")
	f.StringVar(&o.separator, "separator", "", "of cells (found out)")
	f.StringVar(&o.sheet, "sheet", "", "of a workbook (the first)")
	f.StringVar(&o.dates, "dates", "", "`order` of dates: dmy, mdy or ymd (found out)")
	f.StringVar(&o.decimal, "decimal", "", "decimal `sign`: point or comma (found out)")
	fixed(cmd, "dates", "dmy", "mdy", "ymd")
	fixed(cmd, "decimal", "point", "comma")
	f.BoolVar(&o.save, "save", false, "write what the preview shows")
	f.BoolVar(&o.skipBad, "skip-bad", false, "leave bad rows out")
	o.saving.add(cmd)
	return cmd
}

func runImport(ctx context.Context, a *app, o *importOptions, target intake.Target, path string) error {
	table, err := a.readForeign(o, path)
	if err != nil {
		return err
	}
	return a.withBook(ctx, func(b *folder.Book) error {
		rec, faults := b.Records()
		if len(faults) > 0 {
			return faults
		}
		maps, names, err := readMaps(b)
		if err != nil {
			return err
		}
		m, proposed, err := chooseMap(maps, o.mapName, target, table, rec)
		if err != nil {
			return err
		}
		if m, err = o.settle(m); err != nil {
			return err
		}
		plan, err := m.Plan(table, intake.PlanOptions{Records: rec, Names: names, Progress: a.progress("rows held against the ledger")})
		if err != nil {
			return err
		}
		a.sayPlan(plan)
		return a.savePlan(b, o, plan, maps, proposed)
	})
}

// settle gives a map what the flags say of the whole file.
func (o *importOptions) settle(m intake.Map) (intake.Map, error) {
	var err error
	if o.dates != "" {
		if m.Dates, err = intake.ParseOrder(o.dates); err != nil {
			return m, usageError{err}
		}
	}
	if o.decimal != "" {
		if m.Decimal, err = intake.ParseDecimal(o.decimal); err != nil {
			return m, usageError{err}
		}
	}
	return m, nil
}

// readForeign reads the foreign file.
func (a *app) readForeign(o *importOptions, path string) (*intake.Table, error) {
	options := intake.Options{Sheet: o.sheet, Progress: a.progress("rows read")}
	var err error
	if o.encoding != "" {
		if options.Encoding, err = intake.ParseEncoding(o.encoding); err != nil {
			return nil, usageError{err}
		}
	}
	if o.separator != "" {
		if options.Separator, err = intake.ParseSeparator(o.separator); err != nil {
			return nil, usageError{err}
		}
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return intake.Read(file, options)
}

// progress shows how far long work is, where a person watches.
func (a *app) progress(what string) func(done, all int) {
	if !a.watched {
		return nil
	}
	return func(done, all int) {
		if done == all {
			fmt.Fprint(a.stderr, "\r\x1b[K")
			return
		}
		fmt.Fprintf(a.stderr, "\r%d %s", done, what)
	}
}

// readMaps reads the maps and names that the ledger keeps.
func readMaps(b *folder.Book) (maps []intake.Map, names []intake.Name, err error) {
	_, err = b.Try("import", func(tx *folder.Tx) error {
		text, err := tx.ReadFile(mapsFile)
		if err != nil {
			return err
		}
		var faults ledger.Faults
		if maps, faults = intake.ParseMaps(string(text)); len(faults) > 0 {
			return faults
		}
		if text, err = tx.ReadFile(namesFile); err != nil {
			return err
		}
		names, faults = intake.ParseNames(string(text))
		return faults.Err()
	})
	return maps, names, err
}

// chooseMap finds the map named, or the only one for the target; where there
// is none it proposes one.
func chooseMap(maps []intake.Map, name string, target intake.Target, t *intake.Table, rec *ledger.Records) (m intake.Map, proposed bool, err error) {
	var fit []intake.Map
	for _, m := range maps {
		if m.Target == target && (name == "" || m.Name == name) {
			fit = append(fit, m)
		}
	}
	switch {
	case len(fit) == 1:
		return fit[0], false, nil
	case len(fit) > 1:
		var mapNames []string
		for _, m := range fit {
			mapNames = append(mapNames, m.Name)
		}
		return m, false, usageError{fmt.Errorf("%s has %d maps for %v: name one with --map: %s", mapsFile, len(fit), target, strings.Join(mapNames, ", "))}
	}
	if name == "" {
		name = target.String()
	}
	m, err = intake.Propose(t, target, name, rec)
	return m, true, err
}

// savePlan writes the rows of a plan, and its map when it is new.
func (a *app) savePlan(b *folder.Book, o *importOptions, p *intake.Plan, maps []intake.Map, proposed bool) error {
	switch {
	case len(p.Bad) > 0 && !o.skipBad:
		return badRowsError(len(p.Bad))
	case p.Rows() == 0 && !proposed:
		fmt.Fprintln(a.stdout, "There is nothing to add.")
		return nil
	case !o.save && !o.dryRun && a.ask:
		if err := a.confirm("save it"); err != nil {
			return err
		}
	case !o.save && !o.dryRun:
		fmt.Fprintln(a.stdout, "Nothing was written: --save writes it.")
		return nil
	}
	return a.editBook(b, o.saving, func(tx *folder.Tx) error {
		if proposed {
			if err := tx.WriteFile(mapsFile, intake.PrintMaps(append(maps, p.Definite()))); err != nil {
				return err
			}
		}
		return appendPlan(tx, p)
	})
}

func appendPlan(tx *folder.Tx, p *intake.Plan) error {
	for _, f := range p.Add {
		k, ok := ledger.KindOf(f.File)
		if !ok {
			return errors.New("no records are kept in " + f.File)
		}
		for _, row := range f.Rows {
			cells := make(map[string]string, len(f.Columns))
			for i, column := range f.Columns {
				cells[column] = row.Cells[i]
			}
			if err := tx.Append(k, cells); err != nil {
				return err
			}
		}
	}
	return nil
}

// A badRowsError is how many rows of a foreign file cannot be imported.
type badRowsError int

func (n badRowsError) Error() string {
	if n == 1 {
		return "1 row is bad, so nothing was written"
	}
	return fmt.Sprintf("%d rows are bad, so nothing was written", int(n))
}
