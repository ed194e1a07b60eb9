package ledger

import (
	"time"

	"putby/pricing/exact"
)

// FindRun returns the position of a run in Records.Runs and Ledger.Runs.
func (g *Ledger) FindRun(id string) (int, bool) { return g.find.runs.position(id) }

// FindPack returns the position of a pack in Records.Packs and Ledger.Packs.
func (g *Ledger) FindPack(id string) (int, bool) { return g.find.packs.position(id) }

// FindFood returns the position of a food in Records.Foods.
func (g *Ledger) FindFood(id string) (int, bool) { return g.find.foods.position(id) }

// FindSupply returns the position of a supply in Records.Supplies.
func (g *Ledger) FindSupply(id string) (int, bool) { return g.find.supplies.position(id) }

// FindMachine returns the position of a machine in Records.Machines.
func (g *Ledger) FindMachine(id string) (int, bool) { return g.find.machines.position(id) }

// PhasesOf returns the positions in Records.Phases of a run's phases, in order
// of step.
func (g *Ledger) PhasesOf(run int) []int32 { return g.find.phasesOf.of(run) }

// ByStart returns the positions of all runs, in order of start.
func (g *Ledger) ByStart() []int32 { return g.find.runOrder }

// PhaseName returns the name of the j-th phase of a run, or "whole run" where
// it was billed as one.
func (g *Ledger) PhaseName(run, j int) string {
	if rows := g.PhasesOf(run); j < len(rows) {
		return g.Records.Phases.At(int(rows[j])).Phase.String()
	}
	return "whole run"
}

// FoodStock returns the stock of the food at a position in Records.Foods.
func (g *Ledger) FoodStock(food int) *Stock { return &g.foods[food] }

// SupplyStock returns the stock of the supply at a position in
// Records.Supplies, in uses.
func (g *Ledger) SupplyStock(supply int) *Stock { return &g.supplies[supply] }

// MachineStock returns the stock of the machine at a position in
// Records.Machines, in cycles.
func (g *Ledger) MachineStock(machine int) *Stock { return &g.machines[machine] }

// Item is what a run made of a food; nil where it was not loaded with it.
func (c *RunCost) Item(food int) *ItemCost {
	for i := range c.Items {
		if c.Items[i].Food == food {
			return &c.Items[i]
		}
	}
	return nil
}

// Loaded reports whether a run was loaded with a food.
func (c *RunCost) Loaded(food int) bool { return c.Item(food) != nil }

// Watts returns the typical draw (W) of a machine, by its position in
// Records.Machines, in a phase.
func (g *Ledger) Watts(machine int, phase PhaseName) exact.Opt[exact.Number] {
	return g.find.wattage[machine][phase]
}

// EndOf returns when a run ends, by its end or its phases, and false where the
// records do not tell, or it goes on. The records need not be joined.
func EndOf(rec *Records, run *Run) (time.Time, bool) {
	if run.Running {
		return run.Start, false
	}
	end, known := run.End.Get()
	if known {
		return end, true
	}
	end = run.Start
	for _, p := range rec.Phases.All() {
		if p.Run == run.ID {
			end, known = end.Add(p.Length), true
		}
	}
	return end, known
}

// HasPhases reports whether a run has phases in the records.
func HasPhases(rec *Records, run *Run) bool {
	return rec.Phases.Index(func(p *Phase) bool { return p.Run == run.ID }) >= 0
}
