package main

import (
	"bytes"
	"errors"

	"github.com/spf13/cobra"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/folder"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

const todayLong = `Show on one screen what the day needs: what is running and how long; what awaits
packing; fresh food in the order in which the machine should take it, with the
cheapest start from 7:00 to 22:00 that leaves it and all behind it in time, or
that it is to be frozen or eaten instead; the packs to eat first; for how many
loads there are jars and absorbers; this month so far beside the last; what the
machine has paid; what is wrong. Each line names the command that deals with it.
In a ledger's folder putby alone shows it too.

Records with faults do not stop it: it says what it can, without sums of money.
--format json has all of it, however much the screen has room for.`

type todayOptions struct {
	output
	asOf string
}

func newTodayCommand(a *app) *cobra.Command {
	o := &todayOptions{}
	cmd := &cobra.Command{
		Use: "today", Short: "what the day needs, on one screen", Long: todayLong,
		Example: "  putby today\n  putby today --as-of yesterday --format json",
		Args:    arguments(),
		RunE:    func(*cobra.Command, []string) error { return runToday(a, o) },
	}
	o.output.add(cmd)
	addAsOf(cmd.Flags(), &o.asOf)
	return cmd
}

// runToday shows the day, whatever is wrong with the records.
func runToday(a *app, o *todayOptions) error {
	s, err := a.stand(o.asOf)
	if err != nil {
		return err
	}
	warnings, err := folder.Warnings(a.ledgerDir())
	if err != nil {
		return err
	}
	state := reports.TodayState{DayAsked: o.asOf != "", Machine: a.machine}
	for _, w := range warnings {
		state.Copies = append(state.Copies, w.What)
	}
	g, err := s.byDay(ledger.Options{})
	faulty := errors.As(err, &state.Faults)
	if err != nil && !faulty {
		return err
	}
	r, err := figures.Today(g, figures.TodayQuery{Now: s.at.Now, Faulty: faulty, Start: exact.Some(reports.TodayStart)})
	if err != nil {
		return err
	}
	err = a.printScreen(o.output, func(room reports.Room) reports.Doc { return reports.Today(g, r, state, room) })
	if err == nil && faulty {
		err = errors.Join(errTold, state.Faults)
	}
	return err
}

// errTold: a report has told of the faults already.
var errTold = errors.New("told already")

// A screen of the usual size, in lines and columns.
const (
	screenLines   = 24
	screenColumns = 80
)

// printScreen prints as much of a report as one screen has room for. On a narrow
// one it may be longer, rather than cut.
func (a *app) printScreen(o output, report func(reports.Room) reports.Doc) error {
	least := reports.Room(0)
	if a.width > 0 && a.width < screenColumns {
		least = reports.WholeRoom
	}
	for room := reports.MostRoom; ; room-- {
		var screen bytes.Buffer
		if err := a.printTo(&screen, report(room), o); err != nil {
			return err
		}
		if room == least || bytes.Count(screen.Bytes(), []byte("\n")) <= screenLines || o.format != "table" {
			_, err := a.stdout.Write(screen.Bytes())
			return err
		}
	}
}

// runAlone is putby without a command: today in a ledger's folder, else the help.
func runAlone(a *app, cmd *cobra.Command) error {
	err := runToday(a, &todayOptions{output: output{format: "table"}})
	if errors.Is(err, folder.ErrNotLedger) && a.ledgerDir() == "." {
		return cmd.Help()
	}
	return err
}
