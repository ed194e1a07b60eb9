package figures

import (
	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// An ExplainResult takes the cost of a run or a pack apart. What the ledger has
// of them as it is (how phases were billed, the loads' parts, the packs) is read
// there.
type ExplainResult struct {
	Pack       int          // asked about; -1: a run was
	Supplies   []Taken      // of the pack's own
	Containers []Containers // of the pack, in the order in which they leave

	Run    int // asked about, or the pack's; -1: opening stock
	Food   []Taken
	Bought exact.Money // what Food comes to
	Common []Taken     // wear and supplies of the run
	Costs  []ExplainedCost
}

// A Taken is an amount that was drawn from a lot, or charged at list price.
type Taken struct {
	For    Role
	Food   int // position; -1: no food
	Supply int // position; -1: no supply
	ledger.Take
}

// Containers are some of a pack that cost the same, and are all in store, or all
// not.
type Containers struct {
	First, Last int         // counted from 1
	Each        exact.Money // the cost of one
	Drawn       bool        // taken out
}

// An ExplainedCost is what a food of a run cost, and where its shelf price is
// from.
type ExplainedCost struct {
	CostRow
	Price exact.Opt[ledger.ShelfPrice]
}

// Explain takes the cost of a run or a pack apart, back to lots and records. The
// ledger must be joined through its last record, with Itemize. The error is an
// [*UnknownError].
func Explain(g *ledger.Ledger, name string) (*ExplainResult, error) {
	r := &ExplainResult{Pack: -1, Run: -1}
	if i, ok := g.FindPack(name); ok {
		pack := g.Records.Packs.At(i)
		r.Pack = i
		r.Supplies = takenOf(g, OnPack, pack.With, exact.Int(int64(pack.Count)), g.Packs[i].Takes)
		r.Containers = containersOf(&g.Packs[i], pack.Count)
		name = pack.Run
	}
	i, ok := g.FindRun(name)
	switch {
	case ok:
		r.Run = i
		r.explainRun(g)
	case r.Pack < 0:
		return nil, &UnknownError{Of: []ledger.Thing{ledger.Runs, ledger.Packs}, Name: name}
	}
	return r, nil
}

// Good is what the run cost but for what was lost.
func (r *ExplainResult) Good() (sum exact.Money) {
	for i := range r.Costs {
		sum = sum.Add(r.Costs[i].Good.Total())
	}
	return sum
}

// explainRun lists what went into the run.
func (r *ExplainResult) explainRun(g *ledger.Ledger) {
	cost := &g.Runs[r.Run]
	for _, load := range cost.Loads {
		r.Bought = r.Bought.Add(load.Costs[ledger.FoodCost])
		for _, take := range g.Takes[load.Takes.From:load.Takes.To] {
			r.Food = append(r.Food, Taken{InFood, cost.Items[load.Item].Food, -1, take})
		}
	}
	for _, take := range g.Takes[cost.WearTakes.From:cost.WearTakes.To] {
		r.Common = append(r.Common, Taken{OfTheMachine, -1, -1, take})
	}
	if m, ok := g.FindMachine(g.Records.Runs[r.Run].Machine); ok {
		r.Common = append(r.Common, takenOf(g, InCycle, g.Machines[m].With, exact.Int(1), cost.SupplyTakes)...)
	}
	for j := range cost.Items {
		row := CostOf(g, CostQuery{}, r.Run, j)
		r.Costs = append(r.Costs, ExplainedCost{row, exact.OptOf(g.ShelfPrice(row.Food, row.Date, pricing.Fresh))})
	}
}

// takenOf lists what was drawn of supplies, times over. Draws follow the order
// of the uses, which is how one at list price is told: it has no lot.
func takenOf(g *ledger.Ledger, as Role, uses []ledger.Use, times exact.Number, r ledger.Range) (list []Taken) {
	takes := g.Takes[r.From:r.To]
	for _, use := range uses {
		supply, _ := g.FindSupply(use.Supply)
		for left := use.Number.Mul(times); left.Sign() > 0 && len(takes) > 0; takes = takes[1:] {
			left = left.Sub(takes[0].Quantity)
			list = append(list, Taken{as, -1, supply, takes[0]})
		}
	}
	return list
}

// containersOf shows the equal split over containers: those that got one step
// more come first.
func containersOf(cost *ledger.PackCost, count int) (list []Containers) {
	for k := range count {
		c := Containers{k + 1, k + 1, cost.First(k + 1).Sub(cost.First(k)), k < int(cost.Taken)}
		if n := len(list) - 1; n >= 0 && list[n].Each.Equal(c.Each) && list[n].Drawn == c.Drawn {
			list[n].Last = c.Last
			continue
		}
		list = append(list, c)
	}
	return list
}
