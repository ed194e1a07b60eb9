package main

import (
	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	reports "putby/ledger/report"
)

const packAddLong = `Add a row of like containers. The food is the run's where it has but one; each
container gives, and takes with it, what the food's last pack did, unless you
say otherwise (--with "" for nothing). Without a run it is opening stock.

It says how many oxygen absorbers a container needs beside those used, what more
would cost, and how far fewer fall short. Freeze-dried food is mostly pores, so
nearly the whole container is gas: its volume less the dry weight at 1.5 kg/L of
solids. Air is 20.9 % oxygen. A 1 L jar with 120 g holds 920 mL of gas, and so
192.28 cc of oxygen; one absorber of 300 cc takes that up.

It notes packs that are together over 10 % off what was loaded, and prints the
food's caution. Absorbers are for dry food of low oil content only: moist food
sealed without oxygen can grow botulism. Test for dryness, and follow your
food-safety authority's guidance.

A run's food of which less than four fifths of the usual yield is packed is told
as packed in part, and awaits the rest; --all-packed says that there is no rest.

Needed: --count; and --item and --each where the ledger cannot know them.`

// packOptions are a pack, and that it is the last of its run's food.
type packOptions struct {
	addOptions
	all bool
}

func newPackAddCommand(a *app) *cobra.Command {
	k := ledger.MustKind("pack")
	o := &packOptions{}
	cmd := &cobra.Command{
		Use: "add", Short: "add a row of like containers", Long: packAddLong,
		Example: `  putby pack add --run c47 --count 6
  putby pack add --run c46 --count 1 --each "100 g" --dry "15 g" --with "1 bag-1l"
  putby pack add --item carrots --count 4 --each "500 g" --cost 6.40`,
		Args: arguments(),
		RunE: func(cmd *cobra.Command, _ []string) error { return a.runAdd(cmd, &o.addOptions, k, o.fill) },
	}
	o.columnFlags.add(a, cmd, k)
	cmd.Flags().BoolVar(&o.all, "all-packed", false, "nothing more of the run's food is to be packed (as --packed all)")
	a.addMeant(cmd, k)
	o.saving.add(cmd)
	return cmd
}

// fill is a pack with what to know of it.
func (o *packOptions) fill(f *form) (*draft, error) {
	if o.all {
		f.cells["packed"] = "all"
	}
	d, err := fillPlain(f)
	if err != nil {
		return d, err
	}
	if g, ok := entry.Joined(f.base.Records, d.Rows); ok {
		d.Notes = append(d.Notes, reports.PackAdvice(g, len(g.Packs)-1)...)
	}
	return d, nil
}
