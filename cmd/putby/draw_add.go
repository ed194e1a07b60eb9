package main

import (
	"errors"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/folder"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

var drawAddLong = `Record what was taken out.

  --pack PACK   containers of that pack
  --food FOOD   containers of that food, of the pack soonest due; where that
                does not hold enough, of the next too
  --item ITEM   an amount of fresh food in hand, or pieces of a supply: a broken
                jar, a can of oil. Jars that stay with a neighbour are given

One container is taken unless --quantity says otherwise. The reason is
` + ledger.MustKind("draw").Column("reason").Help + `. The food's caution is printed when it is opened.`

type drawOptions struct {
	addOptions
	food string
}

func newDrawAddCommand(a *app) *cobra.Command {
	k := ledger.MustKind("draw")
	o := &drawOptions{}
	cmd := &cobra.Command{
		Use: "add", Short: "record what was taken out", Long: drawAddLong,
		Example: `  putby draw add --food chicken-broth
  putby draw add --pack c46-a --quantity 2 --reason given --date yesterday
  putby draw add --item onions --quantity "0.5 kg" --reason spoiled`,
		Args: arguments(),
		RunE: func(cmd *cobra.Command, _ []string) error { return a.runAdd(cmd, &o.addOptions, k, o.fill) },
	}
	o.columnFlags.add(a, cmd, k)
	cmd.Flags().StringVar(&o.food, "food", "", "take containers of this `food`, soonest due first")
	a.completeFlag(cmd, "food", ledger.Foods.In)
	a.addMeant(cmd, k)
	o.saving.add(cmd)
	return cmd
}

// fill is a draw, or the draws that take containers of a food.
func (o *drawOptions) fill(a *app, rec *ledger.Records, k ledger.Kind, given map[string]string) (*draft, error) {
	if o.food != "" && (given["pack"] != "" || given["item"] != "") {
		return nil, usageError{errors.New("--food chooses the pack itself: leave out --pack and --item")}
	}
	g, faults := ledger.Join(rec, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
	if len(faults) > 0 {
		return nil, &folder.Refusal{Faults: faults, Already: true}
	}
	f := a.newForm(k, rec, given)
	if err := o.target(a, g, f); err != nil {
		return nil, err
	}
	if err := a.complete(f); err != nil {
		return nil, err
	}
	d := f.draft()
	if o.food != "" {
		if err := o.spread(d, g, f); err != nil {
			return nil, err
		}
	}
	if reason := f.cells["reason"]; reason != ledger.Spoiled.String() {
		names := entry.Drawn(d.rows)
		d.notes = append(d.notes, reports.PastDue(g, f.at.Day(f.cells["date"]), names...)...)
		d.after = reports.Opened(g, names...)
	}
	return d, nil
}

// target finds out what is drawn from, asking if need be. A food of which packs
// are in store is taken from those.
func (o *drawOptions) target(a *app, g *ledger.Ledger, f *form) error {
	one := map[string]string{"quantity": "1"}
	if o.food != "" {
		f.offers = one
		return nil
	}
	if f.cells["pack"] != "" || f.cells["item"] != "" {
		return nil
	}
	if !a.ask {
		return usageError{errors.New("a draw needs --pack, --food or --item")}
	}
	f.begin(a)
	name, err := a.askTarget(f.rec, "what was taken (a pack, a food or a supply)")
	if err != nil {
		return err
	}
	inStore := 0
	if food, ok := g.FindFood(name); ok {
		inStore = figures.InStore(g, food)
	}
	switch {
	case slices.Contains(ledger.Packs.In(f.rec), name):
		f.cells["pack"] = name
	case inStore > 0:
		o.food = name
		f.offers = one
		a.tell("  of the %d containers in store, those soonest due (for fresh food in hand: --item)", inStore)
	default:
		f.cells["item"] = name
	}
	return nil
}

// spread turns the draw of a food into draws of its packs.
func (o *drawOptions) spread(d *draft, g *ledger.Ledger, f *form) error {
	takings, err := reports.SoonestDue(g, o.food, f.cells["quantity"], f.at.Day(f.cells["date"]))
	if err != nil {
		return err
	}
	d.rows = nil
	for _, t := range takings {
		d.rows = append(d.rows, entry.DrawRow(f.kind, f.cells, t.Pack, t.Count))
		d.notes = append(d.notes, fmt.Sprintf("%d from pack %s, %s.", t.Count, t.Pack, dueText(t.BestBy)))
	}
	d.args = append(d.args, "--food", o.food)
	return nil
}

func dueText(d exact.Date) string {
	if d == exact.NoDate {
		return "which has no best-by date"
	}
	return "best by " + d.String()
}
