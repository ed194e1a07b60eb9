package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	reports "putby/ledger/report"
)

func runAddLong() string {
	return `Add a run with its loads and phases in one go.

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
}

type runOptions struct {
	addOptions
	phases []string
}

func newRunAddCommand(a *app) *cobra.Command {
	o := &runOptions{}
	return newAdding(a, ledger.MustKind("run"), &cobra.Command{
		Use: "add", Short: "add a run with its loads and phases", Long: runAddLong(),
		Example: `  putby run add --start "2025-11-20 18:00" --kwh 14.2 --hands 25m \
    --load "2 kg squash wet 2 kg dry 272 g" \
    --phase "freezing 7h" --phase "primary 21h" --phase "secondary 5h"`,
	}, adding{on: &o.addOptions, fill: o.fill, flags: func(cmd *cobra.Command) { o.flags(a, cmd) }})
}

func (o *runOptions) flags(a *app, cmd *cobra.Command) {
	cmd.Flags().StringArrayVar(&o.loads, "load", nil, "`what` went in; once for each food")
	cmd.Flags().StringArrayVar(&o.phases, "phase", nil, "a `phase` and how long it took; once for each, in order")
	a.completeLast(cmd, "load", ledger.Foods.In)
	fixed(cmd, "phase", around("", ledger.MustKind("phase").Column("phase").Words, " ")...)
}

// fill is a run with its loads and phases.
func (o *runOptions) fill(f *form) (*draft, error) {
	loads, phases := slices.Clone(o.loads), slices.Clone(o.phases)
	err := f.complete()
	if err == nil && f.talk != nil && len(loads) == 0 {
		loads, err = askLoads(f)
	}
	if err == nil && f.asked() && len(phases) == 0 && f.cells["end"] == "" {
		phases, err = askPhases(f, loads)
	}
	d := f.draft()
	for _, text := range loads {
		d.args = append(d.args, "--load", text)
	}
	for _, text := range phases {
		d.args = append(d.args, "--phase", text)
	}
	if err != nil {
		return d, err
	}
	made, err := entry.AddRun(f.base, entry.RunIn{Cells: f.cells, Loads: loads, Phases: phases})
	if err != nil {
		return d, err
	}
	d.Rows = made.Rows
	d.tell(f.base, made.Advise)
	return d, nil
}

// askLoads asks for load after load until an empty answer.
func askLoads(f *form) (loads []string, err error) {
	what, offer := `load, such as "5.5 kg apples wet 5.5 kg dry 880 g"`, f.base.UsualLoad(f.cells["machine"])
	for {
		text, err := f.talk.Ask(ask.Question{
			Key: fmt.Sprintf("load %d", len(loads)+1), What: what, Offer: offer, Names: ledger.Foods.In(f.base.Records),
			Help: "What went in: AMOUNT FOOD, then if you like: trays 3, wet 5.5 kg, dry 880 g, lost\n0.2 kg, from RECEIPT. The weights before and after tell how dry it is.",
			Check: func(answer string) (string, error) {
				if answer == "" && len(loads) > 0 {
					return "", nil
				}
				return answer, f.base.LoadFits(f.cells, loads, answer)
			},
		})
		if err != nil || text == "" {
			return loads, err
		}
		loads = append(loads, text)
		what, offer = "another load (none)", ""
	}
}

// askPhases asks for all phases at once, offering the machine's usual ones.
func askPhases(f *form, loads []string) ([]string, error) {
	text, err := f.talk.Ask(ask.Question{
		Key: "phases", What: "phases, with ; between", Offer: strings.Join(f.base.UsualPhases(f.cells, loads), "; "),
		Names: ledger.MustKind("phase").Column("phase").Words,
		Help:  "Each is PHASE DURATION, and if you like WATTS W or KWH kWh: freezing 8h; primary\n22h30m 640 W; secondary 5h.",
		Check: func(answer string) (string, error) {
			return answer, f.base.PhasesFit(f.cells, loads, splitParts(answer))
		},
	})
	return splitParts(text), err
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
