package main

import (
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
)

const runAddLong = `Add a run with its loads and phases in one go.

  --load "AMOUNT FOOD [from RECEIPT[:LINE]] [trays N] [wet W] [dry W] [lost AMOUNT]"
      such as "5.5 kg apples wet 5.5 kg dry 880 g"; again for each food
  --phase "PHASE DURATION [WATTS W] [KWH kWh]"
      such as "primary 22h30m 640 W"; in order; the machine's usual ones are
      offered when you are asked

The phases are freezing, evacuation, primary, secondary, hold and defrost.`

type runOptions struct {
	addOptions
	loads, phases []string
}

func newRunAddCommand(a *app) *cobra.Command {
	k, _ := ledger.KindOf("run")
	o := &runOptions{}
	cmd := &cobra.Command{
		Use: "add", Short: "add a run with its loads and phases", Long: runAddLong + "\n\n" + columnHelp(k),
		Example: `  putby run add --machine dryer --start "2026-01-10 18:00" --kwh 14.2 \
    --load "6 L squash-puree" --phase "freezing 7h" --phase "primary 21h" --phase "secondary 5h"`,
		Args: arguments(),
		RunE: func(cmd *cobra.Command, _ []string) error {
			return runAdd(cmd, a, k, &o.addOptions, func(b *folder.Book, cells map[string]string) ([]entry.Row, error) {
				return a.runParts(o, b, cells)
			})
		},
	}
	o.addOptions.add(cmd, k)
	cmd.Flags().StringArrayVar(&o.loads, "load", nil, "what went in; again for each food")
	cmd.Flags().StringArrayVar(&o.phases, "phase", nil, "a phase; again for each, in order")
	return cmd
}

// runParts turns the loads and phases into rows, asking for those that are
// missing.
func (a *app) runParts(o *runOptions, b *folder.Book, cells map[string]string) ([]entry.Row, error) {
	rec, _ := b.Records()
	if err := a.askParts(o, rec, cells); err != nil {
		return nil, err
	}
	var rows []entry.Row
	for _, text := range o.loads {
		row, err := entry.ParseLoad(cells["run"], text)
		if err != nil {
			return nil, usageError{err}
		}
		rows = append(rows, row)
	}
	for i, text := range o.phases {
		row, err := entry.ParsePhase(cells["run"], i+1, text)
		if err != nil {
			return nil, usageError{err}
		}
		rows = append(rows, row)
	}
	return rows, nil
}

func (a *app) askParts(o *runOptions, rec *ledger.Records, cells map[string]string) error {
	if !a.ask {
		return nil
	}
	for len(o.loads) == 0 {
		answer, err := a.question(`load, such as "5.5 kg apples"; several with ; between`, "")
		if err != nil {
			return err
		}
		o.loads = splitParts(answer)
	}
	if len(o.phases) == 0 && cells["end"] == "" {
		answer, err := a.question("phases", strings.Join(entry.UsualPhases(rec, cells["machine"]), "; "))
		if err != nil {
			return err
		}
		o.phases = splitParts(answer)
	}
	return nil
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
