package main

import (
	"cmp"
	"context"
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/intake"
	"putby/ledger/question"
	reports "putby/ledger/report"
)

const importLong = `Bring in receipts, runs or prices that a shop, a bank or a spreadsheet gives, as
CSV or .xlsx. A preview is shown; it is written only with --save, or on a terminal
after you were asked.

How the columns are read is a small named map, kept in the ledger (maps.csv). The
first time one is proposed from the header and shown, with the columns of the file
that fill nothing; --column, --value and --how mend it, and what is saved is used
for the next file of the same make. What the ledger calls things that a shop calls
otherwise is kept in names.csv, to which --name adds.

  --column price=Betrag        the header whose cells are the price; none leaves
                               the column out: --column note=
  --value "shop=Corner shop"   what no column says
  --how price=total            the price is that of the whole line; also negate,
                               within (an amount in a text), or a unit: g, L, h
  --name "KAROTTEN*=carrots"   what the ledger calls it, with its size where no
                               column has that: "EIER=eggs 10 ea"; omit leaves
                               such rows out

Encoding, separator, decimal sign and the order of dates are found out, unless
they could be either of two: then the import is refused until --decimal or
--dates says.

Rows that are there already are recognised and left out, so that importing twice
changes nothing. A row of a day still to come is bad, unless --ahead. Bad rows are listed with their lines, and nothing is written
unless --skip-bad leaves them out.`

type importOptions struct {
	saving
	mapOptions
	encoding, separator, sheet string
	save, skipBad              bool
}

func newImportCommand(a *app) *cobra.Command {
	cmd := newGroupCommand("import", "bring in what shops, banks and spreadsheets give", importLong)
	for _, target := range []intake.Target{intake.Receipts, intake.Runs, intake.Prices} {
		cmd.AddCommand(newImportTargetCommand(a, target))
	}
	return cmd
}

var importExamples = map[intake.Target]string{
	intake.Receipts: `  putby import receipts till.csv --map corner-shop --value "shop=Corner shop" --save
  putby import receipts till.csv --save`,
	intake.Runs:   `  putby import runs dryer.csv --dry-run`,
	intake.Prices: `  putby import prices leaflet.csv --value "shop=Corner shop" --value date=2026-01-10 --save`,
}

