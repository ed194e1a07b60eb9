package main

import (
	"cmp"
	"strconv"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

func drawAddLong() string {
	return `Record what was taken out.

  --pack PACK   containers of that pack
  --food FOOD   containers of that food, of the pack with the first best-by;
                where that does not hold enough, of the next too
  --item ITEM   an amount of fresh food in hand, or pieces of a supply: a broken
                jar, a can of oil. Jars that stay with a neighbour are given

One container is taken unless --quantity says otherwise. The reason is
` + ledger.MustKind("draw").Column("reason").Help + `. The food's caution is printed when it is opened.`
}

type drawOptions struct{ addOptions }

func newDrawAddCommand(a *app) *cobra.Command {
	k := ledger.MustKind("draw")
	o := &drawOptions{}
	return newAdding(a, k, &cobra.Command{
		Use: "add", Short: "record what was taken out", Long: drawAddLong(),
		Example: `  putby draw add --food chicken-broth
  putby draw add --pack c46-a --quantity 2 --reason given --date yesterday
  putby draw add --item onions --quantity "0.5 kg" --reason spoiled`,
		RunE: func(cmd *cobra.Command, _ []string) error {
			a.check.Brief = true // what a draw comes to does not ask for lots
			return a.runAdd(cmd, &o.addOptions, k, o.fill)
		},
	}, adding{on: &o.addOptions, flags: func(cmd *cobra.Command) {
		cmd.Flags().StringVar(&o.food, "food", "", "take containers of this `food`, the first best-by first")
	}})
}

// fill is a draw, or the draws that take containers of a food.
func (o *drawOptions) fill(f *form) (*draft, error) {
	food := o.food
	if food != "" && (f.cells["pack"] != "" || f.cells["item"] != "") {
		return nil, misused("--food chooses the pack itself: leave out --pack and --item")
	}
	if food == "" && f.cells["pack"] == "" && f.cells["item"] == "" {
		var err error
		if food, err = askDrawn(f); err != nil {
			return nil, err
		}
	}
	if food != "" {
		return fillOfFood(f, food)
	}
	err := f.complete()
	d := f.draft()
	if err == nil {
		err = d.take(entry.Draw(f.base, f.cells), nil)
	}
	return d, err
}

// fillOfFood is the draws that take containers of a food, as take has them.
func fillOfFood(f *form, food string) (*draft, error) {
	if _, known := ledger.Meant(food, f.base.Records.NamedFoods()); !known {
		return nil, notFound("--food: no food is called "+exact.Quote(food), cmp.Or(ledger.Nearest(food, ledger.Foods.In(f.base.Records)), foodHint))
	}
	take := func(count string) (*entry.Draft, error) {
		if n, err := strconv.Atoi(count); err != nil || n < 1 {
			return nil, mistyped(exact.Quote(count)+" is not a whole number of containers", "write how many, such as 2; fresh food in hand is taken by --item and an amount")
		}
		return entry.Take(f.base, entry.TakeIn{Things: []string{count + " " + food}, Reason: f.cells["reason"], Date: f.cells["date"], Note: f.cells["note"]})
	}
	f.offers = map[string]string{"quantity": "1"}
	f.check = map[string]func(string) error{"quantity": func(count string) error { _, err := take(count); return err }}
	err := f.complete()
	d := f.draft()
	d.args = append(d.args, "--food", food)
	if err != nil {
		return d, err
	}
	if err = d.take(take(f.cells["quantity"])); err == nil && f.asked() {
		d.look = f.base.Foretell(&d.Draft)
	}
	return d, err
}

// askDrawn asks what is drawn from. It returns a food of which packs are in
// store, which is taken from those; anything else it fills in.
func askDrawn(f *form) (food string, err error) {
	if f.talk == nil {
		return "", misused("a draw needs --pack, --food or --item")
	}
	name, err := f.askTarget("what was taken (a pack, a food or a supply)")
	if err != nil || f.cells["pack"] != "" {
		return "", err
	}
	g := f.base.Store([]string{name}, nil)
	if at, ok := g.FindFood(name); ok && figures.InStore(g, at) > 0 {
		f.talk.Tell("  of the %d containers in store, those with the first best-by (for fresh food in hand: --item)", figures.InStore(g, at))
		delete(f.cells, "item")
		return name, nil
	}
	return "", nil
}
