package main

import (
	"errors"
	"slices"

	"github.com/spf13/cobra"

	"putby/ledger"
)

const countAddLong = `Record a stocktake: what is there at the end of a day, of a pack (in containers)
or of a food or supply in hand. What the books have beyond it is drawn as
missing. More than the books have is refused: a receipt, a run or a pack is
lacking, and the fault says which it may be.`

func newCountAddCommand(a *app) *cobra.Command {
	k := ledger.MustKind("count")
	o := &addOptions{}
	cmd := &cobra.Command{
		Use: "add", Short: "record a stocktake", Long: countAddLong,
		Example: addExamples["count"],
		Args:    arguments(),
		RunE:    func(cmd *cobra.Command, _ []string) error { return a.runAdd(cmd, o, k, fillCount) },
	}
	o.columnFlags.add(a, cmd, k)
	a.addMeant(cmd, k)
	o.saving.add(cmd)
	return cmd
}

// fillCount is a stocktake, asking first what was counted.
func fillCount(a *app, rec *ledger.Records, k ledger.Kind, given map[string]string) (*draft, error) {
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
	return f.draft(), nil
}

// askTarget asks for something that can be drawn or counted.
func (a *app) askTarget(rec *ledger.Records, what string) (string, error) {
	names := slices.Concat(ledger.Packs.In(rec), ledger.Foods.In(rec), ledger.Supplies.In(rec))
	return a.question(what, "", func(answer string) (string, error) {
		if name, ok := begun(answer, names); ok {
			return name, nil
		}
		if answer == "" {
			return "", errors.New("name one, or break off with Ctrl-C")
		}
		return "", unknownName(answer, ledger.Nearest(answer, names))
	})
}
