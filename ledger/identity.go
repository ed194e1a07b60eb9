package ledger

import "putby/pricing/exact"

// Flows are the sums of all postings up to the ledger's date, by what they are.
type Flows struct {
	Bought       exact.Money              // into lots, repairs too
	BatchCost    exact.Money              // batches' own cost
	Charges      exact.Money              // supplies at list price
	FreshDraws   exact.Money              // fresh food taken out or missing
	SupplyDraws  exact.Money              // supplies taken out or missing, and the loss on those taken back
	Food         exact.Money              // put into runs
	Wear         exact.Money              // of runs
	RunSupplies  exact.Money              // of the machine, in runs
	PackSupplies exact.Money              // on packs, opening packs too
	Electricity  exact.Money              // of runs
	Labour       exact.Money              // of runs
	Opening      exact.Money              // stated cost of packs without a run
	Lost         exact.Money              // of the runs' costs: spilled, thrown away or spoiled
	Out          [Missing + 1]exact.Money // of packs, by reason
}

// A Balance is one side of an identity: named sums.
type Balance []Sum

// A Sum is a named amount.
type Sum struct {
	Name   string
	Amount exact.Money // at ledger places
}

// Total adds the sums.
func (b Balance) Total() exact.Money {
	var t exact.Money
	for _, s := range b {
		t = t.Add(s.Amount)
	}
	return t
}

// An Identity is two sides that must be equal to the last digit.
type Identity struct {
	Name string
	In   Balance
	Out  Balance
}

// Holds reports whether the sides are equal.
func (i Identity) Holds() bool { return i.In.Total().Equal(i.Out.Total()) }

// Identities returns the ledger's two identities at its date: all that was
// bought is somewhere, and so is all that was put into runs. What was bought and put in comes from the postings as they were made;
// what is left is summed afresh from lots, runs and packs.
func (g *Ledger) Identities() []Identity {
	f := &g.Flows
	return []Identity{{
		Name: "lots",
		In: Balance{
			{"bought as lots", f.Bought}, {"batches' own cost", f.BatchCost}, {"charges at list price", f.Charges},
		},
		Out: Balance{
			{"left in lots", g.LeftInLots()}, {"fresh draws", f.FreshDraws}, {"supply draws", f.SupplyDraws},
			{"food put into runs", f.Food}, {"wear put into runs", f.Wear}, {"supplies put into runs", f.RunSupplies},
			{"supplies put on packs", f.PackSupplies},
		},
	}, {
		Name: "packs",
		In: Balance{
			{"food put into runs", f.Food}, {"wear put into runs", f.Wear}, {"supplies put into runs", f.RunSupplies},
			{"electricity", f.Electricity}, {"labour", f.Labour}, {"opening packs", f.Opening},
			{"supplies put on packs", f.PackSupplies},
		},
		Out: Balance{
			{"awaiting packing", g.AwaitingPacking()}, {"packs in store", g.InStore()},
			{"used", f.Out[Used]}, {"given", f.Out[Given]}, {"spoiled", f.Out[Spoiled]}, {"missing", f.Out[Missing]},
			{"lost", f.Lost},
		},
	}}
}

// LeftInLots is what all lots still carry, residuals included.
func (g *Ledger) LeftInLots() exact.Money {
	var sum exact.Money
	for i := range g.Lots {
		sum = sum.Add(g.Lots[i].CostLeft)
	}
	for i := range g.foods {
		if s := &g.foods[i]; s.pooled {
			sum = sum.Add(s.Cost)
		}
	}
	return sum
}

// AwaitingPacking is the good cost of runs that is on no pack yet.
func (g *Ledger) AwaitingPacking() exact.Money {
	var sum exact.Money
	for i := range g.Runs {
		for j := range g.Runs[i].Items {
			item := &g.Runs[i].Items[j]
			sum = sum.Add(item.Good.Total())
			for _, p := range item.Packs {
				if g.Packs[p].Done {
					sum = sum.Sub(g.Packs[p].Share.Total())
				}
			}
		}
	}
	return sum
}

// InStore is what the packs in store cost.
func (g *Ledger) InStore() exact.Money {
	var sum exact.Money
	for i := range g.Packs {
		if g.Packs[i].Done {
			sum = sum.Add(g.Packs[i].LeftCost())
		}
	}
	return sum
}
