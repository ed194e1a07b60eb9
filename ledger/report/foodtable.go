package report

import (
	"putby/ledger/nutrients"
	"putby/pricing/exact"
)

// densityPlaces is how many decimals of a density (kg/L) are recorded: the
// table's own figures have no more.
const densityPlaces = 4

// FoodTable lists foods of the open table. Most is how many at the most.
func FoodTable(words string, most int) Doc {
	found := nutrients.Find(words)
	t := &Table{Columns: []Column{
		{Key: "ndb", Title: "number"}, {Key: "description", Title: "food"}, {Key: "water", Title: "water %"}, {Key: "kcal", Title: "kcal"},
		{Key: "protein", Title: "protein g"}, {Key: "refuse", Title: "refuse %", Rank: 2}, {Key: "density", Title: "kg per L", Rank: 1},
		{Key: "piece_kg", Title: "kg a piece", Rank: 3},
	}, Empty: "No food of the table has these words."}
	d := Doc{Title: "Foods of the open table, per 100 g", Notes: []string{"Source: " + nutrients.Source + "."}}
	if len(found) > most {
		d.Notes = append(d.Notes, "More foods have these words: give more words, or --most.")
		found = found[:most]
	}
	for _, f := range found {
		figures := tableFigures(f)
		row := []Value{TextOf(f.NDB), TextOf(TableName(f))}
		for _, column := range []string{"water", "kcal", "protein", "refuse", "density", "piece_kg"} {
			v := None
			if n, ok := figures[column]; ok {
				v = PlainOf(n)
			}
			row = append(row, v)
		}
		t.Rows = append(t.Rows, Row{Cells: row})
	}
	d.Fields = []Field{{Key: "foods", Title: "Foods", Node: t}}
	return d
}

// TableCells are the cells of foods.csv that the open table fills for a food of
// a basis: for one that is counted in pieces the weight of a piece, for any
// other what of it is thrown away, since refuse is never of pieces.
func TableCells(f nutrients.Food, basis string) map[string]string {
	cells := map[string]string{"name": TableName(f)}
	for column, n := range tableFigures(f) {
		switch {
		case column == "refuse" && (basis == "count" || n.IsZero()):
		case column == "piece_kg" && basis != "count":
		default:
			cells[column] = n.String()
		}
	}
	return cells
}

// TableName is what a food of the open table is called, for people.
func TableName(f nutrients.Food) string {
	return sentenceCase(f.Plain())
}

// tableFigures are all figures that the open table has of a food, by the column
// of foods.csv, at the places that it records.
func tableFigures(f nutrients.Food) map[string]exact.Number {
	figures := map[string]exact.Number{}
	for column, n := range map[string]exact.Opt[exact.Number]{"water": f.Water, "kcal": f.Kcal, "protein": f.Protein, "refuse": f.Refuse} {
		if v, ok := n.Get(); ok {
			figures[column] = v
		}
	}
	for _, m := range f.Volumes() {
		if d, ok := m.Density(); ok {
			figures["density"] = d.Round(densityPlaces, exact.HalfEven)
			break
		}
	}
	if pieces := f.Pieces(); len(pieces) > 0 {
		figures["piece_kg"] = pieces[0].Weight().Round(exact.MaxFraction, exact.HalfEven)
	}
	return figures
}
