package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

const drawAddLong = `Record what was taken out: containers of a pack, or with --item food or supplies
in hand. --food takes containers of a food from the pack soonest due, going on
to the next when one does not hold enough.`

type drawOptions struct {
	addOptions
	food string
}

func newDrawAddCommand(a *app) *cobra.Command {
	k, _ := ledger.KindOf("draw")
	o := &drawOptions{}
	cmd := &cobra.Command{
		Use: "add", Short: "record what was taken out", Long: drawAddLong + "\n\n" + columnHelp(k),
		Example: `  putby draw add --food chicken-broth --quantity 2
  putby draw add --item onions --quantity "0.5 kg" --reason spoiled`,
		Args: arguments(),
		RunE: func(cmd *cobra.Command, _ []string) error {
			if o.food != "" {
				return runDrawFood(cmd, a, k, o)
			}
			return runAdd(cmd, a, k, &o.addOptions, nil)
		},
	}
	o.addOptions.add(cmd, k)
	cmd.Flags().StringVar(&o.food, "food", "", "take containers of this `food`, soonest due first")
	return cmd
}

// runDrawFood spreads a draw over the packs of a food.
func runDrawFood(cmd *cobra.Command, a *app, k ledger.Kind, o *drawOptions) error {
	given := o.given(cmd)
	if given["pack"] != "" || given["item"] != "" {
		return usageError{fmt.Errorf("--food chooses the pack itself: leave out --pack and --item")}
	}
	return a.withBook(cmd.Context(), func(b *folder.Book) error {
		rec, faults := b.Records()
		if len(faults) > 0 {
			return faults
		}
		g, faults := ledger.Join(rec, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
		if len(faults) > 0 {
			return faults
		}
		cells, err := a.complete(k, rec, given)
		if err != nil {
			return err
		}
		takings, err := reports.SoonestDue(g, o.food, cells["quantity"])
		if err != nil {
			return err
		}
		var rows []entry.Row
		for _, t := range takings {
			rows = append(rows, entry.DrawRow(k, cells, t.Pack, t.Count))
			fmt.Fprintf(a.stdout, "%d from pack %s, best by %s\n", t.Count, t.Pack, t.BestBy)
		}
		return a.saveRows(b, o.saving, rows)
	})
}
