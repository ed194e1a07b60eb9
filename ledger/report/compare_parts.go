package report

import (
	"slices"
	"strings"

	"putby/ledger"
	"putby/pricing/exact"
)

// A comparedFigure is a column of the comparison that foods can be ranked by.
type comparedFigure struct {
	Column
	highest  bool // the highest is the best
	perBasis bool // of a litre, a kilogram or a piece, which do not compare
	figure   func(*compared) Value
}

// A comparePart is one table of the comparison; all have the same foods in the
// same order.
type comparePart struct {
	key, title string
	figures    []comparedFigure
}

var compareParts = []comparePart{
	{"rows", "What they cost", []comparedFigure{
		{Column{Key: "reconstituted", Title: "makes", Rank: 3}, true, true, func(c *compared) Value { return AmountOf(c.made, c.unit) }},
		{Column{Key: "total", Title: "total", Rank: 3}, false, false, func(c *compared) Value { return MoneyOf(c.good.Total()) }},
		{Column{Key: "per_unit", Title: "per unit", Bar: true}, false, true, func(c *compared) Value { return c.per(c.good.Total()) }},
		{Column{Key: "per_serving", Title: "a serving", Bar: true, Rank: 1}, false, false, (*compared).perServing},
		{Column{Key: "per_1000_kcal", Title: "1000 kcal", Bar: true, Rank: 1}, false, false, func(c *compared) Value { return c.perFoodValue(c.of.Kcal, 1000) }},
		{Column{Key: "per_100g_protein", Title: "100 g protein", Rank: 2}, false, false, func(c *compared) Value { return c.perFoodValue(c.of.Protein, 100) }},
		{Column{Key: "shelf_per_unit", Title: "shelf"}, false, true, (*compared).shelfPrice},
		{Column{Key: "saving_per_unit", Title: "saving per unit", Bar: true}, true, true, func(c *compared) Value { return c.savingPerUnit() }},
	}},
	{"parts", "Taken apart, per unit", []comparedFigure{
		{Column{Key: "food_per_unit", Title: "food"}, false, true, func(c *compared) Value { return c.per(c.good[ledger.FoodCost]) }},
		{Column{Key: "electricity_per_unit", Title: "power", Rank: 1}, false, true, func(c *compared) Value { return c.per(c.good[ledger.ElectricityCost]) }},
		{Column{Key: "supplies_per_unit", Title: "supplies", Rank: 1}, false, true, func(c *compared) Value { return c.per(c.good[ledger.SuppliesCost]) }},
		{Column{Key: "wear_per_unit", Title: "wear", Rank: 1}, false, true, func(c *compared) Value { return c.per(c.good[ledger.WearCost]) }},
		{Column{Key: "labour_per_unit", Title: "labour", Rank: 2}, false, true, func(c *compared) Value { return c.per(c.good[ledger.LabourCost]) }},
		{Column{Key: "food_percent", Title: "food, % of it", Rank: 2}, true, false, func(c *compared) Value { return percentOf(c.good[ledger.FoodCost], c.good.Total()) }},
		{Column{Key: "per_unit_with_loss", Title: "with loss", Rank: 2}, false, true, func(c *compared) Value { return c.per(c.good.Total().Add(c.lost)) }},
	}},
	{"spread", "From run to run", []comparedFigure{
		{Column{Key: "runs", Title: "runs"}, true, false, func(c *compared) Value { return CountOf(c.runs) }},
		{Column{Key: "lowest", Title: "lowest per unit"}, false, true, func(c *compared) Value { return PriceOf(c.perRuns[0], c.unit) }},
		{Column{Key: "median", Title: "median"}, false, true, func(c *compared) Value { return c.median() }},
		{Column{Key: "highest", Title: "highest"}, false, true, func(c *compared) Value { return PriceOf(c.perRuns[len(c.perRuns)-1], c.unit) }},
		{Column{Key: "deviation", Title: "standard deviation", Rank: 2}, false, true, (*compared).deviation},
		{Column{Key: "kwh_per_unit", Title: "kWh per unit", Rank: 1}, false, true, func(c *compared) Value { return QuotientOf(c.energy.Quo(exact.RatioOf(c.made)), 3) }},
		{Column{Key: "saving", Title: "saving in all", Rank: 1}, true, false, func(c *compared) Value { return optMoney(c.saving) }},
		{Column{Key: "per_run", Title: "a whole run earns", Rank: 1}, true, false, func(c *compared) Value { return optMoney(c.earned.perRun()) }},
	}},
}

