package report

import (
	"putby/ledger/nutrients"
	"putby/pricing/exact"
)

// densityPlaces is how many decimals of a density (kg/L) are recorded: the
// table's own figures have no more.
const densityPlaces = 4

// residual is the moisture of well-dried food, % of its weight, at which the
// table of foods tells what is left of them (common practice).
var residual = exact.Int(3)

// FoodTable lists foods of the open table. Most is how many at the most.
func FoodTable(words string, most int, names Names) Doc {
	found := nutrients.Find(words)
	t := &Table{Columns: []Column{
		{Key: "ndb", Title: "number"}, {Key: "description", Title: "food", Wrap: true}, {Key: "water", Title: "water %"}, {Key: "dry", Title: "dry g", Rank: 1}, {Key: "kcal", Title: "kcal"},
		{Key: "protein", Title: "protein g"}, {Key: "fat", Title: "fat g"}, {Key: "refuse", Title: "refuse %", Rank: 2}, {Key: "density", Title: "kg per L", Rank: 1},
		{Key: "piece_kg", Title: "kg a piece", Rank: 3},
	}, Empty: "No food of the table has these words."}
	d := Doc{Title: "Foods of the open table, per 100 g", Notes: []string{
		"Source: " + nutrients.Source + ".",
		"Dry: what is left of them at " + residual.String() + " % moisture.",
	}}
	if len(found) > most {
		d.Notes = append(d.Notes, "More foods have these words: give more words, or "+names.of("most")+".")
		found = found[:most]
	}
	for _, f := range found {
		figures := tableFigures(f)
		dry, known := f.Dry(residual)
		row := []Value{TextOf(f.NDB), TextOf(TableName(f)), figure(figures, "water"), onlyIf(known, QuotientOf(dry.Times(exact.Int(100)), 1))}
		for _, column := range []string{"kcal", "protein", "fat", "refuse", "density", "piece_kg"} {
			row = append(row, figure(figures, column))
		}
		t.add(row...)
	}
	d.Fields = []Field{{Key: "foods", Title: "Foods", Node: t}}
	return d
}

// figure is a figure of the table, or that it has none.
func figure(figures map[string]exact.Number, column string) Value {
	n, known := figures[column]
	return onlyIf(known, PlainOf(n))
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
	for column, n := range map[string]exact.Opt[exact.Number]{"water": f.Water, "kcal": f.Kcal, "protein": f.Protein, "fat": f.Fat, "refuse": f.Refuse} {
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
