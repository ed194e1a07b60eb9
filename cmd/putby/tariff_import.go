package main

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/energy"
	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/intake"
	"putby/ledger/question"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

const tariffImportLong = `Bring in prices by the hour (or the quarter-hour) as a market or a supplier gives
them: CSV, .xlsx or JSON. They are added to rates/TARIFF.csv, which the bands of
the tariff with hourly "yes" take their price from; a tariff without one gets it,
with --rate (grid fee and markup per kWh) and --tax on top.

Times may be text, with an offset or local (to --zone, or the ledger's), seconds
since 1970, from when until when, or a date with the number of an hour (1 to 24,
or of a quarter). On the day of 25 hours the doubled one may be numbered on to 25,
3a and 3b, or twice the same. Prices are per MWh or kWh as the file says; where
that is a thousand times too high or low, or not said, --per does. Prices that are
there already change nothing; other ones for the same time are named, and taken
with --replace. What is missing is named too.

Or bring in a rate of the OpenEI Utility Rate Database, an open format of electricity
tariffs, saved as JSON: its periods, its schedules of 12 months by 24 hours for
weekdays and weekends, and its tiers become bands of tariffs.csv, in one change.
What bands cannot express, such as fixed charges, is listed and left out.

A file with several rates needs --label. Each price is rate + adj + the month's
fuel adjustment, digit by digit. The format is in dollars and without tax: --tax
puts a percentage on every band. A weekend is Saturday and Sunday; the format
knows no holidays.`

type tariffImportOptions struct {
	saving
	hoursOptions
	name, label, from, tax string
}

func newTariffImportCommand(a *app) *cobra.Command {
	o := &tariffImportOptions{}
	cmd := &cobra.Command{
		Use:   "import FILE",
		Short: "bring in prices by the hour, or a rate of the open rate database",
		Long:  tariffImportLong,
		Example: `  putby tariff import day-ahead.csv --as dynamic --rate 0.11 --tax 20
  putby tariff import tomorrow.json --as dynamic
  putby tariff check dynamic --chart
  putby tariff import rate.json --as harbour-2026 --from 2026-04-01
  putby tariff check harbour-2026 --date 2026-07-01`,
		Args: arguments("FILE"),
		RunE: func(cmd *cobra.Command, args []string) error { return runTariffImport(cmd.Context(), a, o, args[0]) },
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.StringVar(&o.name, "as", "", "the `tariff`, by its name (the one by the hour, or made from the rate's own)")
	f.StringVar(&o.from, "from", "", "first `date` that it holds (always, or the rate's start)")
	f.StringVar(&o.tax, "tax", "", "`percent` on top of every band (0)")
	f.StringVar(&o.rate, "rate", "", "`money` per kWh on top of the price of every hour (0)")
	f.StringVar(&o.per, "per", "", "prices are per `kWh` or MWh, whatever they look like")
	f.StringVar(&o.column, "column", "", "`header` of the prices (found)")
	f.StringVar(&o.zone, "zone", "", "of times without an offset: an IANA `zone` (the ledger's)")
	f.StringVar(&o.decimal, "decimal", "", "decimal `sign`: point or comma (found)")
	f.StringVar(&o.dates, "dates", "", "`order` of dates: dmy, mdy or ymd (found)")
	f.StringVar(&o.sheet, "sheet", "", "`sheet` of a workbook, by its name (the first)")
	f.BoolVar(&o.replace, "replace", false, "take the file's prices where the ledger has other ones")
	f.StringVar(&o.label, "label", "", "which rate, by its `label`, of a file with several")
	fixed(cmd, "per", "kWh", "MWh")
	fixed(cmd, "decimal", "point", "comma")
	fixed(cmd, "dates", "dmy", "mdy", "ymd")
	o.saving.add(cmd)
	return cmd
}

func runTariffImport(ctx context.Context, a *app, o *tariffImportOptions, path string) error {
	data, err := readWhole(path)
	if err != nil {
		return err
	}
	if !isRateFile(data) {
		return a.importHours(ctx, o, path, data)
	}
	rate, err := intake.ReadURDB(bytes.NewReader(data), o.label)
	if err != nil {
		return rateFaults(path, err)
	}
	bands, err := o.bands(rate)
	if err != nil {
		return err
	}
	return a.withBook(ctx, o.saving, func(b *folder.Book) error {
		rec, _ := b.Records()
		if err := notThere(rec, bands[0]); err != nil {
			return err
		}
		a.sayRate(rate, bands, rec.Settings)
		with := *rec
		with.Tariffs = slices.Concat(rec.Tariffs, bands)
		sayRemarks(a.stdout, reports.Implausible(rec, &with), entry.LookAgain)
		k, _ := ledger.KindOf("tariff")
		rows := make([]entry.Row, len(bands))
		for i, band := range bands {
			rows[i] = entry.Row{Kind: k, Cells: band.Cells()}
		}
		d := &entry.Draft{Rows: rows, Next: []string{"putby tariff check " + bands[0].Tariff}}
		if rec.Settings.Tariff == "" {
			d.Sets = []entry.Set{entry.Setting("tariff", bands[0].Tariff)}
		}
		return a.saveDraft(b, o.saving, d)
	})
}

// bands are those of the rate under the name, date and tax that were asked for.
func (o *tariffImportOptions) bands(rate intake.URDBRate) ([]ledger.Band, error) {
	name := cmp.Or(o.name, identifier(rate.Name))
	if err := named(name); err != nil {
		return nil, err
	}
	from, tax, err := o.terms(rate.From)
	if err != nil {
		return nil, err
	}
	list := make([]ledger.Band, len(rate.Bands))
	for i, b := range rate.Bands {
		b.From, b.Tax = from, tax
		list[i] = ledger.Band{Tariff: name, Band: b}
	}
	return list, nil
}

// named refuses what cannot be a tariff's name.
func named(tariff string) error {
	if err := ledger.CheckID(tariff); err != nil {
		return &question.Error{Option: "as", Why: err.Error(), Hint: "use letters, digits, '-', '_' and '.', at most 64"}
	}
	return nil
}

// terms reads --from, by default the day given, and --tax.
func (o *tariffImportOptions) terms(from exact.Date) (_ exact.Date, tax exact.Number, err error) {
	if o.from != "" {
		if from, err = parseDay("from", o.from); err != nil {
			return from, tax, err
		}
	}
	if o.tax != "" {
		if tax, err = exact.ParseNumber(o.tax); err != nil || tax.Sign() < 0 {
			err = &question.Error{Option: "tax", Why: exact.Quote(o.tax) + " is not a percentage", Hint: "write it as 13 or 8.1"}
		}
	}
	return from, tax, err
}

// identifier makes an identifier of a name: small letters and digits, parted by
// dashes.
func identifier(name string) string {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return (r < 'a' || r > 'z') && (r < '0' || r > '9')
	})
	id := strings.Join(words, "-")
	return strings.Trim(id[:min(len(id), 64)], "-")
}

