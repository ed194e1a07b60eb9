package main

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

const countAddLong = `Record a stocktake: what is there at the end of a day, of a pack (in containers)
or of a food or supply in hand. Supplies are counted by the piece: of jars, bags
and lids that serve again the empty ones, of anything else what is left of it,
such as 2.5 cans of oil. What the books have beyond it is drawn as missing, and
you are told what that cost. More than the books have is refused: a receipt, a
run or a pack is lacking, and the fault says which it may be.

Of fresh food that is gone you are asked what became of it; --gone says it
without being asked: eaten, given or spoiled. It is then drawn as that.`

// countOptions are a stocktake, and what became of fresh food that is gone.
type countOptions struct {
	addOptions
	gone string
}

func newCountAddCommand(a *app) *cobra.Command {
	k := ledger.MustKind("count")
	o := &countOptions{}
	cmd := &cobra.Command{
		Use: "add", Short: "record a stocktake", Long: countAddLong,
		Example: addExamples["count"],
		Args:    arguments(),
		RunE:    func(cmd *cobra.Command, _ []string) error { return a.runAdd(cmd, &o.addOptions, k, o.fill) },
	}
	o.columnFlags.add(a, cmd, k)
	cmd.Flags().StringVar(&o.gone, "gone", "", "`what` became of fresh food that is gone: eaten, given or spoiled")
	fixed(cmd, "gone", goneWords...)
	a.addMeant(cmd, k)
	o.saving.add(cmd)
	return cmd
}

// goneWords say what becomes of fresh food.
var goneWords = []string{"eaten", "given", "spoiled"}

// fill is a stocktake, asking first what was counted.
func (o *countOptions) fill(a *app, rec *ledger.Records, k ledger.Kind, given map[string]string) (*draft, error) {
	if o.gone != "" && !slices.Contains(goneWords, o.gone) {
		return nil, usageError{fmt.Errorf("--gone: %s is not one of: %s", exact.Quote(o.gone), strings.Join(goneWords, ", "))}
	}
	f := a.newForm(k, rec, given)
	if f.cells["pack"] == "" && f.cells["item"] == "" {
		if !a.ask {
			return nil, usageError{errors.New("a count needs --pack or --item")}
		}
		f.begin(a)
		name, err := a.askTarget(rec, "what was counted (a pack, a food or a supply)")
		if err != nil {
			return nil, err
		}
		column := "item"
		if slices.Contains(ledger.Packs.In(rec), name) {
			column = "pack"
		}
		f.cells[column] = name
	}
	if err := a.complete(f); err != nil {
		return nil, err
	}
	d := f.draft()
	return d, o.writeOff(a, rec, d)
}

// writeOff says what a stocktake writes off. Of fresh food it asks what became
// of it, and draws it as that.
func (o *countOptions) writeOff(a *app, rec *ledger.Records, d *draft) error {
	g, ok := entry.Joined(rec, d.rows)
	if !ok {
		return nil // the saving says what is wrong
	}
	gap, gone := reports.GapOf(g, len(g.Counts)-1)
	if !gone || !gap.Fresh() {
		if gone {
			d.notes = append(d.notes, gap.Lines()...)
		}
		return nil
	}
	if o.gone == "" && a.ask {
		var err error
		if o.gone, err = a.question("the books have more: "+gap.What()+". Was it eaten, given or spoiled (missing: nobody knows)", "eaten", ask.OneOf(append(goneWords, "missing")...)); err != nil {
			return err
		}
	}
	if !slices.Contains(goneWords, o.gone) {
		d.notes = append(d.notes, gap.Lines()...)
		return nil
	}
	count := d.rows[0].Cells
	reason := map[string]string{"eaten": "used"}[o.gone]
	draw := entry.Row{Kind: ledger.MustKind("draw"), Cells: map[string]string{
		"date": count["date"], "item": count["item"], "quantity": gap.Quantity().String(), "reason": cmp.Or(reason, o.gone),
	}}
	d.rows = append([]entry.Row{draw}, d.rows...)
	d.args = append(d.args, "--gone", o.gone)
	d.notes = append(d.notes, "Drawn as "+o.gone+": "+gap.What()+".")
	return nil
}

// askTarget asks for something that can be drawn or counted.
func (a *app) askTarget(rec *ledger.Records, what string) (string, error) {
	names := slices.Concat(ledger.Packs.In(rec), ledger.Foods.In(rec), ledger.Supplies.In(rec))
	return a.question(what, "", func(answer string) (string, error) {
		if name, ok := ask.Begun(answer, names); ok {
			return name, nil
		}
		if answer == "" {
			return "", errors.New("name one, or break off with Ctrl-C")
		}
		return "", unknownName(answer, ledger.Nearest(answer, names))
	})
}
