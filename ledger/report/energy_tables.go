package report

import (
	"putby/energy"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// This file shows estimates: what comes from [energy.SpreadOf] and
// [energy.FitLine] has passed through floats and is marked.

// A measure is something that each run of a group tells.
type measure struct {
	name     string
	spread   exact.Opt[energy.Spread]
	decimals int // that people are shown of the mean and the rest
}

// measures are those of a group.
func (r energyReport) measures(c *figures.Cycles) []measure {
	list := []measure{{"kWh", c.KWh, 2}, {"hours", c.Hours, 2}, {"kWh per kg of water", c.Water, 3}}
	if c.Food >= 0 {
		list = append(list, measure{"kWh per " + r.unit(c).String(), c.Each, 3})
	}
	return list
}

func (r energyReport) measuresTable() *Table {
	t := &Table{Columns: []Column{
		{Key: "machine", Title: "machine", Rank: r.machineRank(5)}, {Key: "item", Title: "food"}, {Key: "measure", Title: "of a run"}, {Key: "n", Title: "runs"},
		{Key: "mean", Title: "mean"}, {Key: "sd", Title: "standard deviation", Rank: 1},
		{Key: "min", Title: "least", Rank: 2}, {Key: "lower_quartile", Title: "lower quartile", Rank: 6},
		{Key: "median", Title: "median", Rank: 3}, {Key: "upper_quartile", Title: "upper quartile", Rank: 6}, {Key: "max", Title: "most", Rank: 2},
	}}
	for i := range r.Groups {
		c := &r.Groups[i]
		for _, m := range r.measures(c) {
			s, ok := m.spread.Get()
			if !ok {
				continue // nothing is known of it
			}
			cells := []Value{r.machine(c), r.item(c), TextOf(m.name), CountOf(s.N)}
			cells = append(cells, meanAndDeviation(m.spread, m.decimals)...)
			for _, e := range []energy.Estimate{s.Min, s.Lower, s.Median, s.Upper, s.Max} {
				cells = append(cells, estimateOf(e, m.decimals))
			}
			t.add(cells...)
		}
	}
	return t
}

// machineRank is the rank of the machines' column: of several it tells the rows
// apart, and stays.
func (r energyReport) machineRank(ofOne int) int {
	for i := range r.Groups {
		if r.machine(&r.Groups[i]) != r.machine(&r.Groups[0]) {
			return 0
		}
	}
	return ofOne
}

// summaryTable has a row for each group: means, and how far runs spread.
func (r energyReport) summaryTable() *Table {
	t := &Table{Columns: []Column{
		{Title: "machine", Rank: r.machineRank(6)}, {Title: "food"}, {Title: "runs"}, {Title: "kWh"}, {Title: "±", Rank: 2}, {Title: "hours", Rank: 1}, {Title: "±", Rank: 4},
		{Title: "kWh per kg of water"}, {Title: "±", Rank: 3}, {Title: "weighed", Rank: 5}, {Title: "kWh per unit loaded", Rank: 1}, {Title: "±", Rank: 3}, {Title: "unit", Rank: 1},
	}}
	for i := range r.Groups {
		c := &r.Groups[i]
		item, unit := TextOf("all foods"), None
		if c.Food >= 0 {
			item, unit = r.item(c), UnitOf(r.unit(c))
		}
		cells := []Value{r.machine(c), item, CountOf(c.Runs)}
		cells = append(cells, meanAndDeviation(c.KWh, 2)...)
		cells = append(cells, meanAndDeviation(c.Hours, 1)...)
		cells = append(append(cells, meanAndDeviation(c.Water, 2)...), CountOf(c.Water.Or(energy.Spread{}).N))
		cells = append(cells, meanAndDeviation(c.Each, 2)...)
		t.Rows = append(t.Rows, Row{Cells: append(cells, unit)})
	}
	return t
}

// meanAndDeviation are two cells about values that may be none.
func meanAndDeviation(spread exact.Opt[energy.Spread], decimals int) []Value {
	s, ok := spread.Get()
	if !ok {
		return []Value{None, None}
	}
	return []Value{estimateOf(s.Mean, decimals), optional(s.SD, func(e energy.Estimate) Value { return estimateOf(e, decimals) })}
}

// linesTable has a line for each food with loads that differ enough. Its
// bounds are those of one further run.
func (r energyReport) linesTable() *Table {
	t := &Table{Columns: []Column{
		{Key: "machine", Title: "machine", Rank: r.machineRank(7)}, {Key: "item", Title: "food"}, {Key: "n", Title: "runs", Rank: 4},
		{Key: "intercept", Title: "kWh when empty", Rank: 2}, {Key: "intercept_se", Title: "±", Rank: 6},
		{Key: "slope", Title: "kWh a unit"}, {Key: "slope_se", Title: "±", Rank: 3},
		{Key: "residual_sd", Title: "off the line", Rank: 5}, {Key: "r_squared", Title: "R²", Rank: 5},
		{Key: "load", Title: "at"}, {Key: "unit", Title: "unit"}, {Key: "kwh", Title: "kWh"},
		{Key: "low", Title: "from", Rank: 1}, {Key: "high", Title: "to", Rank: 1},
	}}
	for i := range r.Groups {
		c := &r.Groups[i]
		line, ok := c.Line.Get()
		if !ok {
			continue
		}
		unit := r.unit(c)
		t.add(r.machine(c), r.item(c), CountOf(line.N), estimateOf(line.Intercept, 2), estimateOf(line.InterceptSE, 2),
			estimateOf(line.Slope, 3), estimateOf(line.SlopeSE, 3), estimateOf(line.ResidualSD, 2), estimateOf(line.RSquared, 2),
			AmountOf(c.Load.Round(exact.QuantityPlaces, exact.HalfEven), unit), UnitOf(unit), estimateOf(line.KWh, 2), estimateOf(line.Low, 2), estimateOf(line.High, 2))
	}
	return t
}
