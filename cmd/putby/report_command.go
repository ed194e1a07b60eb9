package main

import (
	"io"
	"time"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/render"
	"putby/ledger"
	"putby/ledger/folder"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

// reportFlags are those that reports have in common: what part of the ledger they
// are of, which not all of them ask for, and how they are printed.
type reportFlags struct {
	output
	queryFlags
}

// A reporting is a command that prints a report: it reads its flags, joins the
// ledger as it stood on a day, and lays out what was asked. Where look is set it
// lays out the files as they are, and nothing is joined.
type reporting struct {
	on    *reportFlags
	flags func(*cobra.Command) // adds its own flags, which stand before those of output
	ask   func(now time.Time, args []string) (answer, error)
	look  func(args []string) (reports.Doc, error)

	chart, ascii bool           // it can be drawn, and with ASCII characters alone
	whole        bool           // it is about whole runs, whose later packs count
	join         ledger.Options // beside the days
	many         bool           // many households can be asked at once
	by           *string        // what its rows are, where it has several kinds; with many
	hint         string         // what to try where a name is of nothing
	line         []string       // the command line

	warn   bool                               // what is odd about the folder is said, too
	closed bool                               // it is of one thing, and not told what is later
	file   *toFile                            // it can be written to a file
	html   func(io.Writer, reports.Doc) error // the HTML of that, where it is not the usual
	end    func() error                       // what is wrong, once it is printed
}

// An answer reports on a ledger. It is what flags and arguments come to, which
// are read before the ledger is.
type answer func(*standing, *ledger.Ledger) (reports.Doc, error)

// asking reads a query, and reports on each ledger as it stands on its own day:
// there may be several at once.
func asking[Q any, P interface {
	*Q
	StandAt(exact.Date)
}](read func(now time.Time, args []string) (Q, error), report func(*ledger.Ledger, Q) (reports.Doc, error)) func(time.Time, []string) (answer, error) {
	return func(now time.Time, args []string) (answer, error) {
		asked, err := read(now, args)
		return func(s *standing, g *ledger.Ledger) (reports.Doc, error) {
			q := asked
			P(&q).StandAt(s.day)
			return report(g, q)
		}, err
	}
}

// newReportCommand makes a command of its texts and what it reports.
func newReportCommand(a *app, cmd *cobra.Command, r reporting) *cobra.Command {
	if r.flags != nil {
		r.flags(cmd)
	}
	r.on.output.add(cmd)
	if r.chart {
		cmd.Flags().BoolVar(&r.on.chart, "chart", false, "draw bars beside the figures")
	}
	if r.ascii {
		cmd.Flags().BoolVar(&r.on.ascii, "ascii", false, "draw with ASCII characters alone")
	}
	across := &across{reporting: &r, by: r.by}
	if r.many {
		across.add(cmd)
	}
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		r.line = a.args
		if err := across.read(cmd); err != nil {
			return err
		}
		if r.look != nil {
			d, err := r.look(args)
			if err != nil {
				return err
			}
			return a.print(d, r.on.output)
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
	if _, err := render.ParseFormat(r.on.format); err != nil && r.html != nil {
		return misused("%v", err)
	}
	s, err := a.stand(r.on.asOf)
	if err != nil {
		return err
	}
	if r.warn {
		warnings, err := folder.Warnings(a.ledgerDir())
		if err != nil {
			return err
		}
		defer a.sayWarnings(warnings)
	}
	g, d, err := r.report(s, answer)
	if err != nil {
		return err
	}
	if !r.closed {
		d = withLeftOut(g, d)
	}
	if err := r.write(a, d); err != nil || r.end == nil {
		return err
	}
	return r.end()
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
	if r.hint != "" {
		err = unknownIn(s.rec, err, r.line, r.hint)
	}
	return g, d, err
}

// write prints a report, or writes it to the file asked for.
func (r *reporting) write(a *app, d reports.Doc) error {
	if r.file == nil {
		return a.print(d, r.on.output)
	}
	return a.writeOut(*r.file, func(w io.Writer) error {
		if r.html != nil && r.on.format == render.HTML.String() {
			return r.html(w, d)
		}
		return a.printTo(w, d, r.on.output)
	})
}
