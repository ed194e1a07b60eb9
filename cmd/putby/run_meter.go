package main

import (
	"context"
	"fmt"
	"os"
	"time"

	"github.com/spf13/cobra"

	"putby/energy"
	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/intake"
	"putby/ledger/question"
	"putby/pricing/exact"
)

const runMeterLong = `Take over a plug meter's log of a run, as meter/RUN.csv. It says how much the run
drew and when, and outranks watts.

FILE is CSV with a column of times and one of power (W, kW) or of a running total
(Wh, kWh), told by their headers. Times are ISO 8601, day.month.year with a clock
time, or seconds or milliseconds since 1970; without an offset they are local.
With semicolons or tabs between cells a decimal comma is read.

A column of what of the draw came from your own roof (headed solar, roof or PV; in
W, kW, percent, or a share from 0 to 1) is kept too, as solar in W: that part costs
what the tariff "export" would have paid for it. It is the machine's own share, not
all that the roof gave; --solar none reads the log without it.

What lies outside the run is left out. Samples on a straight line between others
are dropped, which changes no energy. A time without rows that is longer than
--max-gap is named, and nothing is drawn in it unless --bridge is given; a
running total has counted on, and is spread over it evenly.

--split looks for where the vacuum pump joins and where the draw settles, and
prints the phases that this suggests, how plain the log is about each (from 0 to
1), and the commands that would record them. It never records them itself.
Without FILE it looks at the log that the run has.`

type runMeterOptions struct {
	saving
	timeColumn, valueColumn, solarColumn, unit, zone, maxGap, restart string
	bridge, replace, split                                            bool
}

// newRunCommand is the command of runs: like all records, and meter.
func newRunCommand(a *app) *cobra.Command {
	cmd := newRecordCommand(a, "run", newRunAddCommand(a))
	cmd.AddCommand(newRunMeterCommand(a))
	return cmd
}

