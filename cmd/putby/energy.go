package main

import (
	"time"

	"github.com/spf13/cobra"

	"putby/ledger/figures"
	"putby/ledger/question"
)

const energyLong = `Show what runs use, by machine and by food: kWh, hours, kWh for each kilogram
of water removed (of runs whose loads were weighed wet and dry) and for each
litre, kilogram or piece loaded, with how many runs tell it, their mean and
their spread.

Where at least 4 runs of a food have different loads, a line of least squares
says what a run uses empty and what each unit adds, with standard errors, and
the kWh of a run at --load with the bounds within which one further run lies
9 times in 10.

These are estimates, and marked so (~). Runs of several foods count with their
machine alone; runs that spoiled are left out.`

type energyOptions struct {
	reportFlags
	machine, load string
}

func newEnergyCommand(a *app) *cobra.Command {
	o := &energyOptions{}
	return newReportCommand(a, &cobra.Command{
		Use:   "energy",
		Short: "what runs use, by food and machine",
		Long:  energyLong,
		Example: `  putby energy
  putby energy --item chicken-broth --load 5L
  putby energy --from 2025-01-01 --format csv --table lines`,
		Args: arguments(),
	}, reporting{on: &o.reportFlags, whole: true, flags: o.flags, ask: asking(o.query, question.Energy)})
}

func (o *energyOptions) flags(cmd *cobra.Command) {
	o.queryFlags.add(cmd)
	f := cmd.Flags()
	f.StringVar(&o.machine, "machine", "", "only this `machine`")
	f.StringVar(&o.load, "load", "", "read lines at this `amount`, such as 5L (their runs' mean)")
}

func (o *energyOptions) query(now time.Time, _ []string) (q figures.EnergyQuery, err error) {
	q.Machine = o.machine
	if q.Query, err = o.part(now); err == nil && o.load != "" {
		q.Load, err = question.ParseLoad(o.load)
	}
	return q, err
}
