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
		if !b.Given() || last.Months == 0 { // a week is no part of a month's budget
			continue
		}
		kind := figures.Spending(kind)
		cells := []Value{TextOf(kind.String())}
		for _, s := range []*figures.Stretch{&last, &whole} {
			most, left := budgets.Left(kind, s)
			cells = append(cells, optional(most, MoneyOf), MoneyOf(s.Spent[kind]), optional(left, MoneyOf))
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
	all := whole.Spent.Total()
	cells := func(of string, spent exact.Money) []Value {
		return []Value{TextOf(of), MoneyOf(spent), percentOf(spent, all), MoneyQuotient(whole.PerMonth(spent))}
	}
	for kind, spent := range whole.Spent {
		kind := figures.Spending(kind)
		budget, left := m.Budgets.Left(kind, whole)
		t.add(append(cells(kind.String(), spent), optional(budget, MoneyOf), optional(left, MoneyOf))...)
	}
	t.Totals = []Row{{Cells: append(cells("in all", all), None, None)}}
	return t
}

func percentOf(part, whole exact.Money) Value {
	return optional(figures.PercentOf(part, whole), func(r exact.Ratio) Value { return QuotientOf(r, 1) })
}

// shopTable splits what was spent by receipts over the shops, the largest sum
// first.
func shopTable(m *figures.MonthResult) *Table {
	t := &Table{Columns: []Column{
		{Key: "shop", Title: "shop"}, {Key: "receipts", Title: "receipts", Rank: 2},
		{Key: "food_spent", Title: "food", Rank: 1, Spare: true}, {Key: "supplies_spent", Title: "supplies", Rank: 3, Spare: true}, {Key: "machines_spent", Title: "machines", Rank: 4, Spare: true},
		{Key: "services_spent", Title: "services", Rank: 5, Spare: true}, {Key: "other_spent", Title: "other", Rank: 3, Spare: true},
		{Key: "spent", Title: "in all", Bar: true}, {Key: "percent", Title: "%", Rank: 2},
	}, Empty: "No receipt is recorded for that."}
	all := m.AllShops.Spent.Total()
	for i := range m.Shops {
		t.Rows = append(t.Rows, Row{Cells: shopCells(m.Shops[i].Shop, &m.Shops[i], all)})
	}
	t.Totals = []Row{{Cells: shopCells("in all", &m.AllShops, all)}}
	return t
}

func shopCells(name string, s *figures.ShopSpent, whole exact.Money) []Value {
	cells := []Value{TextOf(name), CountOf(s.Receipts)}
	for _, m := range s.Spent[:figures.ElectricitySpent] {
		cells = append(cells, MoneyOf(m))
	}
	return append(cells, MoneyOf(s.Spent.Total()), percentOf(s.Spent.Total(), whole))
}
