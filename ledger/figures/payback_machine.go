package figures

import (
	"putby/ledger"
	"putby/pricing/exact"
)

// A MachineEarning is what one of several machines cost, and what its runs have
// earned; or what came of food that none of them dried.
type MachineEarning struct {
	Machine int // position in Machines; -1: none
	Outlay  Outlay
	Runs    int         // of it by the ledger's date
	Earned  exact.Ratio // money
}

// Left is what it has not earned back yet; 0 or less when it has.
func (m *MachineEarning) Left() exact.Ratio { return m.Outlay.Target().Ratio().Sub(m.Earned) }

// addMachines shares out among several machines what has been earned: each by what
// it dried, and last what none did. The error is [ErrUnbalanced] where those do
// not sum to the whole.
func (r *PaybackResult) addMachines(g *ledger.Ledger, scope Scope) error {
	if scope.Machine.Given() || len(g.Machines) < 2 {
		return nil
	}
	tallies, err := tallyMachines(g, scope)
	if err != nil {
		return err
	}
	var list []MachineEarning
	var sum exact.Ratio
	for m := -1; m < len(g.Machines); m++ {
		id := "" // of no machine
		if m >= 0 {
			id = g.Machines[m].ID
		}
		scope.Machine = exact.Some(id)
		all := &tallies[m+1]
		e := MachineEarning{m, outlayOf(g, scope), all.Runs, all.Net().Add(all.Wear.Ratio())}
		sum = sum.Add(e.Earned)
		if e.Outlay.Machines > 0 || e.Runs > 0 || !e.Earned.IsZero() {
			list = append(list, e)
		}
	}
	if !sum.Equal(r.Earned()) {
		return ErrUnbalanced
	}
	if list[0].Machine < 0 { // what none dried comes last
		list = append(list[1:], list[0])
	}
	if len(list) > 1 && list[1].Machine >= 0 {
		r.ByMachine = list
	}
	return nil
}
