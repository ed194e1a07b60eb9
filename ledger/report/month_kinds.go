package report

import (
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// budgetTable sets what was spent on each kind that has a budget beside it: in
// the last period shown, and in all that is shown. A budget is for a month;
// a longer period has it as often as it has months.
func budgetTable(last, whole figures.Stretch, budgets figures.Budgets) *Table {
	t := &Table{Columns: []Column{
		{Key: "kind", Title: "kind"},
		{Key: "budget", Title: "for " + last.Key}, {Key: "spent", Title: "spent"}, {Key: "left", Title: "left"},
		{Key: "budget_in_all", Title: "for all shown", Rank: 1}, {Key: "spent_in_all", Title: "spent in all", Rank: 1}, {Key: "left_in_all", Title: "left in all", Rank: 1},
	}}
	for kind, b := range budgets {
		month, ok := b.Get()
		if !ok || last.Months == 0 {
			continue
		}
		cells := []Value{TextOf(figures.Spending(kind).String())}
		for _, s := range []figures.Stretch{last, whole} {
			most, spent := month.Times(exact.Int(int64(s.Months))), s.Spent[kind]
			cells = append(cells, MoneyOf(most), MoneyOf(spent), MoneyOf(most.Sub(spent)))
		}
		row := Row{Cells: cells}
		if cells[3].Number().Sign() < 0 {
			row.Notes = []string{"more was spent than the budget"}
		}
		t.Rows = append(t.Rows, row)
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return t
}

// kindTable splits what was spent by kind.
func kindTable(m *figures.MonthResult) *Table {
	whole := &m.Whole
	t := &Table{Columns: []Column{
		{Key: "kind", Title: "kind"}, {Key: "spent", Title: "spent", Bar: true}, {Key: "percent", Title: "%", Rank: 2},
		{Key: "per_month", Title: "a month", Rank: 1}, {Key: "budget", Title: "budget", Rank: 1}, {Key: "left", Title: "left"},
	}}
	all, months := whole.Spent.Total(), exact.RatioOf(exact.Int(int64(whole.Months)))
	for kind, spent := range whole.Spent {
		budget, left := None, None
		if month, ok := m.Budgets[kind].Get(); ok {
			most := month.Times(exact.Int(int64(whole.Months)))
			budget, left = MoneyOf(most), MoneyOf(most.Sub(spent))
		}
		t.add(TextOf(figures.Spending(kind).String()), MoneyOf(spent), percentOf(spent, all), MoneyQuotient(spent.Ratio().Quo(months)), budget, left)
	}
	t.Totals = []Row{{Cells: []Value{
		TextOf("in all"), MoneyOf(all), percentOf(all, all), MoneyQuotient(all.Ratio().Quo(months)), None, None,
	}}}
	return t
}

// percentOf is a part in hundredths of a whole.
func percentOf(part, whole exact.Money) Value {
	if whole.IsZero() {
		return None
	}
	return QuotientOf(part.Number().Mul(exact.Int(100)).Over(whole.Number()), 1)
}

// shopTable splits what was spent by receipts over the shops, the largest sum
// first.
func shopTable(shops []figures.ShopSpent) *Table {
	t := &Table{Columns: []Column{
		{Key: "shop", Title: "shop"}, {Key: "receipts", Title: "receipts", Rank: 2},
		{Key: "food_spent", Title: "food", Rank: 1, Spare: true}, {Key: "supplies_spent", Title: "supplies", Rank: 3, Spare: true}, {Key: "machines_spent", Title: "machines", Rank: 4, Spare: true},
		{Key: "services_spent", Title: "services", Rank: 5, Spare: true}, {Key: "other_spent", Title: "other", Rank: 3, Spare: true},
		{Key: "spent", Title: "in all", Bar: true}, {Key: "percent", Title: "%", Rank: 2},
	}, Empty: "No receipt is recorded for that."}
	total := figures.ShopSpent{Shop: "in all"}
	for i := range shops {
		total.Spent, total.Receipts = total.Spent.Plus(&shops[i].Spent), total.Receipts+shops[i].Receipts
	}
	for i := range shops {
		t.Rows = append(t.Rows, Row{Cells: shopCells(&shops[i], total.Spent.Total())})
	}
	t.Totals = []Row{{Cells: shopCells(&total, total.Spent.Total())}}
	return t
}

func shopCells(s *figures.ShopSpent, whole exact.Money) []Value {
	cells := []Value{TextOf(s.Shop), CountOf(s.Receipts)}
	for _, m := range s.Spent[:figures.ElectricitySpent] {
		cells = append(cells, MoneyOf(m))
	}
	return append(cells, MoneyOf(s.Spent.Total()), percentOf(s.Spent.Total(), whole))
}
