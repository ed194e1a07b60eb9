package report

import (
	"fmt"
	"strings"

	"putby/energy"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// Energy lays out what this household's good cycles used, by machine and by
// food; see [figures.Energy]. All of it is inferred and not counted: every figure
// is an estimate. The error is that of figures.
func Energy(g *ledger.Ledger, q figures.EnergyQuery) (Doc, error) {
	use, err := figures.Energy(g, q)
	if err != nil {
		return Doc{}, err
	}
	r := energyReport{reportingOn(g), use}
	d := newDoc(g, "What runs use")
	if d.Words = r.words(); d.Words == nil {
		d.Words = []string{noRuns(g, "good run")}
	}
	lines := r.linesTable()
	summary, detail := "By machine and food", ""
	if r.Food >= 0 {
		summary, detail = "", "By machine"
	}
	d.Fields = []Field{
		{Title: summary, Node: r.summaryTable()},
		field("rows", detail, r.measuresTable()),
		field("lines", titleOf(len(lines.Rows), "kWh on load, by least squares"), lines),
		{Key: "estimates", Node: YesNoOf(true)},
	}
	d.Notes, d.Cautions = r.remarks(), cautions(g, func(f int) bool { return f == r.Food })
	return d, nil
}

// energyReport is the report being laid out.
type energyReport struct {
	reporting
	*figures.EnergyUse
}

// unit is what the food of a group is counted in.
func (r energyReport) unit(c *figures.Cycles) exact.Unit { return r.g.Foods[c.Food].Basis }

// machine names a group's machine.
func (r energyReport) machine(c *figures.Cycles) Value {
	return itemValue(r.g, r.g.Machines[c.Machine].ID)
}

// item names a group's food.
func (r energyReport) item(c *figures.Cycles) Value {
	if c.Food < 0 {
		return None
	}
	return foodValue(&r.g.Foods[c.Food])
}

// words sum up what the runs used, exactly.
func (r energyReport) words() []string {
	var words []string
	for i := range r.Groups {
		c := &r.Groups[i]
		if c.Food >= 0 && r.Food < 0 {
			continue
		}
		who := ItemTitle(r.g, r.g.Machines[c.Machine].ID)
		if c.Food >= 0 {
			who = r.title(c.Food) + " on " + who
		}
		words = append(words, fmt.Sprintf("%s: %s used %s kWh in all, ~%s kWh a run.", who, counted(c.Runs, "good run"), r.tenths(c.Used), r.tenths(c.MeanKWh())))
	}
	return words
}

// tenths writes an energy in a sentence.
func (r energyReport) tenths(kwh exact.Ratio) string {
	return r.show.Locale.Number(kwh.Round(1, exact.HalfAway).Fixed(1))
}

// remarks say what the figures are, and what they leave out.
func (r energyReport) remarks() (notes noteList) {
	if len(r.Groups) == 0 {
		return nil
	}
	notes.add("All means, spreads and lines are estimates of what a run uses, from the runs recorded. ± is the standard deviation from run to run, of a line's figures their standard error; one further run lies within the bounds 9 times in 10.")
	notes.addf("It takes %s kWh to turn a kilogram of ice to vapour: no run uses less for each kilogram of water that it removes.", r.number(energy.LatentHeat().Round(3, exact.HalfAway)))
	if r.Mixed > 0 {
		notes.addf("%s of several foods %s machine alone.", counted(r.Mixed, "run"), verb(r.Mixed, "counts with its", "count with their"))
	}
	if r.Spoiled > 0 {
		notes.addf("%s that spoiled left out.", counted(r.Spoiled, "run"))
	}
	if r.Running > 0 {
		notes.addf("%s not finished yet left out.", counted(r.Running, "run"))
	}
	var noLines []string
	for i := range r.Groups {
		if c := &r.Groups[i]; c.Food >= 0 && !c.Line.Given() {
			noLines = append(noLines, fmt.Sprintf("%s (%d)", r.title(c.Food), c.Loads))
		}
	}
	if noLines != nil {
		notes.addf("A line takes %d different loads; with fewer: %s.", energy.MinDistinct, strings.Join(noLines, ", "))
	}
	return notes
}
