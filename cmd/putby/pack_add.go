package main

import (
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

const packAddLong = `Add rows of like containers, one for each food:

  6                       six more of what awaits packing, each as last time
  6 x 1 L                 each makes 1 L with water added again
  "chives 2 x 90 g"       of a run that dried several foods
  "apples 7 dry 75 g"     with the dry weight in one container
  "kale 2 x 1 kg with 1 jar-1l, 1 lid"   and what goes with one (with nothing)

What you do not say is taken from the ledger: the run is the last that is not
fully packed, the food the one of it that awaits packing, and each container and
what goes with it is as in the food's last pack (--with "" for nothing). The dry
weight is a container's part of what came out, where that was weighed. --run,
--item and the other flags say otherwise; --cost makes it opening stock.

You are told what the labels say, how many jars, lids and absorbers are free
before and after, and of packs that make over 130 % of what can have come out or
of what their jar takes (pieces keep their size; 1 kg a litre without a density);
--labels writes their labels at once.
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
as packed in part, and awaits the rest; --all-packed says that there is no rest.`

// packOptions are packs, and that they are the last of their run's food.
type packOptions struct {
	addOptions
	all    bool
	labels toFile // a sheet of labels
}

func newPackAddCommand(a *app) *cobra.Command {
	o := &packOptions{}
	return newAdding(a, ledger.MustKind("pack"), &cobra.Command{
		Use: "add [FOOD] COUNT [x EACH]...", Short: "add rows of like containers", Long: packAddLong,
		Example: `  putby pack add 6
  putby pack add "chicken-broth 5 x 1 L" --run c47 --with "1 jar-1l, 1 lid, 1 absorber-300"
  putby pack add --run c46 --count 1 --each "100 g" --dry "15 g" --with "1 bag-1l"
  putby pack add --item carrots --count 4 --each "500 g" --cost 6.40`,
		Args: cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error { return runPackAdd(cmd, a, o, args) },

		ValidArgsFunction: a.completeThings(ledger.Foods),
	}, adding{on: &o.addOptions, flags: func(cmd *cobra.Command) {
		cmd.Flags().StringVar(&o.labels.path, "labels", "", "write a sheet of their labels to this `file`, to print")
		cmd.Flags().BoolVar(&o.labels.force, "force", false, "replace the file of labels if it is there")
		_ = cmd.MarkFlagFilename("labels")
		cmd.Flags().BoolVar(&o.all, "all-packed", false, "nothing more of the run's food is to be packed (as --packed all)")
	}})
}

// runPackAdd packs what was said; on a terminal it asks for what was not.
func runPackAdd(cmd *cobra.Command, a *app, o *packOptions, words []string) error {
	in := entry.PackIn{Lines: entry.PackLines(words), Cells: o.given(cmd)}
	if o.all {
		in.Cells["packed"] = "all"
	}
	if o.labels.path != "" {
		if err := a.mayWrite(o.labels); err != nil {
			return err
		}
	}
	var packed *entry.Draft
	pack := func(b *entry.Base, in entry.PackIn) (d *entry.Draft, err error) {
		packed, err = entry.Pack(b, in)
		if err == nil && o.labels.path != "" {
			packed.Next = nil // which is done
		}
		return packed, err
	}
	err := errOpening
	if _, counted := in.Cells["count"]; a.ask && len(words) == 0 && !counted {
		err = a.askPacks(cmd, o, in, pack)
	}
	if errors.Is(err, errOpening) {
		err = a.act(cmd.Context(), o.saving, entry.AboutPacks(in), func(b *entry.Base) (*entry.Draft, error) { return pack(b, in) })
	}
	if errors.Is(err, entry.ErrLacks) && a.ask {
		err = a.runAdd(cmd, &o.addOptions, ledger.MustKind("pack"), func(f *form) (*draft, error) { return o.fill(f, pack) })
	}
	if err == nil && o.labels.path != "" && !o.dryRun {
		return a.labelPacks(packed.Rows, o.labels)
	}
	return err
}

// labelPacks writes a sheet of labels for packs that were just saved.
func (a *app) labelPacks(rows []entry.Row, to toFile) error {
	q := figures.LabelQuery{}
	for _, r := range rows {
		q.Packs = append(q.Packs, r.Cells["pack"])
	}
	g := a.check.Joined
	q.AsOf = a.at(g.Records).Today
	o := &labelsOptions{LabelOptions: page.LabelOptions{Paper: "a4", Size: "large"}}
	d, err := o.lay(g, q)
	if err != nil {
		return err
	}
	if err := a.writeOut(to, func(w io.Writer) error { return o.write(w, d) }); err != nil {
		return err
	}
	fmt.Fprintf(a.stdout, "Their labels are in %s, to print.\n", exact.Quote(to.path))
	return nil
}

// fill is a pack that a person is asked for, with what it comes to.
func (o *packOptions) fill(f *form, pack func(*entry.Base, entry.PackIn) (*entry.Draft, error)) (*draft, error) {
	if o.all {
		f.cells["packed"] = "all"
	}
	d, err := fillPlain(f)
	if err == nil {
		err = d.take(pack(f.base, entry.PackIn{Cells: f.cells}))
	}
	if err == nil {
		d.look = f.base.Foretell(&d.Draft)
	}
	return d, err
}
