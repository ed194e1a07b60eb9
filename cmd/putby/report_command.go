package main

import (
	"time"

	"github.com/spf13/cobra"

	"putby/ledger"
	reports "putby/ledger/report"
)

// A reporting is a command that prints a report: it reads its flags, joins the
// ledger as it stood on a day, and lays out what was asked.
type reporting struct {
	out  *output
	asOf *string // the day at which it stands, once ask has been called

	chart bool           // it can be drawn
	whole bool           // it is about whole runs, whose later packs count
	join  ledger.Options // beside the days

	flags func(*cobra.Command) // adds its own flags, which stand before those of output
	ask   func(now time.Time, args []string) (answer, error)
	write func(*ledger.Ledger, reports.Doc) error // nil: it is printed
}

// An answer reports on a ledger. It is what flags and arguments come to, which
// are read before the ledger is.
type answer func(*standing, *ledger.Ledger) (reports.Doc, error)

// newReportCommand makes a command of its texts and what it reports.
func newReportCommand(a *app, cmd *cobra.Command, r reporting) *cobra.Command {
	r.flags(cmd)
	r.out.add(cmd)
	if r.chart {
		r.out.addChart(cmd)
	}
	if r.write == nil {
		r.write = func(g *ledger.Ledger, d reports.Doc) error { return a.printReport(g, d, *r.out) }
	}
	cmd.RunE = func(_ *cobra.Command, args []string) error { return runReport(a, r, args) }
	return cmd
}

func runReport(a *app, r reporting, args []string) error {
	answer, err := r.ask(a.now(), args)
	if err != nil {
		return err
	}
	s, err := a.stand(*r.asOf)
	if err != nil {
		return err
	}
	join := s.byDay
	if r.whole {
		join = s.wholeRuns
	}
	g, err := join(r.join)
	if err != nil {
		return err
	}
	d, err := answer(s, g)
	if err != nil {
		return err
	}
	return r.write(g, d)
}
