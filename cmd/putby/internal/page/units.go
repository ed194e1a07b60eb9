package page

import (
	"cmp"
	"fmt"
	"slices"

	"putby/cmd/putby/internal/render"
)

// units is the part about what a litre, a kilogram or a piece costs.
func units(r Reports) (s section, err error) {
	s = section{ID: "units", Title: "What it costs once water is back", Wide: "two",
		Said: "Each bar is what a unit has cost, taken apart. The upright line is what the shop asks for the same amount: a bar that ends before it has saved."}
	rows, parts := read(r.Compare, "rows"), read(r.Compare, "parts")
	if len(rows.Rows) == 0 {
		return s, nil
	}
	t := tellerOf(r.Compare)
	for i, unit := range unitsIn(rows) {
		bars := rows.bars(parts, unit)
		f := figure{ID: "per-" + unit, Title: unitTitle(rows, unit, t)}
		if i == 0 {
			s.Key = keyOf(costParts) // one for all
		}
		f.drawBars(t, bars)
		f.About = aboutBars(t, bars)
		s.Figures = append(s.Figures, f)
	}
	s.Tables, err = tables(r.Compare, "rows", "parts", "spread")
	return s, err
}

var costParts = []partOf{
	{key: "food_per_unit", class: "food", name: "food"},
	{key: "electricity_per_unit", class: "power", name: "electricity"},
	{key: "supplies_per_unit", class: "supplies", name: "supplies"},
	{key: "wear_per_unit", class: "wear", name: "wear"},
	{key: "labour_per_unit", class: "labour", name: "labour"},
}

// unitsIn returns the units that foods are counted in, in order of the rows.
func unitsIn(rows reader) (units []string) {
	for _, row := range rows.Rows {
		if u := rows.cell(row, "unit").Text(); !slices.Contains(units, u) {
			units = append(units, u)
		}
	}
	slices.SortStableFunc(units, func(a, b string) int { return cmp.Compare(unitRank[a], unitRank[b]) })
	return units
}

var unitRank = map[string]int{"L": 1, "kg": 2, "ea": 3}

var unitWords = map[string]string{"L": "A litre", "kg": "A kilogram", "ea": "A piece"}

// unitTitle names a chart by the unit that tables show.
func unitTitle(rows reader, unit string, t teller) string {
	for _, row := range rows.Rows {
		if v := rows.cell(row, "unit"); v.Text() == unit {
			if shown := t.show.In(v.Unit()); shown != v.Unit() {
				return "Per " + shown.String() + ", in " + t.currency.Code()
			}
		}
	}
	return unitWords[unit] + ", in " + t.currency.Code()
}

// bars turns the foods of a unit into bars, in order of the rows.
func (r reader) bars(parts reader, unit string) (bars []bar) {
	for i, row := range r.Rows {
		if r.cell(row, "unit").Text() != unit || i >= len(parts.Rows) {
			continue
		}
		b := bar{name: r.word(row, "item"), total: r.cell(row, "per_unit"), beside: r.cell(row, "shelf_per_unit")}
		for _, p := range costParts {
			b.parts = append(b.parts, part{class: p.class, name: p.name, value: parts.cell(parts.Rows[i], p.key)})
		}
		bars = append(bars, b)
	}
	return bars
}

func aboutBars(t teller, bars []bar) string {
	about := "Bars of cost per unit by food, taken apart into food, electricity, supplies, wear and labour, beside the shelf price."
	for _, b := range bars {
		about += fmt.Sprintf(" %s: %s", render.Clean(b.name), t.short(b.total))
		if !b.beside.IsNull() {
			about += ", shop " + t.short(b.beside)
		}
		about += "."
	}
	return about
}
