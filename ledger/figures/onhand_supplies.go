package figures

import (
	"putby/ledger"
	"putby/pricing/exact"
)

// A SupplyLeft is what there is of a supply, by the piece.
type SupplyLeft struct {
	Supply int // position
	ledger.Pieces
	Cost  exact.Money // that the uses left still carry
	For   Purpose
	Lasts exact.Opt[exact.Number] // so many more containers or cycles, whole ones; not given: nobody knows what it is for
	Over  bool                    // more stand full in store than receipts cover
	Away  exact.Number            // went away on packs given, less those that a draw says stayed; counted as returned
}

// A Purpose is what a supply is for.
type Purpose uint8

// What supplies are for.
const (
	NoPurpose Purpose = iota // nobody knows
	ForContainers
	ForCycles
)

// A MachineLeft is what is left of a machine.
type MachineLeft struct {
	Machine  int // position
	Done     int // cycles
	Bought   bool
	Left     exact.Number // cycles, of those expected; 0 where no receipt has it
	Wear     exact.Money  // still to come with those
	Residual exact.Money  // to be had back at its end, in no wear
}

// suppliesLeft lists the supplies that were ever bought or used.
func suppliesLeft(g *ledger.Ledger) (list []SupplyLeft) {
	for i := range g.Supplies {
		purpose, each, used := purposeOf(g, &g.Supplies[i])
		if used || len(g.SupplyStock(i).Lots()) > 0 {
			list = append(list, supplyLeft(g, i, purpose, each))
		}
	}
	return list
}

func supplyLeft(g *ledger.Ledger, i int, purpose Purpose, each exact.Number) SupplyLeft {
	s := SupplyLeft{Supply: i, Pieces: g.Pieces(i), Cost: g.SupplyStock(i).Cost, For: purpose}
	ready := exact.RatioOf(s.UsesLeft)
	if g.Supplies[i].ServesAgain() {
		ready = s.Free
		s.Over = s.Owned.Cmp(exact.RatioOf(s.InStore)) < 0
		s.Away = givenAway(g, i).Max(exact.Number{})
	}
	if each.Sign() > 0 {
		s.Lasts = exact.Some(ready.Quo(exact.RatioOf(each)).Floor())
	}
	return s
}

// purposeOf finds what a supply is for, and how much each takes: what the latest
// pack or the machines draw, which is to say that it is used; else one of what
// its kind is for.
func purposeOf(g *ledger.Ledger, s *ledger.Supply) (p Purpose, each exact.Number, used bool) {
	latest := exact.NoDate
	for i, pack := range g.Records.Packs.All() {
		if n := drawnBy(pack.With, s.ID); g.Packs[i].Done && n.Sign() > 0 && pack.Date >= latest {
			p, each, latest = ForContainers, n, pack.Date
		}
	}
	if p == ForContainers {
		return p, each, true
	}
	for i := range g.Machines {
		if n := drawnBy(g.Machines[i].With, s.ID); n.Sign() > 0 {
			// So that Lasts holds whichever machine takes them.
			p, each = ForCycles, n.Max(each)
		}
	}
	if p == ForCycles {
		return p, each, true
	}
	switch s.Kind {
	case ledger.Jar, ledger.Bag, ledger.Lid, ledger.Absorber, ledger.Label:
		return ForContainers, exact.Int(1), false
	case ledger.Oil, ledger.Filter:
		return ForCycles, exact.Int(1), false
	}
	return NoPurpose, each, false
}

// drawnBy returns how much of a supply a `with` draws.
func drawnBy(with []ledger.Use, supply string) (n exact.Number) {
	for _, u := range with {
		if u.Supply == supply {
			n = n.Add(u.Number)
		}
	}
	return n
}

// givenAway is how many containers went away on packs that were given, beyond
// those that a draw says stayed with whom they were given to.
func givenAway(g *ledger.Ledger, supply int) (n exact.Number) {
	for i := range g.Moves {
		m := &g.Moves[i]
		switch {
		case m.Reason != ledger.Given:
		case m.Supply == supply:
			n = n.Sub(m.Quantity)
		case m.Pack >= 0:
			n = n.Add(drawnBy(g.Records.Packs.At(m.Pack).With, g.Supplies[supply].ID).Mul(m.Quantity))
		}
	}
	return n
}

// machinesLeft lists the machines with the cycles left on them.
func machinesLeft(g *ledger.Ledger) (list []MachineLeft) {
	for i := range g.Machines {
		stock := g.MachineStock(i)
		m := MachineLeft{Machine: i, Bought: len(stock.Lots()) > 0, Left: stock.Left}
		for j := range g.Runs {
			if g.Runs[j].Done && g.Records.Runs[j].Machine == g.Machines[i].ID {
				m.Done++
			}
		}
		for _, lot := range stock.Lots() {
			m.Residual = m.Residual.Add(g.Lots[lot].Residual)
		}
		m.Wear = stock.Cost.Sub(m.Residual)
		list = append(list, m)
	}
	return list
}
