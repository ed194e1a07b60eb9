package main

import (
	"context"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/intake"
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
	in entry.PricesIn
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
	f.StringVar(&o.in.Tariff, "as", "", "the `tariff`, by its name (the one by the hour, or made from the rate's own)")
	f.StringVar(&o.in.From, "from", "", "first `date` that it holds (always, or the rate's start)")
	f.StringVar(&o.in.Tax, "tax", "", "`percent` on top of every band (0)")
	f.StringVar(&o.in.Rate, "rate", "", "`money` per kWh on top of the price of every hour (0)")
	oneOf(cmd, &o.in.Per, "per", "`unit`: prices are per %s, whatever they look like", intake.PerWords())
	f.StringVar(&o.in.Column, "column", "", "`header` of the prices (found)")
	f.StringVar(&o.in.Zone, "zone", "", "of times without an offset: an IANA `zone` (the ledger's)")
	oneOf(cmd, &o.in.Decimal, "decimal", "decimal `sign`: %s (found)", intake.DecimalWords())
	oneOf(cmd, &o.in.Dates, "dates", "`order` of dates: %s (found)", intake.OrderWords())
	f.StringVar(&o.in.Sheet, "sheet", "", "`sheet` of a workbook, by its name (the first)")
	f.BoolVar(&o.in.Replace, "replace", false, "take the file's prices where the ledger has other ones")
	f.StringVar(&o.in.Label, "label", "", "which rate, by its `label`, of a file with several")
	o.saving.add(cmd)
	return cmd
}

// runTariffImport brings in the prices of a file; where they are hardly those of what
// they are said to be for, a person is asked.
func runTariffImport(ctx context.Context, a *app, o *tariffImportOptions, path string) error {
	file, err := openGiven(path)
	if err != nil {
		return err
	}
	defer file.Close()
	if o.in.Data, err = intake.ReadAll(file); err != nil {
		return ofFile(path, "", err)
	}
	o.in.Path, o.in.Names = path, fileFlag
	hint := ""
	if intake.IsURDB(o.in.Data) {
		hint = "a rate has energyratestructure, energyweekdayschedule and energyweekendschedule: see putby tariff import --help"
	}
	per, unlikely := intake.AnyPer, (*ledger.Fault)(nil)
	act := entry.Act(func(b *entry.Base) (*entry.Draft, error) {
		d, err := entry.ImportPrices(b, &o.in)
		per, unlikely = intake.LikelyPer(err)
		return d, ofFile(path, hint, err)
	})
	err = flagged(a.amend(ctx, o.saving, act.Amend, false))
	if unlikely == nil || !a.ask {
		return err
	}
	err = a.hold("", func(t *ask.Talk) error {
		return t.Sure(path+": "+unlikely.What+".", "Take the prices as per "+per.String()+"?")
	})
	if err != nil {
		return err
	}
	o.in.Per = per.String()
	return flagged(a.amend(ctx, o.saving, act.Amend, false))
}
