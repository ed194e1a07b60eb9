package report

import (
	"cmp"
	"slices"

	"putby/pricing/exact"
)

// budgetTable sets what was spent on each kind that has a budget beside it: in
// the last period shown, and in all that is shown. A budget is for a month;
// a longer period has it as often as it has months.
func budgetTable(last, whole stretch, budgets [spendings]exact.Opt[exact.Money]) *Table {
	t := &Table{Columns: []Column{
		{Key: "kind", Title: "kind"},
		{Key: "budget", Title: "for " + last.key}, {Key: "spent", Title: "spent"}, {Key: "left", Title: "left"},
		{Key: "budget_in_all", Title: "for all shown", Rank: 1}, {Key: "spent_in_all", Title: "spent in all", Rank: 1}, {Key: "left_in_all", Title: "left in all", Rank: 1},
	}}
	for kind, b := range budgets {
		month, ok := b.Get()
		if !ok || last.months == 0 {
			continue
		}
		cells := []Value{TextOf(spendingNames[kind])}
		for _, s := range []stretch{last, whole} {
			most, spent := month.Times(exact.Int(int64(s.months))), s.spent[kind]
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
func kindTable(c *calendar, budgets [spendings]exact.Opt[exact.Money]) *Table {
	whole := c.whole()
	t := &Table{Columns: []Column{
		{Key: "kind", Title: "kind"}, {Key: "spent", Title: "spent", Bar: true}, {Key: "percent", Title: "%", Rank: 2},
		{Key: "per_month", Title: "a month", Rank: 1}, {Key: "budget", Title: "budget", Rank: 1}, {Key: "left", Title: "left"},
	}}
	all, months := whole.spent.total(), exact.RatioOf(exact.Int(int64(whole.months)))
	for kind, spent := range whole.spent {
		budget, left := None, None
		if month, ok := budgets[kind].Get(); ok {
			most := month.Times(exact.Int(int64(whole.months)))
			budget, left = MoneyOf(most), MoneyOf(most.Sub(spent))
		}
		t.Rows = append(t.Rows, Row{Cells: []Value{
			TextOf(spendingNames[kind]), MoneyOf(spent), percentOf(spent, all),
			MoneyQuotient(ratioOf(spent).Quo(months)), budget, left,
		}})
	}
	t.Totals = []Row{{Cells: []Value{
		TextOf("in all"), MoneyOf(all), percentOf(all, all), MoneyQuotient(ratioOf(all).Quo(months)), None, None,
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

// shopSpent is what was spent in one shop.
type shopSpent struct {
	shop     string
	receipts map[string]bool
	spent    outgoings
}

// shopTable splits what was spent by receipts over the shops, the largest sum
// first.
func shopTable(c *calendar) *Table {
	shops := c.shops()
	t := &Table{Columns: []Column{
		{Key: "shop", Title: "shop"}, {Key: "receipts", Title: "receipts", Rank: 2},
		{Key: "food_spent", Title: "food", Rank: 1, Spare: true}, {Key: "supplies_spent", Title: "supplies", Rank: 3, Spare: true}, {Key: "machines_spent", Title: "machines", Rank: 4, Spare: true},
		{Key: "services_spent", Title: "services", Rank: 5, Spare: true}, {Key: "other_spent", Title: "other", Rank: 3, Spare: true},
		{Key: "spent", Title: "in all", Bar: true}, {Key: "percent", Title: "%", Rank: 2},
	}, Empty: "No receipt is recorded for that."}
	total := shopSpent{shop: "in all", receipts: map[string]bool{}}
	for i := range shops {
		total.spent = total.spent.plus(&shops[i].spent)
		for r := range shops[i].receipts {
			total.receipts[r] = true
		}
	}
	for i := range shops {
		t.Rows = append(t.Rows, Row{Cells: shops[i].cells(total.spent.total())})
	}
	t.Totals = []Row{{Cells: total.cells(total.spent.total())}}
	return t
}

func (s *shopSpent) cells(whole exact.Money) []Value {
	cells := []Value{TextOf(s.shop), CountOf(len(s.receipts))}
	for _, m := range s.spent[:electricitySpent] {
		cells = append(cells, MoneyOf(m))
	}
	return append(cells, MoneyOf(s.spent.total()), percentOf(s.spent.total(), whole))
}

func (c *calendar) shops() []*shopSpent {
	first, last := c.periods[c.first].from, c.periods[c.last].to
	var list []*shopSpent
	at := map[string]*shopSpent{}
	for i := range c.g.Receipts {
		r := &c.g.Receipts[i]
		if r.Date < first || r.Date > min(last, c.g.AsOf) || !c.buys(r) {
			continue
		}
		s := at[r.Shop]
		if s == nil {
			s = &shopSpent{shop: r.Shop, receipts: map[string]bool{}}
			at[r.Shop], list = s, append(list, s)
		}
		s.receipts[r.Receipt] = true
		s.spent[r.Kind] = s.spent[r.Kind].Add(c.g.Spends[i].Cost)
	}
	slices.SortStableFunc(list, func(a, b *shopSpent) int {
		return cmp.Or(b.spent.total().Cmp(a.spent.total()), cmp.Compare(a.shop, b.shop))
	})
	return list
}
