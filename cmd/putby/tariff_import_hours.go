package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"time"

	"putby/cmd/putby/internal/entry"
	"putby/energy"
	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/intake"
	"putby/ledger/question"
	"putby/pricing/exact"
)

// hoursOptions are the flags of tariff import that are for prices by the hour.
type hoursOptions struct {
	rate, per, column, zone, decimal, dates, sheet string
	replace                                        bool
}

// isRateFile tells a rate of the open database from prices by the hour.
func isRateFile(data []byte) bool { return bytes.Contains(data, []byte(`"energyratestructure"`)) }

// importHours brings in prices by the hour.
func (a *app) importHours(ctx context.Context, o *tariffImportOptions, path string, data []byte) error {
	return a.withBook(ctx, o.saving, func(b *folder.Book) error {
		rec, faults := b.Records()
		if rec.Settings.Zone == nil || rec.Settings.Currency.Code() == "" {
			return faults.Err()
		}
		name, err := o.hourlyTariff(rec)
		if err != nil {
			return err
		}
		band, err := o.hourlyBand(rec, name)
		if err != nil {
			return err
		}
		file, err := a.readHours(o, rec, path, data)
		if err != nil {
			return err
		}
		m := intake.MergeHourly(rec.Rates[name], file, o.replace)
		in := hoursIn{path: path, tariff: name, first: rec.Settings.Tariff == "", band: band, file: file, merge: m, zone: rec.Settings.Zone, show: rec.Settings.Show(), currency: rec.Settings.Currency.Code()}
		a.sayLines(in.found())
		if err := a.edit(b, o.saving, func(tx *folder.Tx) error { return in.put(tx) }, func(*ledger.Ledger) []string { return in.saved() }); err != nil {
			return err
		}
		if !o.dryRun && m.Added+m.Replaced > 0 {
			fmt.Fprintf(a.stdout, "Next: putby tariff check %s --date %v\n", name, exact.DateIn(file.List[0].From.In(in.zone)))
		}
		return nil
	})
}

// hourlyTariff is the tariff that prices are of: the one named, else the only one
// that is hourly.
func (o *tariffImportOptions) hourlyTariff(rec *ledger.Records) (string, error) {
	if o.label != "" {
		return "", &question.Error{Option: "label", Why: "it names one of several rates, and the file has prices by the hour", Hint: "leave it out"}
	}
	if o.name != "" {
		return o.name, named(o.name)
	}
	var names []string
	for i := range rec.Tariffs {
		if b := &rec.Tariffs[i]; b.Hourly && !slices.Contains(names, b.Tariff) {
			names = append(names, b.Tariff)
		}
	}
	if len(names) == 1 {
		return names[0], nil
	}
	names = append(names, "hourly")
	return "", &question.Error{Option: "as", Why: "the file has prices by the hour, and nothing says of which tariff", Hint: "name it, such as --as " + names[0]}
}

// hourlyBand is the band that a tariff without an hourly one gets with its first
// prices.
func (o *tariffImportOptions) hourlyBand(rec *ledger.Records, name string) (*ledger.Band, error) {
	others := 0
	for i := range rec.Tariffs {
		b := &rec.Tariffs[i]
		if b.Tariff != name {
			continue
		}
		others++
		if !b.Hourly {
			continue
		}
		for _, given := range []struct{ option, text string }{{"rate", o.rate}, {"tax", o.tax}, {"from", o.from}} {
			if given.text != "" {
				return nil, &question.Error{
					Option: given.option, Why: fmt.Sprintf("%s has an hourly band already (%s:%d)", name, ledger.TariffsFile, b.Line),
					Hint: fmt.Sprintf("putby edit tariff @%d %s=%s changes it", b.Line, given.option, given.text),
				}
			}
		}
		return nil, nil
	}
	if others > 0 && o.from == "" {
		return nil, &question.Error{
			Option: "from", Why: "the bands of " + name + " are not by the hour",
			Hint: "say from which date it is, such as --from 2026-01-01, or give another name with --as",
		}
	}
	band := &ledger.Band{Tariff: name, Band: energy.Band{End: energy.DayEnd, Hourly: true}}
	var err error
	if o.rate != "" {
		if band.Rate, err = exact.ParseNumber(o.rate); err != nil {
			return nil, &question.Error{Option: "rate", Why: err.Error(), Hint: "write money per kWh, such as 0.12"}
		}
	}
	band.From, band.Tax, err = o.terms(exact.NoDate)
	return band, err
}

// readHours reads the file; where its prices are hardly those of a kWh, a person
// is asked.
func (a *app) readHours(o *tariffImportOptions, rec *ledger.Records, path string, data []byte) (*intake.HourlyPrices, error) {
	options, err := o.hourlyOptions(rec)
	if err != nil {
		return nil, err
	}
	file, err := intake.ReadHourly(bytes.NewReader(data), options)
	var unlikely *ledger.Fault
	if errors.Is(err, intake.ErrUnlikely) && errors.As(err, &unlikely) && a.ask {
		other := map[bool]intake.Per{true: intake.PerMWh, false: intake.PerKWh}[options.Per == intake.AnyPer && !bytes.Contains(bytes.ToLower(data), []byte("mwh"))]
		if err := a.agree(fmt.Sprintf("%s: %s.", path, unlikely.What), fmt.Sprintf("Take the prices as per %v?", other)); err != nil {
			return nil, err
		}
		options.Per = other
		file, err = intake.ReadHourly(bytes.NewReader(data), options)
	}
	if wrong := foreignFaults(path, err); wrong != nil {
		for i := range wrong.list {
			f := &wrong.list[i]
			f.What, f.Field = joined(f.Field, ": ", f.What), ""
		}
		return nil, wrong
	}
	return file, err
}