// notThere refuses prices that would begin on the same day as others of their
// tariff: they would never hold.
func notThere(rec *ledger.Records, band ledger.Band) error {
	for i := range rec.Tariffs {
		if b := &rec.Tariffs[i]; b.Tariff == band.Tariff && b.From == band.From {
			from := "of always"
			if b.From != exact.NoDate {
				from = "from " + b.From.String()
			}
			return &question.Error{
				Option: "as", Why: fmt.Sprintf("%s has prices %s already (%s:%d)", b.Tariff, from, ledger.TariffsFile, b.Line),
				Hint: "give another name, or another date with --from; putby remove tariff @LINE takes a row out",
			}
		}
	}
	return nil
}

// sayRate says what a rate is, and what of it bands cannot express.
func (a *app) sayRate(rate intake.URDBRate, bands []ledger.Band, s ledger.Settings) {
	say := func(format string, args ...any) { fmt.Fprintln(a.stdout, printable(fmt.Sprintf(format, args...))) }
	name := strings.Trim(rate.Utility+", "+rate.Name, ", ")
	say("%s: %d bands of tariff %s.", name, len(bands), bands[0].Tariff)
	if bands[0].From == exact.NoDate {
		say("It says no first date: the prices hold always (--from).")
	}
	if code := s.Currency.Code(); code != "USD" {
		say("The format is in US dollars, this ledger in %s: see that the prices are too.", code)
	}
	say("Left out:")
	for _, left := range rate.Left {
		say("  - %s", left)
	}
	for _, c := range rate.Comments {
		say("It says: %s", c)
	}
	a.sayCheck(bands, s)
}

// sayCheck says what the bands leave open.
func (a *app) sayCheck(bands []ledger.Band, s ledger.Settings) {
	list := make([]energy.Band, len(bands))
	for i, b := range bands {
		list[i] = b.Band
	}
	t, err := energy.NewTariff(bands[0].Tariff, s.Zone, list, nil)
	if err != nil {
		return // the change will be refused, and say why
	}
	for _, g := range t.Check().Gaps {
		if g.From != exact.NoDate || g.Until != bands[0].From {
			fmt.Fprintf(a.stdout, "No price: %v\n", g)
		}
	}
}
