package report

import (
	"putby/pricing/exact"
)

// comparison sets the last period shown beside the one before it and beside
// the same one a year before.
func (c *calendar) comparison(s stretch) []Field {
	before, beforeKey, hasBefore := c.before(s)
	year, yearKey, hasYear := c.yearBefore(s)
	hasYear = hasYear && yearKey != ""
	t := &Table{Columns: []Column{
		{Key: "figure", Title: "figure"}, {Key: "this", Title: s.key},
		{Key: "before", Title: beforeKey}, {Key: "change", Title: "change"},
	}}
	if hasYear {
		t.Columns = append(t.Columns, Column{Key: "year_before", Title: yearKey}, Column{Key: "change_on_year", Title: "change"})
	}
	for _, f := range monthFigures {
		if f.Key == "opening" {
			continue // the closing of the period before
		}
		this := f.of(&s.tally)
		cells := append([]Value{TextOf(figureName(f.Column)), this}, changeCells(this, f.of(&before.tally), hasBefore)...)
		if hasYear {
			cells = append(cells, changeCells(this, f.of(&year.tally), true)...)
		}
		t.Rows = append(t.Rows, Row{Cells: cells, Spare: f.Spare})
	}
	title := s.key + " beside " + beforeKey
	if hasYear {
		title += " and " + yearKey
	}
	return []Field{
		field("comparison", title, t),
		{Key: "compared", Node: Object{
			{Key: "this", Node: TextOf(s.key)}, {Key: "before", Node: TextOf(beforeKey)}, {Key: "year_before", Node: textOrNone(yearKey)},
		}},
	}
}

// figureName is what a figure is called in a list of them.
func figureName(c Column) string {
	switch c.Key {
	case "food_spent", "supplies_spent", "machines_spent", "services_spent", "other_spent":
		return "spent on " + c.Title
	}
	return c.Title
}

// changeCells are a figure of another period, and how much this one differs.
func changeCells(this, other Value, known bool) []Value {
	if !known {
		return []Value{None, None}
	}
	change := this.Ratio().Sub(other.Ratio())
	if n, ends := change.Number(); ends && this.Kind() == Money {
		return []Value{other, MoneyOf(exact.MoneyOf(n))}
	}
	return []Value{other, MoneyQuotient(change)}
}

func textOrNone(s string) Value {
	if s == "" {
		return None
	}
	return TextOf(s)
}