// table lays foods out in the columns of a part.
func (p comparePart) table(foods []compared) *Table {
	t := &Table{Columns: []Column{{Key: "item", Title: "item"}, {Key: "unit", Title: "unit"}}, Empty: "Nothing is packed yet."}
	mixed := len(unitsOf(foods)) > 1
	for _, f := range p.figures {
		c := f.Column
		c.Bar = c.Bar && !(mixed && f.perBasis) // bars of litres and kilograms would seem to compare
		t.Columns = append(t.Columns, c)
	}
	first := p.key == compareParts[0].key
	if first {
		t.Columns = append(t.Columns, Column{Key: NotesKey, Title: "notes"})
	}
	for i := range foods {
		row := Row{Cells: []Value{foodValue(foods[i].of), UnitOf(foods[i].unit)}}
		for _, f := range p.figures {
			row.Cells = append(row.Cells, f.figure(&foods[i]))
		}
		if first {
			row.Notes = foods[i].notes
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// rankBy finds the figure with a key.
func rankBy(key string) (*comparedFigure, error) {
	if key == "" {
		key = "per_unit"
	}
	for _, p := range compareParts {
		for i := range p.figures {
			if p.figures[i].Key == key {
				return &p.figures[i], nil
			}
		}
	}
	return nil, &QueryError{"rank", exact.Quote(key) + " is not a column of figures", "one of: " + strings.Join(RankKeys(), ", ")}
}

// RankKeys lists the columns that a comparison can be ranked by.
func RankKeys() (keys []string) {
	for _, p := range compareParts {
		for _, f := range p.figures {
			keys = append(keys, f.Key)
		}
	}
	return keys
}

// rankFoods puts the best first, or the worst, and what has no figure last.
// Figures of a unit are ranked unit by unit: litres, kilograms, pieces.
func rankFoods(foods []compared, by *comparedFigure, worst bool) {
	sign := 1
	if by.highest != worst {
		sign = -1
	}
	slices.SortStableFunc(foods, func(a, b compared) int {
		if by.perBasis && a.unit != b.unit {
			return int(a.unit) - int(b.unit)
		}
		x, y := by.figure(&a), by.figure(&b)
		switch {
		case x.IsNull() && y.IsNull():
			return 0
		case x.IsNull():
			return 1
		case y.IsNull():
			return -1
		}
		return sign * x.Ratio().Cmp(y.Ratio())
	})
}

// median is what a unit cost in the run in the middle.
func (c *compared) median() Value {
	median, ok := exact.Median(c.perRuns)
	if !ok {
		return None
	}
	return PriceOf(median, c.unit)
}

// per is an amount of money per unit made.
func (c *compared) per(m exact.Money) Value { return PriceOf(m.Per(c.made), c.unit) }

func (c *compared) shelfPrice() Value {
	if price, ok := c.shelf.Get(); ok {
		return PriceOf(price, c.unit)
	}
	return None
}

// perServing is what one serving costs.
func (c *compared) perServing() Value {
	serving, ok := inBasis(c.of, c.of.Serving)
	if !ok {
		return None
	}
	return PriceOf(c.good.Total().Per(c.made).Times(serving), exact.NoUnit)
}

// perFoodValue is what so much of a food value costs, of which 100 g of the
// food have some.
func (c *compared) perFoodValue(per100g exact.Opt[exact.Number], amount int64) Value {
	value, known := per100g.Get()
	kg, ok := c.of.Mass(c.made)
	if !known || !ok || value.Sign() <= 0 || kg.Sign() <= 0 {
		return None
	}
	all := kg.Mul(exact.Int(10)).Mul(value)
	return PriceOf(c.good.Total().Per(all).Times(exact.Int(amount)), exact.NoUnit)
}
