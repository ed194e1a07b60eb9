package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/nutrients"
	reports "putby/ledger/report"
)

const foodAddLong = `Add a food. --from-table NUMBER fills water, kcal, protein, refuse, density and
piece weight from the open table of foods; putby food find WORDS finds the
number. What other flags give goes before the table.`

type foodOptions struct {
	addOptions
	number string
}

// newFoodCommand is the command of foods: like all records, and find.
func newFoodCommand(a *app) *cobra.Command {
	k, _ := ledger.KindOf("food")
	o := &foodOptions{}
	add := &cobra.Command{
		Use: "add", Short: "add a food", Long: foodAddLong + "\n\n" + columnHelp(k),
		Example: addExamples["food"] + "\n  putby food add --food kale --basis mass --from-table 11233",
		Args:    arguments(),
		RunE:    func(cmd *cobra.Command, _ []string) error { return runFoodAdd(cmd, a, k, o) },
	}
	o.add(add, k)
	add.Flags().StringVar(&o.number, "from-table", "", "fill figures from this `number` of the open table")
	cmd := newRecordCommand(a, "food", add)
	cmd.AddCommand(newFoodFindCommand(a))
	return cmd
}

func runFoodAdd(cmd *cobra.Command, a *app, k ledger.Kind, o *foodOptions) error {
	given := o.given(cmd)
	if o.number != "" {
		food, ok := nutrients.Get(o.number)
		if !ok {
			return notFoundError{fmt.Sprintf("the open table has no food %q", o.number), "putby food find WORDS finds numbers"}
		}
		for column, text := range reports.TableCells(food) {
			if _, typed := given[column]; !typed {
				given[column] = text
			}
		}
		fmt.Fprintf(a.stderr, "%s\nSource: %s.\n", printable(food.Plain()), nutrients.Source)
	}
	return a.withBook(cmd.Context(), func(b *folder.Book) error { return a.addRecord(b, k, o.saving, given, nil) })
}

func newFoodFindCommand(a *app) *cobra.Command {
	o := &output{}
	most := 20
	cmd := &cobra.Command{
		Use:     "find WORDS...",
		Short:   "find foods of the open table by words",
		Long:    "Find foods of the open table (" + nutrients.Source + ") by words or their beginnings, in any order.\n\n" + exitHelp(),
		Example: "  putby food find strawberr\n  putby food find broth chicken home",
		Args:    cobra.MinimumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.print(reports.FoodTable(strings.Join(args, " "), most), *o)
		},
	}
	o.add(cmd)
	cmd.Flags().IntVar(&most, "most", most, "show so many at the most")
	return cmd
}
