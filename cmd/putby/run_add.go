package main

import (
	"errors"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

var runAddLong = `Add a run with its loads and phases in one go.

  --load "AMOUNT FOOD [from RECEIPT[:LINE]] [trays N] [wet W] [dry W] [lost A]"
      such as "5.5 kg apples wet 5.5 kg dry 880 g"; once for each food
  --phase "PHASE DURATION [WATTS W] [KWH kWh]"
      such as "primary 22h30m 640 W"; once for each, in order

A phase is ` + ledger.MustKind("phase").Column("phase").Help + `. On a
terminal you are asked for what is missing; the phases that the machine went
through last are offered. Loads that are more than the machine takes are named,
by volume and by weight.

` + reports.MachineCare + `

Needed: --start, --load, and --machine where there are several.`

type runOptions struct {
	addOptions
	loads, phases []string
}

func newRunAddCommand(a *app) *cobra.Command {
	k := ledger.MustKind("run")
	o := &runOptions{}
	cmd := &cobra.Command{
		Use: "add", Short: "add a run with its loads and phases", Long: runAddLong,
		Example: `  putby run add --start "2025-11-20 18:00" --kwh 14.2 --hands 25m \
    --load "2 kg squash wet 2 kg dry 272 g" \
    --phase "freezing 7h" --phase "primary 21h" --phase "secondary 5h"`,
		Args: arguments(),
		RunE: func(cmd *cobra.Command, _ []string) error { return a.runAdd(cmd, &o.addOptions, k, o.fill) },
	}
	o.columnFlags.add(a, cmd, k)
	cmd.Flags().StringArrayVar(&o.loads, "load", nil, "`what` went in; once for each food")
	cmd.Flags().StringArrayVar(&o.phases, "phase", nil, "a `phase` and how long it took; once for each, in order")
	a.completeLast(cmd, "load", ledger.Foods.In)
	var phases []string
	for _, word := range ledger.MustKind("phase").Column("phase").Words {
		phases = append(phases, word+" ")
	}
	fixed(cmd, "phase", phases...)
	a.addMeant(cmd, k)
	o.saving.add(cmd)
	return cmd
}

// fill is a run with its loads and phases.
func (o *runOptions) fill(a *app, rec *ledger.Records, k ledger.Kind, given map[string]string) (*draft, error) {
	f := a.newForm(k, rec, given)
	if err := a.complete(f); err != nil {
		return nil, err
	}
	parts, err := o.parts(a, f)
	if err != nil {
		return nil, err
	}
	d := f.draft()
	d.rows = append(d.rows, parts...)
	if g, ok := entry.Joined(rec, d.rows); ok {
		d.notes = append(d.notes, reports.LoadAdvice(g, len(g.Runs)-1)...)
	}
	for _, list := range []struct {
		flag  string
		texts []string
	}{{"--load", o.loads}, {"--phase", o.phases}} {
		for _, text := range list.texts {
			d.args = append(d.args, list.flag, text)
		}
	}
	return d, nil
}

// parts are the rows of loads and phases.
func (o *runOptions) parts(a *app, f *form) ([]entry.Row, error) {
	var rows []entry.Row
	run := f.cells["run"]
	if a.ask && len(o.loads) == 0 {
		if err := o.askLoads(a, f); err != nil {
			return nil, err
		}
	}
	for _, text := range o.loads {
		row, err := entry.ParseLoad(f.rec, run, text)
		if err != nil {
			return nil, usageError{err}
		}
		rows = append(rows, row)
	}
	if f.asked && len(o.phases) == 0 && f.cells["end"] == "" {
		if err := o.askPhases(a, f, rows); err != nil {
			return nil, err
		}
	}
	for i, text := range o.phases {
		row, err := entry.ParsePhase(run, i+1, text)
		if err != nil {
			return nil, usageError{err}
		}
		rows = append(rows, row)
	}
	return rows, nil
}

// askLoads asks for load after load until an empty answer.
func (o *runOptions) askLoads(a *app, f *form) error {
	f.begin(a)
	what, offer := `load, such as "5.5 kg apples wet 5.5 kg dry 880 g"`, ""
	if g, faults := ledger.Join(f.rec, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate}); len(faults) == 0 {
		offer = entry.UsualLoad(g, f.cells["machine"])
	}
	for {
		text, err := a.question(what, offer, func(answer string) (string, error) {
			if answer == "" && len(o.loads) == 0 {
				return "", errors.New("a run has a load; Ctrl-C breaks off")
			}
			if answer == "" {
				return "", nil
			}
			row, err := entry.ParseLoad(f.rec, f.cells["run"], answer)
			if err != nil {
				return "", err
			}
			if near, unknown := entry.Unknown(f.rec, row.Kind.Column("item"), row.Cells["item"]); unknown {
				return "", unknownName(row.Cells["item"], near)
			}
			return answer, nil
		})
		if err != nil {
			return err
		}
		if text == "" {
			return nil
		}
		o.loads = append(o.loads, text)
		what, offer = "another load (none)", ""
	}
}

// askPhases asks for all phases at once, offering the machine's usual ones.
func (o *runOptions) askPhases(a *app, f *form, loads []entry.Row) error {
	var foods []string
	for _, l := range loads {
		foods = append(foods, l.Cells["item"])
	}
	usual := strings.Join(entry.UsualPhases(f.rec, f.cells["machine"], foods), "; ")
	text, err := a.question("phases, with ; between", usual, func(answer string) (string, error) {
		for i, part := range splitParts(answer) {
			row, err := entry.ParsePhase(f.cells["run"], i+1, part)
			if err != nil {
				return "", err
			}
			if fault := row.Kind.CellFault(f.rec.Settings.Zone, "phase", row.Cells["phase"]); fault != nil {
				return "", faultText(fault)
			}
		}
		return answer, nil
	})
	o.phases = splitParts(text)
	return err
}

func splitParts(text string) []string {
	var parts []string
	for part := range strings.SplitSeq(text, ";") {
		if part = strings.TrimSpace(part); part != "" {
			parts = append(parts, part)
		}
	}
	return parts
}
