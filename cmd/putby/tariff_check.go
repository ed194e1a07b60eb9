package main

import (
	"cmp"
	"errors"
	"path"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/folder"
	"putby/ledger/question"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

const tariffCheckLong = `Draw a week of a tariff by half hours, with a letter for the band that each falls
in, and list the bands with their rates. Times that no band covers are marked
with ! and named, over all dates; so are rows that never apply, since rows before
them cover all their times.

Of a tariff by the hour the prices of one day are listed too (--chart draws them):
that of --date, else today's or the last that is known; and times between the
first and the last price that have none.

NAME is a tariff (the one that settings.csv names). The week is that of --date,
with the prices and the season of that day; a holiday is drawn where it differs
from its weekday.

A gap is a fault only for a run that meets it, so the exit status is 0 with gaps
too. Faults of other records do not matter here.`

type tariffCheckOptions struct {
	reportFlags
	date string
}

func newTariffCheckCommand(a *app) *cobra.Command {
	o := &tariffCheckOptions{}
	return newReportCommand(a, &cobra.Command{
		Use:   "check [NAME]",
		Short: "draw a week by hours; name gaps and rows that never apply",
		Long:  tariffCheckLong,
		Example: `  putby tariff check
  putby tariff check harbour --date 2025-07-09
  putby tariff check standard --format json`,
		Args:              between(0, 1, "NAME"),
		ValidArgsFunction: a.completeFirst(ledger.Tariffs),
	}, reporting{on: &o.reportFlags, chart: true, ascii: true, look: func(args []string) (reports.Doc, error) { return o.look(a, args) },
		flags: func(cmd *cobra.Command) {
			cmd.Flags().StringVar(&o.date, "date", "", "draw the week of this `day` (today)")
		}})
}

// look draws the week that is asked for.
func (o *tariffCheckOptions) look(a *app, args []string) (d reports.Doc, err error) {
	rec, faults, err := a.readPrices()
	if err = cmp.Or(err, faults.Err()); err != nil {
		return d, err
	}
	q := figures.TariffQuery{Name: strings.Join(args, ""), Date: exact.DateIn(a.now().In(rec.Settings.Zone)), Latest: o.date == ""}
	if o.date != "" {
		if q.Date, err = parseDay("date", o.date); err != nil {
			return d, err
		}
	}
	d, err = question.TariffWeek(rec, q)
	if errors.As(err, new(*figures.UnknownError)) {
		err = noTariff(rec, err)
	}
	return d, err
}

// readPrices reads what tariffs need: settings, bands and holidays, with their
// faults alone. A ledger whose runs meet a gap can be asked about it.
func (a *app) readPrices() (*ledger.Records, ledger.Faults, error) {
	rec, faults, err := folder.Read(a.ledgerDir())
	if err == nil {
		a.write(&rec.Settings)
	}
	faults = slices.DeleteFunc(faults, func(f ledger.Fault) bool {
		return f.File != ledger.SettingsFile && f.File != ledger.TariffsFile && f.File != ledger.HolidaysFile && path.Dir(f.File) != ledger.RatesFolder
	})
	return rec, faults, err
}

// noTariff says which tariffs there are.
func noTariff(rec *ledger.Records, err error) error {
	if len(rec.Tariffs) == 0 {
		return notFound("there is no tariff yet", "putby tariff add --tariff NAME --rate MONEY, or putby tariff import FILE")
	}
	return notFound(err.Error(), "tariffs are in "+ledger.TariffsFile+"; putby tariff list shows them")
}

// parseDay reads a date that an option gives.
func parseDay(option, text string) (exact.Date, error) {
	date, err := exact.ParseDate(text)
	if err != nil {
		return date, question.OptionFault(option, "", "%v", err)
	}
	return date, nil
}
