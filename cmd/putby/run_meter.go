package main

import (
	"context"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/energy"
	"putby/ledger"
	"putby/ledger/folder"
	reports "putby/ledger/report"
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
	in    entry.MeterIn
	split bool
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
	f.StringVar(&o.in.Time, "time", "", "`header` of the times (found)")
	f.StringVar(&o.in.Value, "value", "", "`header` of the power or the running total (found)")
	f.StringVar(&o.in.Solar, "solar", "", "`header` of what came from the roof; none: not read (found)")
	f.StringVar(&o.in.Unit, "unit", "", "`unit` of the values: W, kW, Wh or kWh (as their header says)")
	f.StringVar(&o.in.Zone, "zone", "", "of times without an offset: an IANA `zone` (the ledger's)")
	f.StringVar(&o.in.MaxGap, "max-gap", "", "`time` without rows that is a gap when longer (10m)")
	f.BoolVar(&o.in.Bridge, "bridge", false, "draw a straight line across gaps")
	f.StringVar(&o.in.RestartAt, "restarts-at", "", "`total` at which a running total starts again from 0")
	f.BoolVar(&o.in.Replace, "replace", false, "put it in the place of the log that is there")
	f.BoolVar(&o.split, "split", false, "suggest phases by the log")
	fixed(cmd, "unit", "W", "kW", "Wh", "kWh")
	o.saving.add(cmd)
	return cmd
}

func runRunMeter(ctx context.Context, a *app, o *runMeterOptions, args []string) error {
	o.in.Run = args[0]
	if len(args) == 1 {
		if !o.split {
			return misused("putby run meter needs the FILE of a log, or --split")
		}
		return a.splitRecorded(args[0])
	}
	file, err := openGiven(args[1])
	if err != nil {
		return err
	}
	defer file.Close()
	o.in.Path, o.in.Log = args[1], file
	show := a.progress("rows read")
	o.in.Progress = func(rows, _ int64) { show(int(rows), -1) }
	var rec *ledger.Records
	var read *reports.MeterRead
	act := entry.Act(func(b *entry.Base) (d *entry.Draft, err error) {
		rec = b.Records
		d, read, err = entry.TakeMeter(b, &o.in)
		show(0, 0) // clears the line
		return d, ofFile(args[1], "", err)
	})
	err = flagged(a.amend(ctx, o.saving, act.Amend, false))
	if err != nil || !o.split {
		return err
	}
	fmt.Fprintln(a.stdout)
	return a.saySplit(rec, read.Run, read.Log)
}

// splitRecorded suggests phases by the log that a run has.
func (a *app) splitRecorded(name string) error {
	rec, faults, err := folder.Read(a.ledgerDir())
	if err != nil {
		return err
	}
	rec.Settings.Wording = commands{}
	run, log, err := entry.RunLog(rec, name)
	if err != nil {
		return errors.Join(faults.Err(), err)
	}
	if log == nil {
		return notFound("run "+run.ID+" has no meter log", "putby run meter "+run.ID+" FILE takes one over")
	}
	return a.saySplit(rec, run, log)
}

// saySplit prints the phases that a log suggests, and how to record them.
func (a *app) saySplit(rec *ledger.Records, run *ledger.Run, log *energy.Log) error {
	d, ways := reports.SuggestedPhases(rec, run, log)
	if err := a.print(d, output{format: "table", alone: true}); err != nil || ways == nil {
		return err
	}
	fmt.Fprintln(a.stdout, "\nNone of it is recorded. These commands would:")
	for _, do := range ways {
		fmt.Fprintln(a.stdout, "  "+commands{}.Say(do))
	}
	return nil
}

// completeRuns offers the names of runs to the shell, then files.
func (a *app) completeRuns(cmd *cobra.Command, args []string, text string) ([]cobra.Completion, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveDefault
	}
	return a.completeFirst(ledger.Runs)(cmd, args, text)
}
