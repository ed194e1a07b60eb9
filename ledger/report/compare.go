package report

import (
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// A comparedFigure is a column of the comparison, and how its figure is shown.
type comparedFigure struct {
	Column
	of   figures.Measure
	show func(exact.Ratio, exact.Unit) Value
}

// A comparePart is one table of the comparison; all have the same foods in the
// same order.
type comparePart struct {
	key, title string
	figures    []comparedFigure
}

var compareParts = []comparePart{
	{"rows", "What they cost", []comparedFigure{
		{Column{Key: "reconstituted", Title: "makes", Rank: 3}, figures.MadeInAll, amountOf},
		{Column{Key: "total", Title: "total", Rank: 3}, figures.CostInAll, moneyOf},
		{Column{Key: "per_unit", Title: "per unit", Bar: true}, figures.CostPerUnit, PriceOf},
		{Column{Key: "per_serving", Title: "a serving", Bar: true, Rank: 1}, figures.CostPerServing, priceOfNoUnit},
		{Column{Key: "per_1000_kcal", Title: "1000 kcal", Bar: true, Rank: 1}, figures.CostPer1000Kcal, priceOfNoUnit},
		{Column{Key: "per_100g_protein", Title: "100 g protein", Rank: 2}, figures.CostPer100gProtein, priceOfNoUnit},
		{Column{Key: "shelf_per_unit", Title: "shelf"}, figures.ShelfPerUnit, PriceOf},
		{Column{Key: "saving_per_unit", Title: "saving per unit", Bar: true}, figures.SavingPerUnit, PriceOf},
	}},
	{"parts", "Taken apart, per unit", []comparedFigure{
		{Column{Key: "food_per_unit", Title: "food cost"}, figures.FoodPerUnit, PriceOf},
		{Column{Key: "electricity_per_unit", Title: "electricity", Rank: 1}, figures.ElectricityPerUnit, PriceOf},
		{Column{Key: "supplies_per_unit", Title: "supplies", Rank: 1}, figures.SuppliesPerUnit, PriceOf},
		{Column{Key: "wear_per_unit", Title: "wear", Rank: 1}, figures.WearPerUnit, PriceOf},
		{Column{Key: "labour_per_unit", Title: "labour", Rank: 2}, figures.LabourPerUnit, PriceOf},
		{Column{Key: "food_percent", Title: "food cost, % of it", Rank: 2}, figures.FoodPercent, quotientOf(1)},
		{Column{Key: "per_unit_with_loss", Title: "with loss", Rank: 2}, figures.CostPerUnitWithLoss, PriceOf},
	}},
	{"spread", "From run to run", []comparedFigure{
		{Column{Key: "runs", Title: "runs"}, figures.RunsInAll, countOf},
		{Column{Key: "lowest", Title: "lowest per unit"}, figures.LowestPerUnit, PriceOf},
		{Column{Key: "median", Title: "median"}, figures.MedianPerUnit, PriceOf},
		{Column{Key: "highest", Title: "highest"}, figures.HighestPerUnit, PriceOf},
		{Column{Key: "deviation", Title: "standard deviation", Rank: 2}, figures.DeviationPerUnit, estimatedPrice},
		{Column{Key: "kwh_per_unit", Title: "kWh per unit", Rank: 1}, figures.KWhPerUnit, quotientOf(3)},
		{Column{Key: "saving", Title: "saving in all", Rank: 1}, figures.Saving, moneyShare},
		{Column{Key: "per_run", Title: "a whole run earns", Rank: 1}, figures.EarnedPerRun, moneyShare},
	}},
}

// How a figure is shown, as what it is. The first three take ratios that are
// whole, or have as many decimals as money and amounts do.

func amountOf(r exact.Ratio, u exact.Unit) Value { n, _ := r.Number(); return AmountOf(n, u) }
func moneyOf(r exact.Ratio, _ exact.Unit) Value  { n, _ := r.Number(); return MoneyOf(exact.MoneyOf(n)) }
func countOf(r exact.Ratio, _ exact.Unit) Value {
	n, _ := r.Number()
	whole, _ := n.Int64()
	return CountOf(int(whole))
}
func moneyShare(r exact.Ratio, _ exact.Unit) Value     { return MoneyQuotient(r) }
func priceOfNoUnit(r exact.Ratio, _ exact.Unit) Value  { return PriceOf(r, exact.NoUnit) }
func estimatedPrice(r exact.Ratio, u exact.Unit) Value { return PriceOf(r, u).Estimated() }
func quotientOf(decimals int) func(exact.Ratio, exact.Unit) Value {
	return func(r exact.Ratio, _ exact.Unit) Value { return QuotientOf(r, decimals) }
}

// Compare sets foods side by side: per litre, kilogram or piece, per serving,
// per 1000 kcal and per 100 g of protein, taken apart, beside the shelf, with the
// spread over their runs; see [figures.Compare], whose errors it returns.
func Compare(g *ledger.Ledger, q figures.CompareQuery) (Doc, error) {
	return laid(g, q, figures.Compare, CompareDoc)
}

// CompareDoc lays foods out side by side.
func CompareDoc(g *ledger.Ledger, q figures.CompareQuery, c figures.CompareResult) Doc {
	d := newDoc(g, compareTitle(g, q, c.Food))
	d.Words = []string{answerOfCompare(reportingOn(g), &c)}
	if len(c.Foods) == 0 { // no rows for a heading
		d.Title = ""
	}
	for _, part := range compareParts {
		d.Fields = append(d.Fields, field(part.key, part.title, part.table(g, c.Foods)))
	}
	d.Share = costShare(c.Totals())
	reported := func(f int) bool {
		return slices.ContainsFunc(c.Foods, func(c figures.ComparedFood) bool { return c.Food == f })
	}
	d.Notes, d.Cautions = append(compareNotes(g, q, c), refuses(g, reported)...), cautions(g, reported)
	return d
}

func compareTitle(g *ledger.Ledger, q figures.CompareQuery, food int) string {
	title := "Foods side by side"
	if food >= 0 {
		title = g.Foods[food].Title() + " by itself"
	}
	first := "lowest"
	if q.Rank.Highest() != q.Worst { // the worst first turns the order round
		first = "highest"
	}
	return title + withoutWords(q.Without) + ", " + first + " " + rankWords(q.Rank) + " first"
}

// rankWords names what foods are ranked by.
func rankWords(m figures.Measure) string {
	switch m {
	case figures.EarnedPerRun:
		return "earnings a run"
	case figures.LowestPerUnit:
		return "cost per unit of their cheapest run"
	case figures.MedianPerUnit:
		return "cost per unit of their middle run"
	case figures.HighestPerUnit:
		return "cost per unit of their dearest run"
	}
	words := strings.ReplaceAll(rankKey(m), "_", " ")
	if strings.HasPrefix(words, "per ") {
		return "cost " + words
	}
	return words
}

// compareNotes says what the rows leave out and what does not compare.
func compareNotes(g *ledger.Ledger, q figures.CompareQuery, c figures.CompareResult) []string {
	var notes noteList
	notes.addFigures(g, c.Notes)
	if units := unitsOf(c.Foods); len(units) > 1 {
		notes.addf("%s are not alike: foods of different units compare per serving, per 1000 kcal or per 100 g of protein",
			Listed(units))
		if q.Rank.OfUnit() {
			notes.addf("%s are ranked apart", Listed(units))
		}
	}
	return notes
}

// unitsOf names the units that foods are counted in, in order of rank.
func unitsOf(foods []figures.ComparedFood) (names []string) {
	for _, u := range []exact.Unit{exact.L, exact.Kg, exact.Ea} {
		if slices.ContainsFunc(foods, func(c figures.ComparedFood) bool { return c.Unit == u }) {
			names = append(names, u.String())
		}
	}
	return names
}

// table lays foods out in the columns of a part.
func (p comparePart) table(g *ledger.Ledger, foods []figures.ComparedFood) *Table {
	t := &Table{Columns: []Column{{Key: "item", Title: "food"}, {Key: "unit", Title: "unit"}}}
	mixed := len(unitsOf(foods)) > 1
	for _, f := range p.figures {
		c := f.Column
		c.Bar = c.Bar && !(mixed && f.of.OfUnit()) // bars of litres and kilograms would seem to compare
		t.Columns = append(t.Columns, c)
	}
	first := p.key == compareParts[0].key
	if first {
		t.Columns = append(t.Columns, Column{Key: NotesKey, Title: "notes"})
	}
	for i := range foods {
		food := &g.Foods[foods[i].Food]
		row := Row{Cells: []Value{foodValue(food), UnitOf(foods[i].Unit)}}
		for _, f := range p.figures {
			row.Cells = append(row.Cells, optional(foods[i].Measure(f.of), func(r exact.Ratio) Value { return f.show(r, foods[i].Unit) }))
		}
		if first {
			row.Notes = append(rowNotes(g, foods[i].Notes), lacks(food)...)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// lacks says what a food's record would need for all figures of a comparison.
func lacks(f *ledger.Food) []string {
	var what []string
	if !f.Serving.Given() {
		what = append(what, "serving")
	} else if _, ok := figures.InBasis(f, f.Serving); !ok {
		what = append(what, weightOf(f))
	}
	if _, ok := f.Mass(exact.Int(1)); !ok && (len(what) == 0 || what[0] != weightOf(f)) {
		what = append(what, weightOf(f))
	}
	if !f.Kcal.Given() {
		what = append(what, "kcal")
	}
	if !f.Protein.Given() {
		what = append(what, "protein")
	}
	if len(what) == 0 {
		return nil
	}
	return []string{"its record in " + ledger.FoodsFile + " has no " + strings.Join(what, ", no ")}
}

// weightOf names the column that says what a food weighs.
func weightOf(f *ledger.Food) string {
	if f.Basis == exact.Ea {
		return "piece_kg"
	}
	return "density"
}

// RankOf finds the measure of a column by which a comparison is ranked; empty is
// the first, what a unit cost.
func RankOf(key string) (rank figures.Measure, ok bool) {
	for _, f := range comparedFigures() {
		if f.Key == key {
			return f.of, true
		}
	}
	return 0, key == ""
}

// rankKey is the column of a measure. Each has one.
func rankKey(m figures.Measure) string {
	list := comparedFigures()
	return list[slices.IndexFunc(list, func(f comparedFigure) bool { return f.of == m })].Key
}

// RankKeys lists the columns that a comparison can be ranked by.
func RankKeys() []string {
	return worded(comparedFigures(), func(f comparedFigure) string { return f.Key })
}

// comparedFigures are those of all parts.
func comparedFigures() (list []comparedFigure) {
	for _, p := range compareParts {
		list = append(list, p.figures...)
	}
	return list
}
