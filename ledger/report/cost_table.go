package report

import (
	"iter"

	"putby/ledger"
)

// costTable lays rows out in columns.
func costTable(rows []costRow, q CostQuery) *Table {
	columns := costColumns(q)
	t := &Table{Columns: columns, Empty: "No run is recorded for that."}
	if q.Later {
		t.Later = costRowsLater(rows, q.By, len(columns))
		return t
	}
	t.Rows = make([]Row, len(rows))
	cells := make([]Value, 0, len(rows)*len(columns)) // of all rows, in one piece
	for i := range rows {
		r, first := &rows[i], len(cells)
		cells = appendFigures(appendKeys(cells, r, q.By), r)
		t.Rows[i] = Row{Cells: cells[first:len(cells):len(cells)], Notes: r.notes}
	}
	return t
}

// costRowsLater gives the rows one by one, in the same memory.
func costRowsLater(rows []costRow, by By, columns int) iter.Seq[Row] {
	return func(yield func(Row) bool) {
		cells := make([]Value, 0, columns)
		for i := range rows {
			r := &rows[i]
			if !yield(Row{Cells: appendFigures(appendKeys(cells, r, by), r), Notes: r.notes}) {
				return
			}
		}
	}
}

func costColumns(q CostQuery) []Column {
	keys := map[By][]Column{
		ByRun:     {{Key: "run", Title: "run"}, {Key: "date", Title: "date", Rank: 4}, {Key: "item", Title: "item"}},
		ByItem:    {{Key: "item", Title: "item"}, {Key: "runs", Title: "runs", Rank: 3}},
		ByMonth:   {{Key: "month", Title: "month"}, {Key: "runs", Title: "runs", Rank: 3}},
		ByMachine: {{Key: "machine", Title: "machine"}, {Key: "runs", Title: "runs", Rank: 3}},
	}
	return append(keys[q.By], []Column{
		{Key: "unit", Title: "unit"},
		{Key: "loaded", Title: "loaded", Rank: 6},
		{Key: "reconstituted", Title: "makes", Rank: 1},
		{Key: "food", Title: "food", Rank: 3},
		{Key: "electricity", Title: "power", Rank: 3},
		{Key: "supplies", Title: "supplies", Rank: 4},
		{Key: "wear", Title: "wear", Rank: 4},
		{Key: "labour", Title: "labour", Rank: 5},
		{Key: "lost", Title: "lost", Rank: 2},
		{Key: "total", Title: "total", Rank: 1},
		{Key: "per_unit", Title: "per unit"},
		{Key: "per_unit_with_loss", Title: "with loss", Rank: 5},
		{Key: "shelf_per_unit", Title: "shelf"},
		{Key: "saving_per_unit", Title: "saving per unit", Rank: 6, Bar: true},
		{Key: "saving", Title: "saving"},
		{Key: "kwh", Title: "kWh", Rank: 7},
		{Key: "hours", Title: "hours", Rank: 7},
		{Key: "notes", Title: "notes"},
	}...)
}

func appendKeys(cells []Value, r *costRow, by By) []Value {
	if by == ByRun {
		return append(cells, TextOf(r.key), DateOf(r.date), nameValue(r.item, r.name))
	}
	return append(cells, TextOf(r.key), CountOf(r.runs))
}

func appendFigures(cells []Value, r *costRow) []Value {
	total := ratioOf(r.good.Total())
	withLoss := total.Add(ratioOf(r.lost))
	shelf := None
	if price, ok := r.shelf.Get(); ok {
		shelf = PriceOf(price, r.unit)
	}
	return append(cells,
		UnitOf(r.unit), AmountOf(r.loaded, r.unit), AmountOf(r.made, r.unit),
		MoneyOf(r.good[ledger.FoodCost]), MoneyOf(r.good[ledger.ElectricityCost]), MoneyOf(r.good[ledger.SuppliesCost]),
		MoneyOf(r.good[ledger.WearCost]), MoneyOf(r.good[ledger.LabourCost]), MoneyOf(r.lost), MoneyOf(r.good.Total()),
		r.perUnit(total), r.perUnit(withLoss), shelf, r.savingPerUnit(), optMoney(r.saving),
		QuotientOf(r.energy, 2), r.hours,
	)
}
