package ledger

import (
	"fmt"

	"putby/energy"
	"putby/pricing/exact"
)

// This file looks ahead: what the next uses would cost, drawing on nothing.

// NextUses is what the given uses of supplies, times over, would cost if they
// were drawn now: from the lots in hand, oldest first, and at list price
// beyond them. The notes name what is charged at list price. A supply that no
// lot covers and that has no list price is an error.
func (g *Ledger) NextUses(uses []Use, times exact.Number) (sum exact.Money, notes []string, err error) {
	for _, u := range uses {
		s, ok := g.find.supplies.find(u.Supply)
		if !ok {
			return sum, notes, fmt.Errorf("no supply is called %s", exact.Quote(u.Supply))
		}
		rest := u.Number.Mul(times)
		// Lot by lot and rounded as [joiner.take] does, so that it comes to the digit to what the
		// draw itself would cost.
		for _, i := range g.supplies[s].lots {
			lot := &g.Lots[i]
			if part := rest.Min(lot.Left); part.Sign() > 0 {
				sum, rest = sum.Add(lot.costOf(part, g.places)), rest.Sub(part)
			}
		}
		if rest.Sign() == 0 {
			continue
		}
		supply := &g.Supplies[s]
		charge, ok := g.charge(supply, rest)
		if !ok {
			return sum, notes, fmt.Errorf("%s: %v uses are not in hand, and it has no list price", supply.ID, rest)
		}
		sum = sum.Add(charge)
		notes = append(notes, fmt.Sprintf("uses of %s not in hand: %v, charged at list price", supply.ID, rest))
	}
	return sum, notes, nil
}

// charge is what uses of a supply cost at its list price, posted.
func (g *Ledger) charge(s *Supply, uses exact.Number) (exact.Money, bool) {
	price, ok := s.Price.Get()
	if !ok {
		return exact.Money{}, false
	}
	return exact.MoneyOf(s.AUse(price).Times(uses).Round(g.places, exact.HalfEven)), true
}

// NextCycle is the wear of the next cycle of the machine at a position in
// Records.Machines, and false when no expected cycle is left or no receipt has
// the machine.
func (g *Ledger) NextCycle(machine int) (exact.Money, bool) {
	lot := g.OldestLeft(&g.machines[machine])
	if lot == nil {
		return exact.Money{}, false
	}
	return lot.costOf(exact.Int(1).Min(lot.Left), g.places), true
}

// Labour is what hands-on time costs, posted.
func (g *Ledger) Labour(hours exact.Ratio) exact.Money {
	return exact.MoneyOf(hours.Times(g.Settings.HourValue.Number()).Round(g.places, exact.HalfEven))
}

// Meter returns the household's electricity meter as it stands after the runs
// of the ledger, to work ahead from.
func (g *Ledger) Meter() *energy.Meter { return g.meter.Fork() }

// Places returns the digits at which the ledger posts money.
func (g *Ledger) Places() int { return g.places }

// Draw places the energy of the run at a position in Records.Runs on the
// clock again, phase by phase.
func (g *Ledger) Draw(run int) (energy.Draw, error) {
	return g.cycle(run, &g.Records.Runs[run], nil).Resolve()
}
