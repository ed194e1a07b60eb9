package main

import (
	"errors"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/question"
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
	o := &countOptions{}
	return newAdding(a, ledger.MustKind("count"), &cobra.Command{
		Use: "add", Short: "record a stocktake", Long: countAddLong,
		Example: addExamples["count"],
	}, adding{on: &o.addOptions, fill: o.fill, flags: func(cmd *cobra.Command) {
		cmd.Flags().StringVar(&o.gone, "gone", "", "`what` became of fresh food that is gone: eaten, given or spoiled")
		fixed(cmd, "gone", entry.Became...)
	}})
}

// fill is a stocktake, asking first what was counted.
func (o *countOptions) fill(f *form) (*draft, error) {
	if o.gone != "" && !slices.Contains(entry.Became, o.gone) {
		return nil, misused("--gone: %s is not one of: %s", exact.Quote(o.gone), strings.Join(entry.Became, ", "))
	}
	if f.cells["pack"] == "" && f.cells["item"] == "" {
		if f.talk == nil {
			return nil, misused("a count needs --pack or --item")
		}
		if _, err := f.askTarget("what was counted (a pack, a food or a supply)"); err != nil {
			return nil, err
		}
	}
	err := f.complete()
	d := f.draft()
	if err == nil {
		err = o.writeOff(f, d)
	}
	return d, err
}

// writeOff says what a stocktake writes off. Of fresh food it asks what became
// of it, and draws it as that.
func (o *countOptions) writeOff(f *form, d *draft) error {
	g, ok := entry.Joined(f.base.Records, d.Rows)
	if !ok {
		return nil // the saving says what is wrong
	}
	gap, gone := figures.GapOf(g, len(g.Counts)-1)
	if !gone {
		return nil
	}
	what := reports.GapWords(g, gap)
	reason, became := o.gone, append(slices.Clone(entry.Became), "missing")
	if gap.IsFresh() && reason == "" && f.talk != nil {
		var err error
		if reason, err = f.talk.Ask(ask.Question{
			Key: "gone", What: "the books have more: " + what + ". Was it eaten, given or spoiled (missing: nobody knows)", Offer: "eaten",
			Names: became, Check: ask.OneOf(became...), Aside: !f.asked(),
		}); err != nil {
			return err
		}
	}
	if !gap.IsFresh() || !slices.Contains(entry.Became, reason) {
		if f.asked() { // who is told before it is saved
			d.Notes = append(d.Notes, reports.WrittenOff(g, gap))
		}
		if gap.IsFresh() {
			d.Notes = append(d.Notes, reports.IfEaten(question.Flag))
		}
		return nil
	}
	draw := entry.GoneRow(d.Rows[0].Cells, reason, gap.Drawn(g).String())
	d.Rows = append([]entry.Row{draw}, d.Rows...)
	d.args = append(d.args, "--gone", reason)
	d.Notes = append(d.Notes, "Drawn as "+reason+": "+what+".")
	return nil
}

// askTarget asks for something that can be drawn or counted, and fills it in.
func (f *form) askTarget(what string) (string, error) {
	packs := ledger.Packs.In(f.base.Records)
	names := slices.Concat(packs, ledger.Foods.In(f.base.Records), ledger.Supplies.In(f.base.Records))
	name, err := f.talk.Ask(ask.Question{Key: "what", What: what, Names: names, Free: true, Check: func(answer string) (string, error) {
		if answer == "" {
			return "", errors.New("name one, or end it with Ctrl-C")
		}
		if name, ok := ask.Begun(answer, names); ok {
			return name, nil
		}
		if name := entry.Meant(f.base.Records, f.kind.Column("item"), answer); slices.Contains(names, name) {
			return name, nil
		}
		return "", entry.UnknownName(answer, ledger.Nearest(answer, names))
	}})
	column := "item"
	if slices.Contains(packs, name) {
		column = "pack"
	}
	if err == nil {
		f.cells[column] = name
	}
	return name, err
}