func newImportTargetCommand(a *app, target intake.Target) *cobra.Command {
	o := &importOptions{}
	cmd := &cobra.Command{
		Use:     target.String() + " FILE",
		Short:   "bring in " + target.String(),
		Long:    importLong,
		Example: importExamples[target],
		Args:    arguments("FILE"),
		RunE:    func(cmd *cobra.Command, args []string) error { return runImport(cmd.Context(), a, o, target, args[0]) },
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.BoolVar(&o.save, "save", false, "write what the preview shows")
	f.BoolVar(&o.skipBad, "skip-bad", false, "leave bad rows out")
	a.addAhead(cmd)
	o.mapOptions.add(cmd, target)
	oneOf(cmd, &o.encoding, "encoding", "`encoding`: %s (found out)", intake.EncodingNames())
	oneOf(cmd, &o.separator, "separator", "`mark` between cells: %s (found out)", intake.SeparatorWords())
	f.StringVar(&o.sheet, "sheet", "", "`sheet` of a workbook, by its name (the first)")
	o.saving.add(cmd)
	return cmd
}

// An importing is one file on its way into the ledger.
type importing struct {
	*importOptions
	a      *app
	path   string
	target intake.Target
	table  *intake.Table // as it was read
	rec    *ledger.Records
	vet    *reports.Vetting // what the rows to add are like
	maps   []intake.Map
	names  []intake.Name // with those that are added
	added  []intake.Name
	news   bool // whether the map or the names are new
}

// runImport shows what a file would add, and saves it with --save, or when a
// person says so. While a person is asked the ledger is not locked, so that
// nobody has to wait for an answer. If by then the file would add something
// else, that is shown, and the person is asked again.
func runImport(ctx context.Context, a *app, o *importOptions, target intake.Target, path string) error {
	im := &importing{importOptions: o, a: a, path: path, target: target}
	if o.save || o.dryRun {
		_, err := im.saveIf(ctx, o.saving, func(p *intake.Plan) (bool, error) {
			if err := im.show(p); err != nil {
				return false, err
			}
			return im.adds(p)
		})
		return err
	}
	var shown *intake.Plan
	again, err := im.saveIf(ctx, saving{dryRun: true}, func(p *intake.Plan) (bool, error) { shown = p; return false, nil })
	for again && err == nil {
		if err := im.show(shown); err != nil {
			return err
		}
		if adds, err := im.adds(shown); !adds {
			return err
		}
		if !a.ask {
			fmt.Fprintln(a.stdout, "Nothing was written: --save writes it.")
			return nil
		}
		if err := a.hold("", func(t *ask.Talk) error { return t.Agree(nil, "save it") }); err != nil {
			return err
		}
		was := shown
		again, err = im.saveIf(ctx, o.saving, func(p *intake.Plan) (bool, error) {
			shown = p
			return p.Same(was), nil
		})
		if again && err == nil {
			a.tell("Nothing is saved yet: the ledger was changed meanwhile. Now the file gives this:")
		}
	}
	return err
}

// saveIf holds the file against the ledger and saves what it adds, if that may
// be; else it reports that it has not.
func (im *importing) saveIf(ctx context.Context, o saving, may func(*intake.Plan) (bool, error)) (not bool, err error) {
	err = im.a.withBook(ctx, o, func(b *folder.Book) error {
		p, err := im.plan(b)
		if err != nil {
			return err
		}
		yes, err := may(p)
		if not = !yes; not || err != nil {
			return err
		}
		return im.save(b, p)
	})
	return not, err
}

// mostRemarks is how many remarks on rows a person is shown.
const mostRemarks = 20

// show shows what an import would do, before it does it, and what is far from what the
// ledger has.
func (im *importing) show(p *intake.Plan) error {
	if err := im.a.print(reports.ImportRead(p), output{format: "table", alone: true}); err != nil {
		return err
	}
	for _, line := range append([]string{""}, reports.ImportNotes(p, question.Flag)...) {
		fmt.Fprintln(im.a.stdout, printable(line))
	}
	listFaults(im.a.stderr, p.Bad)
	fmt.Fprintln(im.a.stdout, reports.ImportSum(p, im.rec.Settings.Show()))
	odd, n := im.vet.Odd()
	for i, remark := range odd {
		if i == mostRemarks {
			fmt.Fprintf(im.a.stdout, "  ... and %d more like these\n", n-i)
			break
		}
		fmt.Fprintln(im.a.stdout, "  "+printable(entry.LookAgain(remark)))
	}
	return nil
}

// plan holds the file against the ledger.
func (im *importing) plan(b *folder.Book) (*intake.Plan, error) {
	rec, faults := b.Records()
	rec.Settings.Wording = commands{}
	im.rec, im.vet = rec, reports.NewVetting(rec)
	if len(faults) > 0 {
		return nil, &folder.Refusal{Faults: faults, Already: true}
	}
	if err := im.readKept(); err != nil {
		return nil, err
	}
	kept, err := im.keptMap()
	if err != nil {
		return nil, err
	}
	if im.table == nil {
		if im.table, err = im.read(kept); err != nil {
			return nil, err
		}
	}
	m, err := im.choose(kept, im.table, rec)
	if err != nil {
		return nil, err
	}
	plan, err := m.Plan(im.table, intake.PlanOptions{
		Records: rec, Names: im.names, Today: im.a.at(rec).LastDay(), New: im.vet.Look,
		Progress: im.a.progress("rows held against the ledger"),
	})
	if err != nil {
		return nil, im.about(err)
	}
	return plan, nil
}

// about says which file an error is of.
func (im *importing) about(err error) error { return fmt.Errorf("%s: %w", im.path, err) }

// read reads the foreign file as the map, if there is one, and the flags say.
func (im *importing) read(kept *intake.Map) (*intake.Table, error) {
	var options intake.Options
	if kept != nil {
		options = kept.Options()
	}
	var err error
	if im.encoding != "" {
		if options.Encoding, err = intake.ParseEncoding(im.encoding); err != nil {
			return nil, misused("%v", err)
		}
	}
	if im.separator != "" {
		if options.Separator, err = intake.ParseSeparator(im.separator); err != nil {
			return nil, misused("%v", err)
		}
	}
	options.Sheet = cmp.Or(im.sheet, options.Sheet)
	options.Progress = im.a.progress("rows read")
	file, err := openGiven(im.path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	table, err := intake.Read(file, options)
	if err != nil {
		return nil, im.about(err)
	}
	return table, nil
}

// openGiven opens a file that is named to be taken over.
func openGiven(path string) (*os.File, error) {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return nil, &ledger.Fault{Kind: folder.ErrFailed, What: path + " is a folder", Hint: "name a file in it"}
	}
	return os.Open(path)
}

// progress shows how far long work is, where a person watches.
func (a *app) progress(what string) func(done, all int) {
	if !a.watched {
		return func(int, int) {}
	}
	return func(done, all int) {
		if done == all {
			fmt.Fprint(a.stderr, "\r\x1b[K")
			return
		}
		fmt.Fprintf(a.stderr, "\r%d %s", done, what)
	}
}
