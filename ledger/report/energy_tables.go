package report

import (
	"fmt"
	"strings"

	"putby/energy"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// This file shows estimates: what comes from [energy.SpreadOf] and
// [energy.FitLine] has passed through floats and is marked.

// A measure is something that each run of a group tells.
type measure struct {
	name     string
	values   []exact.Ratio
	decimals int
}

// measures are those that a group has values for.
func (r *energyReport) measures(c *cycles) []measure {
	list := []measure{
		{"kWh", c.kwh, 2}, {"hours", c.hours, 2}, {"kWh per kg of water", c.water, 3},
	}
	if c.food >= 0 {
		list = append(list, measure{"kWh per " + c.unit(r.g).String(), c.each, 3})
	}
	return list
}

func (r *energyReport) measuresTable() *Table {
	t := &Table{Columns: []Column{
		{Key: "machine", Title: "machine", Rank: 5}, {Key: "item", Title: "item"}, {Key: "measure", Title: "of a cycle"}, {Key: "n", Title: "runs"},
		{Key: "mean", Title: "mean"}, {Key: "sd", Title: "standard deviation", Rank: 1},
		{Key: "min", Title: "least", Rank: 2}, {Key: "lower_quartile", Title: "lower quartile", Rank: 6},
		{Key: "median", Title: "median", Rank: 3}, {Key: "upper_quartile", Title: "upper quartile", Rank: 6}, {Key: "max", Title: "most", Rank: 2},
	}, Empty: noRuns}
	for _, c := range r.groups {
		for _, m := range r.measures(c) {
			s, err := energy.SpreadOf(m.values)
			if err != nil {
				continue // nothing is known of it
			}
			cells := []Value{itemValue(r.g, c.machine), r.item(c), TextOf(m.name), CountOf(s.N)}
			cells = append(cells, meanAndDeviation(m.values, m.decimals)...)
			for _, e := range []energy.Estimate{s.Min, s.Lower, s.Median, s.Upper, s.Max} {
				cells = append(cells, estimateOf(e, m.decimals))
			}
			t.Rows = append(t.Rows, Row{Cells: cells})
		}
	}
	return t
}

// summaryTable has a row for each group: means, and how far runs spread.
func (r *energyReport) summaryTable() *Table {
	t := &Table{Columns: []Column{
		{Title: "machine", Rank: 6}, {Title: "item"}, {Title: "runs"}, {Title: "kWh"}, {Title: "±", Rank: 2}, {Title: "hours", Rank: 1}, {Title: "±", Rank: 4},
		{Title: "kWh per kg of water"}, {Title: "±", Rank: 3}, {Title: "weighed", Rank: 5}, {Title: "kWh per unit loaded", Rank: 1}, {Title: "±", Rank: 3}, {Title: "unit", Rank: 1},
	}, Empty: noRuns}
	for _, c := range r.groups {
		item, unit := TextOf("all foods"), None
		if c.food >= 0 {
			item, unit = r.item(c), UnitOf(c.unit(r.g))
		}
		cells := []Value{itemValue(r.g, c.machine), item, CountOf(c.runs)}
		for i, values := range [][]exact.Ratio{c.kwh, c.hours, c.water, c.each} {
			cells = append(cells, meanAndDeviation(values, []int{2, 1, 2, 2}[i])...)
			if i == 2 {
				cells = append(cells, CountOf(len(c.water)))
			}
		}
		t.Rows = append(t.Rows, Row{Cells: append(cells, unit)})
	}
	return t
}

const noRuns = "No good run is recorded for that."

// meanAndDeviation are two cells about values that may be none.
func meanAndDeviation(values []exact.Ratio, decimals int) []Value {
	s, err := energy.SpreadOf(values)
	if err != nil {
		return []Value{None, None}
	}
	sd := None
	if e, ok := s.SD.Get(); ok {
		sd = estimateOf(e, decimals)
	}
	return []Value{estimateOf(s.Mean, decimals), sd}
}

// item names a group's food.
func (r *energyReport) item(c *cycles) Value {
	if c.food < 0 {
		return None
	}
	return foodValue(&r.g.Foods[c.food])
}

// linesTable has a line for each food with loads that differ enough. Its
// bounds are those of one further run.
func (r *energyReport) linesTable() *Table {
	t := &Table{Columns: []Column{
		{Key: "machine", Title: "machine", Rank: 7}, {Key: "item", Title: "item"}, {Key: "n", Title: "runs", Rank: 4},
		{Key: "intercept", Title: "kWh when empty", Rank: 2}, {Key: "intercept_se", Title: "±", Rank: 6},
		{Key: "slope", Title: "kWh a unit"}, {Key: "slope_se", Title: "±", Rank: 3},
		{Key: "residual_sd", Title: "off the line", Rank: 5}, {Key: "r_squared", Title: "R²", Rank: 5},
		{Key: "load", Title: "at"}, {Key: "unit", Title: "unit"}, {Key: "kwh", Title: "kWh"},
		{Key: "low", Title: "from", Rank: 1}, {Key: "high", Title: "to", Rank: 1},
	}}
	for _, c := range r.groups {
		if c.food < 0 {
			continue
		}
		line, err := energy.FitLine(c.points)
		if err != nil {
			r.noLine(c)
			continue
		}
		low, high := line.Prediction(c.load, confidence)
		unit := c.unit(r.g)
		t.Rows = append(t.Rows, Row{Cells: []Value{
			itemValue(r.g, c.machine), r.item(c), CountOf(line.N), estimateOf(line.Intercept, 2), estimateOf(line.InterceptSE, 2),
			estimateOf(line.Slope, 3), estimateOf(line.SlopeSE, 3), estimateOf(line.ResidualSD, 2), estimateOf(line.RSquared, 2),
			AmountOf(rounded(c.load), unit), UnitOf(unit), estimateOf(line.At(c.load), 2), estimateOf(low, 2), estimateOf(high, 2),
		}})
	}
	return t
}

// noLine says that a food's loads are too much alike for a line.
func (r *energyReport) noLine(c *cycles) {
	distinct := map[string]bool{}
	for _, p := range c.points {
		distinct[p.X.String()] = true
	}
	r.noLines = append(r.noLines, fmt.Sprintf("%s (%d)", r.g.Foods[c.food].Title(), len(distinct)))
}

// words sum up what the runs used, exactly.
func (r *energyReport) words() []string {
	var words []string
	for _, c := range r.groups {
		if c.food >= 0 && r.scope.Food < 0 {
			continue
		}
		who := c.machine
		if c.food >= 0 {
			who = r.g.Foods[c.food].Title() + " on " + who
		}
		sum := figures.SumOf(c.kwh)
		words = append(words, fmt.Sprintf("%s: %s used %s kWh in all, ~%s kWh a run.", who, counted(c.runs, "good run"), tenths(sum), tenths(sum.Quo(wholeRatio(c.runs)))))
	}
	return words
}

// tenths writes an energy in a sentence.
func tenths(r exact.Ratio) string { return r.Round(1, exact.HalfAway).Fixed(1) }

// remark notes what the figures are, and what they leave out.
func (r *energyReport) remark() {
	if len(r.groups) == 0 {
		return
	}
	r.notes.add("All means, spreads and lines are estimates of what a cycle uses, from the runs recorded. ± is the standard deviation from run to run, of a line's figures their standard error; one further cycle lies within the bounds 9 times in 10.")
	r.notes.addf("It takes %v kWh to turn a kilogram of ice to vapour: no cycle uses less for each kilogram of water that it removes.", energy.LatentHeat().Round(3, exact.HalfAway))
	if r.mixed > 0 {
		r.notes.addf("%s of several foods count with their machine alone.", counted(r.mixed, "run"))
	}
	if r.spoiled > 0 {
		r.notes.addf("%s that spoiled left out.", counted(r.spoiled, "run"))
	}
	if r.noLines != nil {
		r.notes.addf("A line takes %d different loads; with fewer: %s.", energy.MinDistinct, strings.Join(r.noLines, ", "))
	}
}