func newRunMeterCommand(a *app) *cobra.Command {
	o := &runMeterOptions{}
	cmd := &cobra.Command{
		Use:   "meter RUN [FILE]",
		Short: "take over a plug meter's log; suggest phases by it",
		Long:  runMeterLong,
		Example: `  putby run meter c43 --split
  putby run meter c47 plug.csv --dry-run
  putby run meter c47 plug.csv --value "total (kWh)" --restarts-at 1000 --replace`,
		Args:              between(1, 2, "RUN and FILE"),
		ValidArgsFunction: a.completeRuns,
		RunE:              func(cmd *cobra.Command, args []string) error { return runRunMeter(cmd.Context(), a, o, args) },
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.StringVar(&o.timeColumn, "time", "", "`header` of the times (found)")
	f.StringVar(&o.valueColumn, "value", "", "`header` of the power or the running total (found)")
	f.StringVar(&o.solarColumn, "solar", "", "`header` of what came from the roof; none: not read (found)")
	f.StringVar(&o.unit, "unit", "", "`unit` of the values: W, kW, Wh or kWh (as their header says)")
	f.StringVar(&o.zone, "zone", "", "of times without an offset: an IANA `zone` (the ledger's)")
	f.StringVar(&o.maxGap, "max-gap", "", "`time` without rows that is a gap when longer (10m)")
	f.BoolVar(&o.bridge, "bridge", false, "draw a straight line across gaps")
	f.StringVar(&o.restart, "restarts-at", "", "`total` at which a running total starts again from 0")
	f.BoolVar(&o.replace, "replace", false, "put it in the place of the log that is there")
	f.BoolVar(&o.split, "split", false, "suggest phases by the log")
	fixed(cmd, "unit", "W", "kW", "Wh", "kWh")
	o.saving.add(cmd)
	return cmd
}

func runRunMeter(ctx context.Context, a *app, o *runMeterOptions, args []string) error {
	if len(args) == 1 {
		if !o.split {
			return usageError{fmt.Errorf("putby run meter needs the FILE of a log, or --split")}
		}
		return a.splitRecorded(args[0])
	}
	return a.withBook(ctx, o.saving, func(b *folder.Book) error {
		rec, _ := b.Records()
		run, err := findRun(rec, args[0])
		if err != nil {
			return err
		}
		if rec.Meters[run.ID] != nil && !o.replace {
			return logThere(run.ID)
		}
		in, err := a.readMeter(o, rec, run, args[1])
		if err != nil {
			return err
		}
		if err := a.edit(b, o.saving, func(tx *folder.Tx) error { return o.put(tx, run.ID, in.kept, rec) }, nil); err != nil {
			return err
		}
		a.sayMeter(in)
		if o.split {
			fmt.Fprintln(a.stdout)
			return a.saySplit(rec, run, in.kept)
		}
		return nil
	})
}

// put writes a log, in the place of another one only with --replace.
func (o *runMeterOptions) put(tx *folder.Tx, run string, log *energy.Log, rec *ledger.Records) error {
	name := ledger.MeterFolder + "/" + run + ".csv"
	have, err := tx.ReadFile(name)
	if err != nil {
		return err
	}
	if have != nil && !o.replace {
		return logThere(run)
	}
	return tx.WriteFile(name, folder.PrintLog(log, rec.Settings.Zone))
}

func logThere(run string) error {
	return &question.Error{
		Option: "replace", Why: ledger.MeterFolder + "/" + run + ".csv is there already",
		Hint: "give --replace to put this log in its place",
	}
}

// findRun finds a run by its name.
func findRun(rec *ledger.Records, name string) (*ledger.Run, error) {
	for i := range rec.Runs {
		if rec.Runs[i].ID == name {
			return &rec.Runs[i], nil
		}
	}
	return nil, notFound("there is no run called "+exact.Quote(name), "putby run list shows what there is")
}

// A meterIn is a log that has been read for a run.
type meterIn struct {
	file  string
	run   *ledger.Run
	ended bool // the records say when the run ended
	kept  *energy.Log
	about intake.LogReport
	// bridged says that a straight line is drawn across gaps.
	bridged bool
	kwh     exact.Ratio // within the run
	solar   exact.Ratio // of which came from the roof
	zone    *time.Location
	show    ledger.Show
}

// readMeter reads the part of a foreign log that a run spans.
func (a *app) readMeter(o *runMeterOptions, rec *ledger.Records, run *ledger.Run, path string) (*meterIn, error) {
	options, err := o.logOptions(rec.Settings.Zone)
	if err != nil {
		return nil, err
	}
	in := &meterIn{file: path, run: run, zone: rec.Settings.Zone, show: rec.Settings.Show(), bridged: o.bridge}
	var end time.Time
	end, in.ended = ledger.EndOf(rec, run)
	options.From = exact.Some(run.Start)
	if in.ended {
		options.To = exact.Some(end)
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	if show := a.progress("rows read"); show != nil {
		options.Progress = func(rows, _ int64) { show(int(rows), -1) }
		defer show(0, 0) // clears the line
	}
	if in.kept, in.about, err = intake.ReadLog(file, options); err != nil {
		return nil, placedFaults(path, err)
	}
	if !in.ended {
		end = in.kept.Last()
	}
	in.kwh, in.solar = in.kept.Energy(run.Start, end), in.kept.SolarEnergy(run.Start, end)
	return in, nil
}

// logOptions reads the flags that say how to read a log.
func (o *runMeterOptions) logOptions(zone *time.Location) (l intake.LogOptions, err error) {
	l = intake.LogOptions{Zone: zone, Bridge: o.bridge, TimeColumn: o.timeColumn, ValueColumn: o.valueColumn, SolarColumn: o.solarColumn}
	wrong := func(option string, err error, hint string) error {
		return &question.Error{Option: option, Why: err.Error(), Hint: hint}
	}
	if o.zone != "" {
		if err := ledger.CheckZone(o.zone); err != nil {
			return l, wrong("zone", err, "write an IANA name, such as UTC or Europe/Vienna")
		}
		l.Zone, _ = time.LoadLocation(o.zone)
	}
	if o.unit != "" {
		if l.Unit, err = exact.ParseUnit(o.unit); err != nil {
			return l, wrong("unit", err, "W, kW, Wh or kWh")
		}
	}
	if o.maxGap != "" {
		if l.MaxGap, err = exact.ParseDuration(o.maxGap); err != nil {
			return l, wrong("max-gap", err, "write it as 10m or 1h30m")
		}
	}
	if o.restart != "" {
		n, err := exact.ParseNumber(o.restart)
		if err != nil || n.Sign() <= 0 {
			return l, wrong("restarts-at", fmt.Errorf("%s is not a reading above 0", exact.Quote(o.restart)), "write it in the column's unit, such as 1000")
		}
		l.Modulus = exact.Some(n)
	}
	return l, nil
}

// completeRuns offers the names of runs to the shell, then files.
func (a *app) completeRuns(cmd *cobra.Command, args []string, text string) ([]cobra.Completion, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveDefault
	}
	return a.completeFirst(ledger.Runs)(cmd, args, text)
}
