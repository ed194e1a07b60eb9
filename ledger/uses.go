package ledger

import (
	"putby/ledger/advice"
	"putby/pricing/exact"
)

// This file draws what is used without being eaten: cycles of a machine, and supplies by the use.

// wear draws a cycle of the machine and the supplies that every cycle takes.
func (g *joiner) wear(run *Run, cost *RunCost) {
	m, ok := g.x.machines.find(run.Machine)
	if !ok {
		return
	}
	machine, stock := &g.Machines[m], &g.machines[m]
	cost.WearTakes.From = int32(len(g.Takes))
	taken, money := g.take(stock, exact.Int(1))
	cost.WearTakes.To = int32(len(g.Takes))
	cost.Wear = money
	g.Flows.Wear = g.Flows.Wear.Add(money)
	switch {
	case taken.Sign() > 0:
	case len(stock.lots) == 0:
		cost.Notes = g.noted(cost.Notes, Note{Kind: NoReceiptOf, At: int(m)})
	default:
		cost.Notes = g.noted(cost.Notes, Note{Kind: CyclesUsedUp, At: int(m)})
	}
	// After the wear: the takes of either lie together, as their ranges say.
	cost.SupplyTakes.From = int32(len(g.Takes))
	var notes []Note
	cost.Supplies, notes = g.takeSupplies(machine.With, exact.Int(1), place{RunsFile, run.Line}, "machine")
	cost.SupplyTakes.To = int32(len(g.Takes))
	for _, n := range notes {
		cost.Notes = g.noted(cost.Notes, n)
	}
	g.Flows.RunSupplies = g.Flows.RunSupplies.Add(cost.Supplies)
}

// takeSupplies draws uses of supplies, times over, in their order, by which whoever
// reads the takes tells them apart. What lots do not cover is charged at the list price.
func (g *joiner) takeSupplies(uses []Use, times exact.Number, at place, field string) (sum exact.Money, notes []Note) {
	for i, s := range g.suppliesOf(uses) {
		if s < 0 {
			continue
		}
		money, listed := g.takeSupply(int(s), uses[i].Number.Mul(times), at, field)
		sum = sum.Add(money)
		if listed {
			notes = g.noted(notes, Note{Kind: AtListPrice, At: int(s)})
		}
	}
	return sum, notes
}

// takeSupply draws q uses of one supply, and reports whether some are charged at
// its list price.
func (g *joiner) takeSupply(s int, q exact.Number, at place, field string) (cost exact.Money, listed bool) {
	taken, money := g.take(&g.supplies[s], q)
	rest := q.Sub(taken)
	if rest.Sign() <= 0 {
		return money, false
	}
	supply := &g.Supplies[s]
	charge, ok := g.charge(supply, rest)
	if !ok {
		if !g.x.unread.lots(supply.ID) {
			g.x.advise(at, field, "record what it was bought for\ngive the price of one, for where no receipt covers it",
				[]advice.Doing{advice.Do(advice.AddReceipt), advice.Do(advice.Edit, "supply", supply.ID).Such("price", "0.50")}, "%s covered by no receipt, and it has no list price", supply.usesInWords(rest))
		}
		return money, false
	}
	g.note(ListPrice, rest, charge)
	g.Flows.Charges = g.Flows.Charges.Add(charge)
	return money.Add(charge), true
}

// usesInWords writes a number of uses, and the pieces that they make, with the verb.
func (s *Supply) usesInWords(uses exact.Number) string {
	if uses.Equal(exact.Int(1)) {
		return "1 use of " + s.ID + " is"
	}
	text := uses.String() + " uses of " + s.ID
	if pieces, whole := uses.Over(exact.Int(int64(s.Uses))).Number(); whole && pieces.IsInt() && s.Uses > 1 {
		text += ", as many as " + pieces.String() + " new " + map[bool]string{true: "one has", false: "ones have"}[pieces.Equal(exact.Int(1))] + ","
	}
	return text + " are"
}
