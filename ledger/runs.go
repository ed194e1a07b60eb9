package ledger

import (
	"time"

	"putby/energy"
	"putby/ledger/advice"
	"putby/pricing/exact"
)

// A RunCost is what a run cost, and where that went.
type RunCost struct {
	Done        bool                     // the run began by the ledger's date; all else but Date is of such runs
	SharedBy    Share                    // how Electricity, Wear, Supplies and Labour were shared among loads
	powerNotes  uint16                   // how many of Notes are about electricity
	Date        exact.Date               // local date of its start
	Energy      exact.Ratio              // kWh
	Length      exact.Opt[time.Duration] // not given: no phases, no log and no end
	Electricity exact.Money              // of all its phases, each posted once
	Wear        exact.Money              // of one cycle; 0 where no receipt has the machine, or its cycles are used up
	Supplies    exact.Money              // the machine's
	Labour      exact.Money              // hands-on time at the settings' value of an hour
	WearTakes   Range
	SupplyTakes Range
	Loads       []LoadCost // in file order; none when bare
	Items       []ItemCost // in the order in which they are loaded
	*Billed
	Notes []Note
}

// Billed is how a run's electricity was billed, when that is itemized.
type Billed struct {
	Phases []energy.Bill
	Posted []exact.Money // electricity of each phase
}

// notItemized stands for all runs that are not.
var notItemized Billed

// A LoadCost is what one load row cost.
type LoadCost struct {
	Load     int32        // position in Records.Loads
	Item     int32        // position in RunCost.Items
	Takes    Range        // lots it drew on
	Quantity exact.Number // in the food's basis unit
	LostPart exact.Number // of Quantity
	Weight   exact.Number // what the run's common costs were shared by
	Costs    Costs        // all of it
	Lost     *Costs       // the lost part
}

// nothing is what is lost of most loads, which share it.
var nothing Costs

// An ItemCost is what one food of a run cost.
type ItemCost struct {
	Food     int          // position in Records.Foods
	Loaded   exact.Number // in the food's basis unit
	LostPart exact.Number // of Loaded
	Good     Costs        // to be carried by its packs, before their own supplies
	Lost     *Costs
	Energy   exact.Ratio  // its part of the run's kWh
	Packs    []int32      // positions in Records.Packs
	Made     exact.Number // reconstituted amount of all its packs
	Usual    exact.Ratio  // what it makes if it does as its food's other runs; an estimate
	Short    bool         // its packs make so much less than usual that more is to be packed
	Over     bool         // its packs make more than can have come of it
}

// dry draws a run's loads and posts its costs. The order is relied on: a share takes
// all that is common, a loss a share, and packs what is left of both.
func (g *joiner) dry(i int32) {
	run, cost := &g.Records.Runs[i], &g.Runs[i]
	cost.powerNotes = uint16(len(cost.Notes))
	g.Flows.Electricity = g.Flows.Electricity.Add(cost.Electricity)
	g.loadUp(int(i), run, cost)
	g.wear(run, cost)
	cost.Labour = g.Labour(exact.Int(int64(run.Hands / time.Second)).Over(exact.Int(3600)))
	g.Flows.Labour = g.Flows.Labour.Add(cost.Labour)
	if len(cost.Loads) == 0 {
		g.checkEmpty(i, run)
		return
	}
	g.shareOut(run, cost)
	g.lose(run, cost)
	g.splitOverPacks(int(i), cost)
	if g.options.Bare {
		cost.Loads, g.scratch.loads = nil, g.scratch.loads[:0]
	}
}

// checkEmpty refuses a run into which nothing went: nothing could carry its
// costs.
func (g *joiner) checkEmpty(i int32, run *Run) {
	first, _ := g.x.runs.find(run.ID)
	doubled := first != i // then the loads are the other's
	if len(g.x.loadsOf.of(int(i))) == 0 && !doubled && !g.x.unread.run(run.ID) {
		g.x.advise(place{RunsFile, run.Line}, RunColumn, "say what went in", []advice.Doing{advice.Do("load add").With(RunColumn, run.ID)}, "run %s has no load", run.ID)
	}
}
