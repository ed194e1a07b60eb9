package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/nutrients"
	"putby/ledger/question"
	reports "putby/ledger/report"
)

const foodAddLong = `Add a food. --from-table fills in what the open table of foods knows: water,
kcal, protein, fat, density (grams of a cup / 236.5882365 mL), and the weight of a
piece where it is counted in pieces, else the refuse. Name a food of the table
by its number, which putby food find WORDS finds, or by words that only one food
has. What other flags give goes before the table.

For meat, poultry, fish, eggs, dairy, vegetables low in acid and soups it proposes
a caution too, by the table's groups: --caution WORDS changes it, and
--caution '' declines it.

The table: ` + nutrients.Source + `. Look at what it
fills in: a cup of cut fruit holds air, and so has the density of the heap.

Needed: --basis, and --food or the --name that it is made of.`

type foodOptions struct {
	addOptions
	table string
}

// newFoodCommand is the command of foods: like all records, and find.
func newFoodCommand(a *app) *cobra.Command {
	o := &foodOptions{}
	add := newAdding(a, ledger.MustKind("food"), &cobra.Command{
		Use: "add", Short: "add a food, its figures from the open table", Long: foodAddLong,
		Example: `  putby food add --food kale --basis mass --from-table 11233 --fresh-days 5
  putby food add --food pears --name Pears --basis mass --keep-months 24 --caution "Core them first."`,
	}, adding{on: &o.addOptions, fill: o.fill, flags: func(cmd *cobra.Command) {
		cmd.Flags().StringVar(&o.table, "from-table", "", "fill in the figures of this `food` of the open table")
	}})
	cmd := newRecordCommand(a, "food", add)
	cmd.AddCommand(newFoodFindCommand(a))
	return cmd
}

// fill is a food, with figures of the open table where they are wanted.
func (o *foodOptions) fill(f *form) (*draft, error) {
	entry.NameFood(f.base.Records, f.cells)
	table := o.table
	if f.talk != nil && f.lacking() != nil {
		var err error
		if table, err = askTable(f, table); err != nil {
			return f.draft(), err
		}
	}
	var notes []string
	if table != "" {
		food, err := tableFood(table)
		if err != nil {
			return nil, err
		}
		f.offers = map[string]string{"name": entry.NameOfFood(f.cells["food"]), "caution": reports.TableCaution(food)}
		if err := f.complete(); err != nil {
			return f.draft(), err
		}
		if notes = entry.FromTable(food, f.cells); len(notes) > 1 {
			notes = append(notes, "Another by --caution WORDS, none by --caution ''.")
		}
	} else if err := f.complete(); err != nil {
		return f.draft(), err
	}
	d := f.draft()
	d.Notes = append(notes, d.Notes...)
	return d, nil
}

// tableFood finds the one food of the table that a number or words name.
func tableFood(text string) (nutrients.Food, error) {
	if food, ok := nutrients.Get(text); ok {
		return food, nil
	}
	found := nutrients.Find(text)
	switch {
	case len(found) == 1:
		return found[0], nil
	case len(found) == 0:
		return nutrients.Food{}, notFound(fmt.Sprintf("the open table has no food %q", text), "putby food find WORDS, with fewer words or beginnings of words")
	}
	if i := slices.IndexFunc(found, func(f nutrients.Food) bool { return strings.EqualFold(reports.TableName(f), text) }); i >= 0 {
		return found[i], nil
	}
	return nutrients.Food{}, mistyped(fmt.Sprintf("%d foods of the open table have the words %q: name one by its number, such as %s for %s",
		len(found), text, found[0].NDB, reports.TableName(found[0])), "putby "+commandLine([]string{"food", "find", text})+", which lists them")
}

// mostOffered is how many foods of the table a person is offered.
const mostOffered = 8

// askTable asks what food of the table it is, by words and then by number; ""
// is none.
func askTable(f *form, table string) (string, error) {
	if err := f.ask(f.kind.Column("food")); err != nil || table != "" {
		return table, err
	}
	words := strings.NewReplacer("-", " ", "_", " ", ".", " ").Replace(f.cells["food"])
	return pickFood(f.talk, "table", words)
}

// pickFood asks for a food of the open table: words find some, a number chooses
// one. "" is none.
func pickFood(t *ask.Talk, key, words string) (string, error) {
	var offered []nutrients.Food
	for ; ; key += "/more" {
		text, err := t.Ask(ask.Question{
			Key: key, What: "from the open table: words, or a number (- for none)", Offer: words,
			Help: "Words or their beginnings find foods of the table, which has water, fat, energy\nand protein. A number of the list, or of the table, takes one.",
		})
		if err != nil || text == "" {
			return "", err
		}
		if row, err := strconv.Atoi(text); err == nil && row >= 1 && row <= len(offered) {
			return offered[row-1].NDB, nil
		}
		if food, err := tableFood(text); err == nil {
			return food.NDB, nil
		}
		found := nutrients.Find(text)
		offered = found[:min(mostOffered, len(found))]
		for i, food := range offered {
			t.Tell("  %d  %s  %s", i+1, food.NDB, reports.TableName(food))
		}
		if words = ""; len(found) > 0 {
			words = "1"
		} else {
			t.Tell("  no food of the table has these words")
		}
	}
}

func newFoodFindCommand(a *app) *cobra.Command {
	most := 20
	return newReportCommand(a, &cobra.Command{
		Use:   "find WORDS...",
		Short: "find foods of the open table by words",
		Long: "Find foods of the open table by words or their beginnings, in any order. The number is\n" +
			"what putby food add --from-table takes.\n\nThe table: " + nutrients.Source + ",\nwithout foods that name a maker or a shop.",
		Example: "  putby food find strawberr\n  putby food find broth chicken home",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return misused("food find needs words, such as strawberr")
			}
			return nil
		},
	}, reporting{on: &reportFlags{}, look: func(args []string) (reports.Doc, error) {
		return reports.FoodTable(strings.Join(args, " "), most, question.Flag), nil
	},
		flags: func(cmd *cobra.Command) { cmd.Flags().IntVar(&most, "most", most, "show so `many` at the most") }})
}
