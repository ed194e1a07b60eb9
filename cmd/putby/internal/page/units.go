package page

import (
	"slices"

	"putby/cmd/putby/internal/render"
	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// units is the part about what a litre, a kilogram or a piece costs.
func units(r Reports) (s section, err error) {
	s = section{ID: "units", Title: "What it costs once water is back", Wide: "two",
		Said: "Each bar is what a unit has cost, taken apart. The upright line is what the shop asks for the same amount: a bar that ends before it has saved."}
	foods := r.Compare.Figures.Foods
	if len(foods) == 0 {
		return s, nil
	}
	t := tellerOf(r.Compare.Doc)
	for i, unit := range unitsIn(foods) {
		bars := unitBars(r, unit)
		f := figure{ID: "per-" + unit.String(), Title: unitTitle(unit, t)}
		if i == 0 {
			s.Key = keyOf(costParts) // one for all
		}
		f.drawBars(t, bars)
		s.Figures = append(s.Figures, f)
	}
	s.Tables, err = tables(r.Compare.Doc, "compare", "rows", "parts", "spread")
	return s, err
}

// costOf is a figure of a food per unit.
func costOf(m figures.Measure) func(*figures.ComparedFood) report.Value {
	return func(c *figures.ComparedFood) report.Value {
		return exact.Map(c.Measure(m), func(v exact.Ratio) report.Value { return report.PriceOf(v, c.Unit) }).Or(report.None)
	}
}

var costParts = []partOf[figures.ComparedFood]{
	{class: "food", name: "food", of: costOf(figures.FoodPerUnit)},
	{class: "power", name: "electricity", of: costOf(figures.ElectricityPerUnit)},
	{class: "supplies", name: "supplies", of: costOf(figures.SuppliesPerUnit)},
	{class: "wear", name: "wear", of: costOf(figures.WearPerUnit)},
	{class: "labour", name: "labour", of: costOf(figures.LabourPerUnit)},
}

// unitsIn returns the units that foods are counted in: litres, kilograms, pieces.
func unitsIn(foods []figures.ComparedFood) (units []exact.Unit) {
	// Litres, kilograms and pieces do not compare: each has a chart of its own.
	for _, unit := range []exact.Unit{exact.L, exact.Kg, exact.Ea} {
		if slices.ContainsFunc(foods, func(c figures.ComparedFood) bool { return c.Unit == unit }) {
			units = append(units, unit)
		}
	}
	return units
}

var unitWords = map[exact.Unit]string{exact.L: "A litre", exact.Kg: "A kilogram", exact.Ea: "A piece"}

// unitTitle names a chart by the unit that tables show.
func unitTitle(unit exact.Unit, t valueText) string {
	if shown := t.show.In(unit); shown != unit {
		return "Per " + shown.String() + ", in " + t.currency.Code()
	}
	return unitWords[unit] + ", in " + t.currency.Code()
}

// unitBars turns the foods of a unit into bars, in order of the rows.
func unitBars(r Reports, unit exact.Unit) (bars []bar) {
	for i := range r.Compare.Figures.Foods {
		c := &r.Compare.Figures.Foods[i]
		if c.Unit != unit {
			continue
		}
		b := bar{name: render.Clean(r.Ledger.Foods[c.Food].Title()), total: costOf(figures.CostPerUnit)(c), beside: costOf(figures.ShelfPerUnit)(c), made: c.OfBatch}
		for _, p := range costParts {
			b.parts = append(b.parts, part{class: p.class, name: p.name, value: p.of(c)})
		}
		bars = append(bars, b)
	}
	return bars
}
