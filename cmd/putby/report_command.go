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
	many  bool           // many households can be asked at once
	by    *string        // what its rows are, where it has several kinds; with many

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
	across := &across{reporting: &r, by: r.by}
	if r.many {
		across.add(cmd)
	}
	if r.write == nil {
		r.write = func(g *ledger.Ledger, d reports.Doc) error { return a.printReport(g, d, *r.out) }
	}
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		if err := across.read(cmd); err != nil {
			return err
		}
		answer, err := r.ask(a.now(), args)
		switch {
		case err != nil:
			return err
		case across.dir != "":
			return across.run(a, answer)
		}
		return runReport(a, r, answer)
	}
	return cmd
}

func runReport(a *app, r reporting, answer answer) error {
	s, err := a.stand(*r.asOf)
	if err != nil {
		return err
	}
	g, d, err := r.report(s, answer)
	if err != nil {
		return err
	}
	return r.write(g, d)
}

// report joins a ledger as it stood on the day, and lays out what was asked.
func (r *reporting) report(s *standing, answer answer) (*ledger.Ledger, reports.Doc, error) {
	join := s.byDay
	if r.whole {
		join = s.wholeRuns
	}
	g, err := join(r.join)
	if err != nil {
		return nil, reports.Doc{}, err
	}
	d, err := answer(s, g)
	return g, d, err
}
