package entry

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"putby/energy"
	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/folder"
	"putby/ledger/intake"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// A PricesIn is a file of electricity prices that is brought in, and what it does not
// say, as a person types it: prices by the hour, or a rate of the open rate database.
// What is "" is found, or is as the ledger has it.
type PricesIn struct {
	Path, Data string // the file's name, and what is in it

	Tariff, From, Tax string // the name, the first day and the tax of the bands that the prices make
	Label             string // which rate, of a file with several

	Rate                                     string // on top of the price of every hour
	Per, Column, Zone, Decimal, Dates, Sheet string // how prices by the hour are read
	Replace                                  bool   // the file's prices take the place of others of the ledger

	Names report.Names // what a person calls these parts
}

// ImportPrices is the act that adds the prices of a file to a tariff. Where runs have no
// tariff yet, they get this one. Its error is a [Wrong] with the part that was
// mistyped, named "tariff", "from", "per" ...; or a fault of the file.
func ImportPrices(b *Base, in *PricesIn) (*Draft, error) {
	d, name, err := &Draft{}, "", error(nil)
	if intake.IsURDB(in.Data) {
		name, err = in.addRate(b, d)
	} else {
		name, err = in.addHours(b, d)
	}
	if err != nil {
		return nil, err
	}
	if b.Records.Settings.Tariff == "" {
		d.Sets = []Set{Setting("tariff", name)}
	}
	return d, nil
}

// addRate adds the bands of a rate.
func (in *PricesIn) addRate(b *Base, d *Draft) (name string, err error) {
	rate, err := intake.ReadURDB(strings.NewReader(in.Data), in.Label)
	if err != nil {
		return "", err
	}
	if name, err = tariffName(cmp.Or(in.Tariff, Slug(rate.Name))); err != nil {
		return "", err
	}
	from, tax, err := in.terms(b, rate.From)
	if err != nil {
		return "", err
	}
	same := func(t ledger.Band) bool { return t.Tariff == name && t.From == from }
	if i := slices.IndexFunc(b.Records.Tariffs, same); i >= 0 { // others that begin then would never apply
		since := "of always"
		if from != exact.NoDate {
			since = "from " + from.String()
		}
		return "", mistake("tariff", ledger.Fault{
			What: fmt.Sprintf("%s has prices %s already (%s:%d)", name, since, ledger.TariffsFile, b.Records.Tariffs[i].Line), Choice: ledger.OtherPrices,
		})
	}
	bands := make([]ledger.Band, len(rate.Bands))
	for i, band := range rate.Bands {
		band.From, band.Tax = from, tax
		bands[i] = ledger.Band{Tariff: name, Band: band}
		d.Rows = append(d.Rows, Row{ledger.MustKind("tariff"), bands[i].Cells()})
	}
	d.Notes = report.RateRead(&rate, bands, &b.Records.Settings, in.Names)
	d.Next = []advice.Doing{advice.Do(advice.CheckTariff, name)}
	return name, nil
}

// addHours adds prices by the hour, and the band that takes them where the tariff has
// none.
func (in *PricesIn) addHours(b *Base, d *Draft) (name string, err error) {
	s := &b.Records.Settings
	options, err := in.options(s)
	if err != nil {
		return "", err
	}
	file, err := intake.ReadHourly(strings.NewReader(in.Data), options)
	if err != nil {
		return "", err
	}
	if name, err = in.hourlyTariff(b.Records); err != nil {
		return "", err
	}
	band, err := in.hourlyBand(b, name)
	if err != nil {
		return "", err
	}
	m := intake.MergeHourly(b.Records.Rates[name], file, in.Replace)
	r := report.HoursRead{File: in.Path, Tariff: name, Prices: file, Merge: &m, Band: band, First: s.Tariff == "", Settings: s, Names: in.Names}
	d.Notes, d.told = r.Found(), func(*ledger.Ledger) []string { return r.Saved() }
	if band != nil {
		d.Rows = []Row{{ledger.MustKind("tariff"), band.Cells()}}
	}
	if m.Added+m.Replaced > 0 {
		d.File = &File{ledger.RatesFile(name), func(have []byte) ([]byte, error) { return folder.PrintRates(have, m.Prices, s.Zone) }}
		d.Next = []advice.Doing{advice.Do(advice.CheckTariff, name).With("date", exact.DateIn(file.List[0].From.In(s.Zone)).String())}
	}
	return name, nil
}

