package report

import "putby/ledger/figures"

// comparison sets the last period shown beside the one before it and beside
// the same one a year before.
func comparison(say phrasing, s figures.Stretch, b figures.Beside) []Field {
	hasYear := b.HasYear && b.YearKey != ""
	t := &Table{Columns: []Column{
		{Key: "figure", Title: "figure"}, {Key: "this", Title: say.period(s.Key)},
		{Key: "before", Title: say.period(b.BeforeKey)}, {Key: "change", Title: "change"},
	}}
	if hasYear {
		t.Columns = append(t.Columns, Column{Key: "year_before", Title: say.period(b.YearKey)}, Column{Key: "change_on_year", Title: "change"})
	}
	sinceBefore, sinceYear := s.Minus(&b.Before.Tally), s.Minus(&b.Year.Tally)
	for _, f := range monthFigures {
		if f.Key == "opening" {
			continue // the closing of the period before
		}
		cells := []Value{TextOf(figureName(f.Column)), f.of(&s.Tally), None, None}
		if b.HasBefore {
			cells[2], cells[3] = f.of(&b.Before.Tally), f.of(&sinceBefore)
		}
		if hasYear {
			cells = append(cells, f.of(&b.Year.Tally), f.of(&sinceYear))
		}
		t.Rows = append(t.Rows, Row{Cells: cells, Spare: f.Spare})
	}
	title := say.period(s.Key) + " beside " + say.period(b.BeforeKey)
	if hasYear {
		title += " and " + say.period(b.YearKey)
	}
	return []Field{
		field("comparison", title, t),
		{Key: "compared", Node: Object{
			{Key: "this", Node: periodOf(s.Key)}, {Key: "before", Node: periodOf(b.BeforeKey)}, {Key: "year_before", Node: periodOf(b.YearKey)},
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
