package report

import (
	"iter"
	"slices"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

var rowsTitles = [...]string{"By run", "By food", "By month", "By machine"}

// Cost reports what each run's food cost beside the shelf price; see
// [figures.Cost]. Later has the rows worked out as they are written: for CSV
// and JSON. The error is that of figures.
func Cost(g *ledger.Ledger, q figures.CostQuery, later bool) (Doc, error) {
	cost, err := figures.Cost(g, q)
	if err != nil {
		return Doc{}, err
	}
	d := newDoc(g, "Cost of what was put by"+ofFood(g, cost.Food)+withoutWords(q.Without))
	d.Fields = []Field{
		field("rows", rowsTitles[q.By], costTable(g, cost.Rows, q.By, later)),
		field("totals", "In all", costTotals(cost.Totals)),
	}
	all := cost.Food < 0 && q.From == exact.NoDate && q.To == exact.NoDate
	d.Words = []string{noRuns(g, "run")}
	if cost.Answer.Runs > 0 {
		d.Words[0] = phrasingOf(&g.Settings).answerOfCost(&cost.Answer, all)
	}
	d.Share = costShare(cost.Totals)
	reported := func(f int) bool { return slices.Contains(cost.Foods, f) }
	d.Notes, d.Cautions = refuses(g, reported), cautions(g, reported)
	return d, nil
}

// withoutWords names what a title says is left out.
func withoutWords(elements []ledger.Element) string {
	if len(elements) == 0 {
		return ""
	}
	return ", without " + Listed(worded(elements, ledger.Element.String))
}

// costTable lays rows out in columns.
func costTable(g *ledger.Ledger, rows []figures.CostRow, by figures.By, later bool) *Table {
	columns := costColumns(by)
	t := &Table{Columns: columns}
	if later {
		t.Later = costRowsLater(g, rows, by, len(columns))
		return t
	}
	t.Rows = make([]Row, len(rows))
	cells := make([]Value, 0, len(rows)*len(columns)) // of all rows, in one piece
	for i := range rows {
		first := len(cells)
		cells = appendFigures(appendKeys(cells, g, &rows[i], by), g, &rows[i])
		t.Rows[i] = Row{Cells: cells[first:len(cells):len(cells)], Notes: rowNotes(g, rows[i].Notes)}
	}
	return t
}

// costRowsLater gives the rows one by one, in the same memory.
func costRowsLater(g *ledger.Ledger, rows []figures.CostRow, by figures.By, columns int) iter.Seq[Row] {
	return func(yield func(Row) bool) {
		cells := make([]Value, 0, columns)
		for i := range rows {
			r := &rows[i]
			if !yield(Row{Cells: appendFigures(appendKeys(cells, g, r, by), g, r), Notes: rowNotes(g, r.Notes)}) {
				return
			}
		}
	}
}

func costColumns(by figures.By) []Column {
	keys := map[figures.By][]Column{
		figures.ByRun:     {{Key: "run", Title: "run"}, {Key: "date", Title: "date"}, {Key: "item", Title: "food"}},
		figures.ByItem:    {{Key: "item", Title: "food"}, {Key: "runs", Title: "runs", Rank: 3}},
		figures.ByMonth:   {{Key: "month", Title: "month"}, {Key: "runs", Title: "runs", Rank: 3}},
		figures.ByMachine: {{Key: "machine", Title: "machine"}, {Key: "runs", Title: "runs", Rank: 3}},
	}
	// In the order in which appendKeys and appendFigures fill a row.
	return append(keys[by], []Column{
		{Key: "unit"}, // people are shown it in makes
		{Key: "loaded", Title: "loaded", Rank: 6},
		{Key: "reconstituted", Title: "makes"},
		{Key: "food", Title: "food cost", Rank: 5},
		{Key: "electricity", Title: "electricity", Rank: 5},
		{Key: "supplies", Title: "supplies", Rank: 5},
		{Key: "wear", Title: "wear", Rank: 5},
		{Key: "labour", Title: "labour", Rank: 5},
		{Key: "lost", Title: "lost", Rank: 3},
		{Key: "total", Title: "total", Rank: 2},
		{Key: "per_unit", Title: "per unit"},
		{Key: "per_unit_with_loss", Title: "with loss", Rank: 5},
		{Key: "shelf_per_unit", Title: "shelf"},
		{Key: "saving_per_unit", Title: "saving per unit", Rank: 6, Bar: true},
		{Key: "saving", Title: "saving", Rank: 1},
		{Key: "kwh", Title: "kWh", Rank: 7},
		{Key: "hours", Title: "hours", Rank: 7},
		{Key: "notes", Title: "notes"},
	}...)
}

// appendKeys adds what a row is about.
func appendKeys(cells []Value, g *ledger.Ledger, r *figures.CostRow, by figures.By) []Value {
	switch by {
	case figures.ByRun:
		return append(cells, TextOf(g.Records.Runs[r.Run].ID), DateOf(r.Date), foodValue(&g.Foods[r.Food]))
	case figures.ByMonth:
		return append(cells, monthOf(r.Date), CountOf(r.Runs))
	case figures.ByMachine:
		return append(cells, TextOf(r.Machine), CountOf(r.Runs))
	}
	return append(cells, foodValue(&g.Foods[r.Food]), CountOf(r.Runs))
}

// stateOf says why a run has no cost per unit.
func stateOf(r *ledger.Run) string {
	switch {
	case r.Running:
		return "running"
	case !r.Good():
		return "spoiled"
	}
	return "to pack"
}

func appendFigures(cells []Value, g *ledger.Ledger, r *figures.CostRow) []Value {
	perUnit := optPrice(r.PerUnit(), r.Unit)
	if perUnit.IsNull() && r.Run >= 0 {
		perUnit = noneYet(stateOf(&g.Records.Runs[r.Run]))
	}
	return append(cells,
		UnitOf(r.Unit), AmountOf(r.Loaded, r.Unit), AmountOf(r.Made, r.Unit).WithUnit(),
		MoneyOf(r.Good[ledger.FoodCost]), MoneyOf(r.Good[ledger.ElectricityCost]), MoneyOf(r.Good[ledger.SuppliesCost]),
		MoneyOf(r.Good[ledger.WearCost]), MoneyOf(r.Good[ledger.LabourCost]), MoneyOf(r.Lost), MoneyOf(r.Good.Total()),
		perUnit, optPrice(r.PerUnitWithLoss(), r.Unit), optPrice(r.Shelf, r.Unit),
		optPrice(r.SavingPerUnit(), r.Unit), optMoney(r.Saving), QuotientOf(r.Energy, 2), optional(r.Length, SpanOf),
	)
}

func costTotals(totals []figures.CostTotal) *Table {
	t := &Table{Columns: []Column{
		{Key: "unit", Title: "unit"}, {Key: "reconstituted", Title: "makes"},
		{Key: "total", Title: "total"}, {Key: "lost", Title: "lost"}, {Key: "saving", Title: "saving"},
	}}
	for _, s := range totals {
		t.add(totalCells(s)...)
	}
	return t
}

func totalCells(s figures.CostTotal) []Value {
	return []Value{UnitOf(s.Unit), AmountOf(s.Made, s.Unit), MoneyOf(s.Good), MoneyOf(s.Lost), optMoney(s.Saving)}
}