// hourlyTariff is the tariff that prices are of: the one named, else the only one
// that is hourly.
func (in *PricesIn) hourlyTariff(rec *ledger.Records) (string, error) {
	switch {
	case in.Label != "":
		return "", mistake("label", ledger.Fault{What: "it names one of several rates, and the file has prices by the hour", Hint: "leave it out"})
	case in.Tariff != "":
		return tariffName(in.Tariff)
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
	return "", mistake("tariff", ledger.Fault{
		What: "the file has prices by the hour, and nothing says of which tariff", Choice: ledger.WhichTariff, Hint: append(names, "hourly")[0],
	})
}

// hourlyBand is the band that a tariff without an hourly one gets with its first
// prices.
func (in *PricesIn) hourlyBand(b *Base, name string) (*ledger.Band, error) {
	others := false
	for i := range b.Records.Tariffs {
		there := &b.Records.Tariffs[i]
		if there.Tariff != name {
			continue
		}
		if others = true; !there.Hourly {
			continue
		}
		for _, given := range [][2]string{{"rate", in.Rate}, {"tax", in.Tax}, {"from", in.From}} {
			if given[1] != "" {
				return nil, mistake(given[0], ledger.Fault{
					What: fmt.Sprintf("%s has an hourly band already (%s:%d)", name, ledger.TariffsFile, there.Line),
					Hint: "change it", Do: []advice.Doing{advice.Do(advice.Edit, "tariff", fmt.Sprintf("@%d", there.Line)).With(given[0], given[1])},
				})
			}
		}
		return nil, nil // it has one, and nobody asks for another
	}
	if others && in.From == "" {
		return nil, mistake("from", ledger.Fault{What: "the bands of " + name + " are not by the hour", Choice: ledger.BandsFrom})
	}
	band := &ledger.Band{Tariff: name, Band: energy.Band{End: energy.DayEnd, Hourly: true}}
	var err error
	if in.Rate != "" {
		if band.Rate, err = exact.ParseNumber(in.Rate); err != nil {
			return nil, mistake("rate", ledger.Fault{What: err.Error(), Hint: "write money per kWh, such as 0.12"})
		}
	}
	band.From, band.Tax, err = in.terms(b, exact.NoDate)
	return band, err
}

// terms are the first day, by default the day given, and the tax of bands.
func (in *PricesIn) terms(b *Base, from exact.Date) (_ exact.Date, tax exact.Number, err error) {
	if in.From != "" {
		if from, err = exact.ParseDate(b.At.datedWhole(in.From)); err != nil {
			return from, tax, mistake("from", ledger.Fault{What: err.Error()})
		}
	}
	if in.Tax != "" {
		if tax, err = exact.ParseNumber(in.Tax); err != nil || tax.Sign() < 0 {
			return from, tax, mistake("tax", ledger.Fault{What: quote(in.Tax) + " is not a percentage", Hint: "write it as 13 or 8.1"})
		}
	}
	return from, tax, nil
}

// options say how prices by the hour are read.
func (in *PricesIn) options(s *ledger.Settings) (o intake.HourlyOptions, err error) {
	o = intake.HourlyOptions{Options: intake.Options{Sheet: in.Sheet}, Currency: s.Currency, Column: in.Column}
	var bad Wrongs
	o.Zone = bad.zone(in.Zone, s.Zone)
	o.Per, err = intake.ParsePer(in.Per)
	bad.read("per", err, OrList(intake.PerWords()))
	o.Decimal, err = intake.ParseDecimal(in.Decimal)
	bad.read("decimal", err, OrList(intake.DecimalWords()))
	o.Order, err = intake.ParseOrder(in.Dates)
	bad.read("dates", err, OrList(intake.OrderWords()))
	return o, bad.Err()
}

// tariffName refuses what cannot be a tariff's name.
func tariffName(name string) (string, error) {
	if err := ledger.CheckID(name); err != nil {
		return "", mistake("tariff", ledger.Fault{What: err.Error(), Hint: "use letters, digits, '-', '_' and '.', at most 64"})
	}
	return name, nil
}
