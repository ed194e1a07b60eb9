package report

import (
	"slices"

	"putby/energy"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// An EnergyQuery asks what cycles use. Dates are those of the runs' starts.
type EnergyQuery struct {
	figures.Query
	Machine string         // only this one; empty is all
	Load    exact.Quantity // at which lines are read; not given: at their runs' mean load
}

// Energy reports what this household's good cycles used, by machine and by
// food: kWh, hours, kWh for each kilogram of water removed and for each unit
// loaded, and where loads differ enough the line of kWh on load. All of it is
// inferred and not counted: every figure is an estimate. The ledger must be
// joined through its last record. The error is a [*QueryError].
func Energy(g *ledger.Ledger, q EnergyQuery) (Doc, error) {
	scope, err := q.In(g)
	if err != nil {
		return Doc{}, asked(g, err)
	}
	if _, ok := g.FindMachine(q.Machine); q.Machine != "" && !ok {
		return Doc{}, errorf("machine", "machines are in "+ledger.MachinesFile, "no machine is called %s", exact.Quote(q.Machine))
	}
	r := &energyReport{g: g, q: q, scope: scope}
	if err := r.gather(); err != nil {
		return Doc{}, err
	}
	d := newDoc(g, "What cycles use")
	d.Words = r.words()
	lines := r.linesTable()
	summary, detail := "By machine and food", ""
	if scope.Food >= 0 {
		summary, detail = "", "By machine"
	}
	d.Fields = []Field{
		{Title: summary, Node: r.summaryTable()},
		field("rows", detail, r.measuresTable()),
		field("lines", titleOf(len(lines.Rows), "kWh on load, by least squares"), lines),
		{Key: "estimates", Node: YesNoOf(true)},
	}
	r.remark()
	d.Notes = append(r.notes, cautions(g, func(f int) bool { return f == scope.Food })...)
	return d, nil
}

// energyReport is the report in the making.
type energyReport struct {
	g       *ledger.Ledger
	q       EnergyQuery
	scope   figures.Scope
	groups  []*cycles
	spoiled int // runs left out
	mixed   int // runs of several foods
	noLines []string
	notes   doubts
}

// cycles are the good runs of a machine: all of them, or those that dried one
// food alone.
type cycles struct {
	machine string
	food    int // position; -1: all
	runs    int
	kwh     []exact.Ratio // of each run
	hours   []exact.Ratio // of each run whose length is known
	water   []exact.Ratio // kWh per kg of water removed, where it was weighed
	each    []exact.Ratio // kWh per unit loaded
	points  []energy.Point
	load    exact.Ratio // at which the line is read
}

// unit is what the food of a group is counted in.
func (c *cycles) unit(g *ledger.Ledger) exact.Unit {
	if c.food < 0 {
		return exact.NoUnit
	}
	return g.Foods[c.food].Basis
}

// gather sorts the runs into groups: for each machine all of its runs, then
// those of each food.
func (r *energyReport) gather() error {
	for m := range r.g.Machines {
		machine := r.g.Machines[m].ID
		if r.q.Machine != "" && r.q.Machine != machine {
			continue
		}
		all := &cycles{machine: machine, food: -1}
		foods := make([]*cycles, len(r.g.Foods))
		for i := range r.g.Runs {
			if r.g.Records.Runs[i].Machine == machine && r.g.Runs[i].Done && r.scope.Covers(r.g.Runs[i].Date) {
				r.sort(i, all, foods)
			}
		}
		if r.scope.Food < 0 && all.runs > 0 {
			r.groups = append(r.groups, all)
		}
		for _, c := range foods {
			if c == nil || !r.scope.Wants(c.food) {
				continue
			}
			if err := r.setLoad(c); err != nil {
				return err
			}
			r.groups = append(r.groups, c)
		}
	}
	return nil
}

// sort puts a run into the groups of its machine and of its food.
func (r *energyReport) sort(run int, all *cycles, foods []*cycles) {
	cost := &r.g.Runs[run]
	about := r.scope.Food < 0 || slices.ContainsFunc(cost.Items, func(i ledger.ItemCost) bool { return r.scope.Wants(i.Food) })
	switch {
	case r.g.Records.Runs[run].Spoiled:
		if about {
			r.spoiled++
		}
		return
	case len(cost.Items) != 1:
		if about {
			r.mixed++
		}
	default:
		food := cost.Items[0].Food
		if foods[food] == nil {
			foods[food] = &cycles{machine: all.machine, food: food}
		}
		foods[food].add(r.g, run)
	}
	all.add(r.g, run)
}

// add takes a run into account.
func (c *cycles) add(g *ledger.Ledger, run int) {
	cost := &g.Runs[run]
	c.runs++
	c.kwh = append(c.kwh, cost.Energy)
	if length, ok := cost.Length.Get(); ok {
		c.hours = append(c.hours, SpanOf(length).Ratio())
	}
	if kg, all := g.WaterRemoved(run); all && kg.Sign() > 0 {
		c.water = append(c.water, cost.Energy.Quo(exact.RatioOf(kg)))
	}
	if c.food >= 0 {
		load := exact.RatioOf(cost.Items[0].Loaded)
		c.each = append(c.each, cost.Energy.Quo(load))
		c.points = append(c.points, energy.Point{X: load, Y: cost.Energy})
	}
}

// setLoad says at which load the line of a group is read.
func (r *energyReport) setLoad(c *cycles) error {
	if !r.q.Load.Given() {
		loads := make([]exact.Ratio, len(c.points))
		for i, p := range c.points {
			loads[i] = p.X
		}
		c.load = figures.MeanOf(loads)
		return nil
	}
	n, err := r.g.Foods[c.food].InBasis(r.q.Load)
	if err != nil {
		return errorf("load", "name a food with --item, and write the load in its unit", "%v", err)
	}
	c.load = exact.RatioOf(n)
	return nil
}

// ParseLoad reads what goes into a cycle, such as 5L. Its error is a
// [*QueryError].
func ParseLoad(text string) (exact.Quantity, error) {
	r := &reading{option: "load", text: text}
	q := r.above(r.quantity())
	return q, r.err
}