func (o *tariffImportOptions) hourlyOptions(rec *ledger.Records) (h intake.HourlyOptions, err error) {
	h = intake.HourlyOptions{Zone: rec.Settings.Zone, Currency: rec.Settings.Currency, Column: o.column}
	h.Sheet = o.sheet
	wrong := func(option string, err error, hint string) error {
		if err == nil {
			return nil
		}
		return &question.Error{Option: option, Why: err.Error(), Hint: hint}
	}
	if o.zone != "" {
		if err := ledger.CheckZone(o.zone); err != nil {
			return h, wrong("zone", err, "write an IANA name, such as UTC or Europe/Vienna")
		}
		h.Zone, _ = time.LoadLocation(o.zone)
	}
	if h.Per, err = intake.ParsePer(o.per); err != nil {
		return h, wrong("per", err, "kWh or MWh")
	}
	if h.Decimal, err = intake.ParseDecimal(o.decimal); err != nil {
		return h, wrong("decimal", err, "point or comma")
	}
	h.Order, err = intake.ParseOrder(o.dates)
	return h, wrong("dates", err, "dmy, mdy or ymd")
}

// hoursIn are prices on their way into a ledger.
type hoursIn struct {
	path, tariff, currency string
	first                  bool         // runs have no tariff yet, and get this one
	band                   *ledger.Band // new; nil: there is one
	file                   *intake.HourlyPrices
	merge                  intake.HourlyMerge
	zone                   *time.Location
	show                   ledger.Show
}

// put writes the prices, and the band where the tariff has none.
func (in *hoursIn) put(tx *folder.Tx) error {
	if in.band != nil {
		if err := tx.Append(ledger.MustKind("tariff"), in.band.Cells()); err != nil {
			return err
		}
	}
	if in.first {
		d := entry.Draft{Sets: []entry.Set{entry.Setting("tariff", in.tariff)}}
		if err := d.Change(tx); err != nil {
			return err
		}
	}
	if in.merge.Added+in.merge.Replaced == 0 {
		return nil
	}
	name := ledger.RatesFile(in.tariff)
	have, err := tx.ReadFile(name)
	if err != nil {
		return err
	}
	text, err := folder.PrintRates(have, in.merge.Prices, in.zone)
	if err != nil {
		return err
	}
	return tx.WriteFile(name, text)
}

func (in *hoursIn) moment(t time.Time) string {
	t = t.In(in.zone)
	return t.Format("Mon ") + in.show.Local(t)
}

// found says what the file has, and what of it the ledger has otherwise.
func (in *hoursIn) found() (words []string) {
	list, m := in.file.List, in.merge
	per := in.file.Per
	if per == intake.AnyPer {
		per = intake.PerKWh
	}
	words = append(words, fmt.Sprintf("%s: %s in %s a %v (%s), from %s until %s.", in.path, howMany(len(list), "price"), in.currency, per,
		exact.Quote(in.file.Column), in.moment(list[0].From), in.moment(list[len(list)-1].Until)))
	if !in.file.Named {
		words = append(words, "The file names no currency: "+in.currency+" is taken.")
	}
	if m.There > 0 {
		words = append(words, fmt.Sprintf("%d of them the ledger has already.", m.There))
	}
	if n := in.file.Rounded; n > 0 {
		words = append(words, fmt.Sprintf("%d of them finer than nine digits a kWh, rounded half to even.", n))
	}
	for i, gap := range m.Missing {
		if i == mostGaps {
			words = append(words, fmt.Sprintf("  and %d more", len(m.Missing)-i))
			break
		}
		words = append(words, fmt.Sprintf("Missing: from %s until %s.", in.moment(gap.From), in.moment(gap.Until)))
	}
	return append(words, in.others()...)
}

// others says where the ledger has other prices.
func (in *hoursIn) others() (words []string) {
	differ := in.merge.Differ
	if len(differ) == 0 {
		return nil
	}
	words = append(words, "The ledger has other prices for "+howMany(len(differ), "price")+" of the file, and keeps its own (--replace takes the file's):")
	for i, d := range differ {
		if i == mostGaps {
			return append(words, fmt.Sprintf("  and %d more", len(differ)-i))
		}
		what := fmt.Sprintf("  %s: %s in the ledger, %s in line %d", in.moment(d.From), in.show.Number(d.Has), in.show.Number(d.Rate), d.Line)
		if d.Parts {
			what += ", by other hours or parts of one"
		}
		words = append(words, what)
	}
	return words
}

// saved says what is written.
func (in *hoursIn) saved() (words []string) {
	if in.band != nil {
		words = append(words, fmt.Sprintf("Tariff %s: the price of the hour and %s %s a kWh, and %s tax on both.", in.tariff, in.show.Number(in.band.Rate), in.currency, in.show.Locale.Percent(in.band.Tax.String())))
	}
	if in.first {
		words = append(words, "Setting tariff: "+in.tariff+", for runs that name none.")
	}
	if n := in.merge.Added; n > 0 {
		words = append(words, fmt.Sprintf("%s: %s added.", ledger.RatesFile(in.tariff), howMany(n, "price")))
	}
	if n := in.merge.Replaced; n > 0 {
		words = append(words, fmt.Sprintf("%s: %s in the place of other ones.", ledger.RatesFile(in.tariff), howMany(n, "price")))
	}
	return words
}

// mostRateFile is the most bytes of a file of prices.
const mostRateFile = intake.MaxFile

// readWhole reads a file into memory.
func readWhole(path string) ([]byte, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, mostRateFile+1))
	if err == nil && len(data) > mostRateFile {
		err = &fileFaults{file: path, list: ledger.Faults{{What: "the file is larger than 64 MiB", Hint: "import it in parts"}}}
	}
	return data, err
}
