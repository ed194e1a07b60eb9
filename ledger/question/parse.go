package question

import (
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// byNames are what the rows of cost may be, in the order of [figures.By].
var byNames = []string{"run", "item", "month", "machine"}

// ParseBy reads what the rows of a cost report are.
func ParseBy(s string) (figures.By, error) {
	if s == "food" {
		return figures.ByItem, nil // what people call an item
	}
	i := slices.Index(byNames, s)
	if i < 0 {
		return 0, OptionFault("by", "one of: run, food, month, machine", "%s is not a grouping", exact.Quote(s))
	}
	return figures.By(i), nil
}

// ParseEach reads what the rows of a month report are.
func ParseEach(s string) (figures.Each, error) {
	i := slices.Index(report.EachNames(), s)
	if i < 0 {
		return 0, OptionFault("by", "one of: "+strings.Join(report.EachNames(), ", "), "%s is not a grouping", exact.Quote(s))
	}
	return figures.Each(i), nil
}

// ParseRank reads the column that a comparison is ranked by; empty is the first
// measure, what a unit cost. The error is a fault of [ErrOption].
func ParseRank(key string) (figures.Measure, error) {
	rank, ok := report.RankOf(key)
	if !ok {
		return 0, OptionFault("rank", "one of: "+strings.Join(report.RankKeys(), ", "), "%s is not a column of figures", exact.Quote(key))
	}
	return rank, nil
}

// ParseBudgets reads the most to spend in a month by the names of kinds, for a
// report whose rows are each of something. The error is a fault of [ErrOption].
func ParseBudgets(most map[string]exact.Money, each figures.Each) (list figures.Budgets, err error) {
	for name, m := range most {
		kind, ok := figures.ParseSpending(name)
		switch {
		case !ok:
			return list, OptionFault("budget", ledger.Either(figures.SpendingNames()), "%s is no kind of spending", exact.Quote(name))
		case m.Sign() < 0:
			return list, OptionFault("budget", "", "%s: %v is below 0", name, m)
		}
		list[kind] = exact.Some(m)
	}
	if each == figures.EachWeek && len(most) > 0 {
		return list, OptionFault("budget", "use --by month, year or kind", "a budget is for a month, and the rows are weeks")
	}
	return list, nil
}

// ParseLoad reads what goes into a cycle, such as 5L. Its error is a
// fault of [ErrOption].
func ParseLoad(text string) (exact.Quantity, error) {
	r := &reading{option: "load", text: text}
	q := r.above(r.quantity())
	return q, r.err
}
