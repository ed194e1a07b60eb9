package serve

import (
	"cmp"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/nutrients"
	"putby/ledger/report"
)

var foodForm = recording{
	seldom: true,
	path:   "food", link: "New food", title: "A new food",
	intro: "Its name, and what it is counted in. The open table knows of most foods how much of them is water, what they feed and weigh, " +
		"and which caution they want: find it, choose it, and fill in.",
	groups: foodGroups, draft: foodDraft,
}

// mostFound is how many foods of the open table are offered.
const mostFound = 20

// bases say what each basis of a food means.
var bases = map[string]string{"volume": "litres, as broth is", "mass": "kilograms, as apples are", "count": "pieces, as eggs are"}

func foodGroups(f *filling) []page.Group {
	k := ledger.MustKind("food")
	told := f.fillFromTable(k)
	first := f.only(k, nil, "name", "basis")
	first[0].Need = true
	for i := range first[1].Options {
		first[1].Options[i].Label = cmp.Or(bases[first[1].Options[i].Value], first[1].Options[i].Label)
	}
	keeps := f.only(k, nil, "fresh_days", "keep_months", "caution")
	keeps[2].Kind, keeps[2].Help = "lines", "printed wherever it is packed, opened or reported. Blank: none"
	if f.in.Get("filled") != "" {
		keeps[2].Help += ". What the table's group asks for is filled in: take it, change it, or empty it"
	}
	id := f.only(k, nil, "food")
	id[0].Need, id[0].Help = false, "a short name without spaces; empty: made of the name"
	rest := append(f.fieldsOf(k, "", nil, "name", "basis", "fresh_days", "keep_months", "caution", "food"), id...)
	return []page.Group{
		{Title: "The food", Fields: first},
		{Title: "The open table of foods", Fields: append(f.tableFields(), told...)},
		{Title: "Keeping", Fields: keeps},
		folded("Its figures", rest...),
	}
}

// tableFields search the open table, and offer what was found.
func (f *filling) tableFields() []page.Field {
	words := f.text("words", "")
	if f.in.Get("do") == "find" {
		words = cmp.Or(words, f.text("name", ""))
	}
	list := []page.Field{
		{Kind: "text", Name: "words", Label: "words to find it by", Value: words, Help: "beginnings will do: strawberr raw. Empty: its name"},
		{Kind: "do", Name: "find", Label: "Find in the table"},
	}
	if words == "" {
		return list
	}
	found := nutrients.Find(words)
	choices := []page.Option{{Value: "", Label: "none of them"}}
	for _, food := range found[:min(len(found), mostFound)] {
		choices = append(choices, page.Option{Value: food.NDB, Label: report.TableName(food)})
	}
	if len(found) == 0 {
		return append(list, page.Field{Kind: "words", Label: "Not found:", Value: "no food of the table has these words. Try fewer of them, or go on without."})
	}
	return append(list, page.Field{Kind: "select", Name: "table", Label: "food of the table", Options: choices, Value: f.text("table", ""), Help: nutrients.Source},
		page.Field{Kind: "do", Name: "fill", Label: "Fill in from the table"})
}

// fillFromTable fills in what the table knows and nobody has typed, where that is
// asked for, and tells from which of its foods that is.
func (f *filling) fillFromTable(k ledger.Kind) []page.Field {
	table := f.text("table", "")
	if f.in.Get("do") == "fill" && table != "" {
		if food, ok := nutrients.Get(table); ok {
			cells := f.cells(k, "")
			entry.FromTable(food, cells)
			for column, text := range cells {
				f.in.Set(column, text)
			}
			f.in.Set("filled", table)
		}
	}
	if filled := f.text("filled", ""); filled != "" {
		return []page.Field{{Kind: "hidden", Name: "filled", Value: filled}}
	}
	return nil
}

func foodDraft(f *filling) (*entry.Draft, error) {
	k := ledger.MustKind("food")
	in := entry.FoodIn{Cells: f.cells(k, ""), Table: f.text("table", "")}
	if in.Table != "" && f.text("filled", "") == in.Table {
		in.Cells["caution"] = f.text("caution", "") // as it was shown: blank is declined
	}
	if in.Cells["name"] == "" && in.Cells["food"] == "" && in.Table == "" {
		return nil, entry.Wrongs{{Part: "name", Err: &ledger.Fault{Kind: entry.ErrTyped, What: "say what it is called, such as Pears"}}}
	}
	return entry.AddFood(f.Base, in)
}
