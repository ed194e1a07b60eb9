package ledger

import (
	"strings"

	"putby/pricing/exact"
)

// A Capacity is the most of a food that one cycle of a machine takes.
type Capacity struct {
	// Most is the lesser of the machine's limits, in the food's basis unit; not
	// given where none of them is known in it. Of a counted food it is whole
	// pieces, unless one piece alone is more than a load and so is cut up.
	Most   exact.Opt[exact.Number]
	Passed []PassedLimit
}

// A PassedLimit is a limit of a machine that cannot be told in a food's unit.
type PassedLimit struct {
	Column string // load_volume or load_mass
	Most   exact.Quantity
	Lacks  string // the food's columns that would convert it
}

// A loadLimit is a limit of a machine by its column.
type loadLimit struct {
	column string
	most   exact.Quantity
}

// loadLimits are the limits that a machine has.
func (m *Machine) loadLimits() (list []loadLimit) {
	for _, l := range []loadLimit{{"load_volume", m.LoadVolume}, {"load_mass", m.LoadMass}} {
		if l.most.Given() {
			list = append(list, l)
		}
	}
	return list
}

// Capacity returns how much of a food a cycle takes.
func (m *Machine) Capacity(food *Food) (c Capacity) {
	for _, limit := range m.loadLimits() {
		bulk, lacks := food.bulk(limit.most.Base().Unit())
		if lacks != "" {
			c.Passed = append(c.Passed, PassedLimit{limit.column, limit.most, lacks})
			continue
		}
		most := exact.RatioOf(limit.most.Base().Number()).Quo(bulk).Round(exact.QuantityPlaces, exact.HalfEven)
		if whole := exact.RatioOf(most).Floor(); food.Basis == exact.Ea && whole.Sign() > 0 {
			most = whole
		}
		if least, ok := c.Most.Get(); !ok || most.Less(least) {
			c.Most = exact.Some(most)
		}
	}
	return c
}

// Litres returns how many litres one basis unit of the food takes; else the
// columns that it lacks to tell.
func (f *Food) Litres() (each exact.Ratio, lacks string) { return f.bulk(exact.L) }

// bulk returns what one basis unit of the food is in L or kg; else the columns
// that it lacks to tell.
func (f *Food) bulk(unit exact.Unit) (in exact.Ratio, lacks string) {
	in = exact.RatioOf(exact.Int(1))
	if f.Basis == unit {
		return in, ""
	}
	var blank []string
	need := func(column string, cell exact.Opt[exact.Number]) exact.Ratio {
		n, ok := cell.Get()
		if !ok || n.Sign() <= 0 { // a fault says that it is above 0
			blank, n = append(blank, column), exact.Int(1)
		}
		return exact.RatioOf(n)
	}
	switch f.Basis { // to kg
	case exact.L:
		in = need("density", f.Density)
	case exact.Ea:
		in = need("piece_kg", f.PieceKg)
	}
	if unit == exact.L {
		in = in.Quo(need("density", f.Density))
	}
	return in, strings.Join(blank, " and ")
}

// An Overload is a limit of the machine that a run's loads are beyond.
type Overload struct {
	Column string // load_volume or load_mass
	Most   exact.Quantity
	Loaded exact.Quantity // of all its loads that can be told so, in L or kg
}

// Overloads returns the limits of its machine that a run's loads together are
// beyond, whatever food they are. A weight before drying outranks a density, and
// a load that cannot be told in a limit's unit does not count against it.
func (g *Ledger) Overloads(run int) (list []Overload) {
	m, ok := g.FindMachine(g.Records.Runs[run].Machine)
	if !ok {
		return nil
	}
	for _, limit := range g.Machines[m].loadLimits() {
		unit, sum := limit.most.Base().Unit(), exact.Ratio{}
		for i := range g.Runs[run].Loads {
			sum = sum.Add(g.bulkOf(&g.Runs[run].Loads[i], run, unit))
		}
		if sum.Cmp(exact.RatioOf(limit.most.Base().Number())) > 0 {
			list = append(list, Overload{limit.column, limit.most, unit.Of(sum.Round(exact.QuantityPlaces, exact.HalfEven))})
		}
	}
	return list
}

// bulkOf is what a load is in L or kg, 0 where nothing tells.
func (g *Ledger) bulkOf(load *LoadCost, run int, unit exact.Unit) exact.Ratio {
	if wet := g.Records.Loads.At(int(load.Load)).Wet; unit == exact.Kg && wet.Given() {
		return exact.RatioOf(wet.Base().Number())
	}
	bulk, lacks := g.Foods[g.Runs[run].Items[load.Item].Food].bulk(unit)
	if lacks != "" {
		return exact.Ratio{}
	}
	return bulk.Times(load.Quantity)
}
