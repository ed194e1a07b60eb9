package figures

import (
	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// ShelfAsks returns what the shelf asks on a day for an amount of a food,
// reconstituted; it reports false where no price is known.
func ShelfAsks(g *ledger.Ledger, food int, amount exact.Number, day exact.Date, notes *Notes) (exact.Ratio, bool) {
	price, ok := g.ShelfPrice(food, day, pricing.Fresh)
	if !ok {
		notes.Add(Note{Kind: NoShelfPrice, Food: food})
		return exact.Ratio{}, false
	}
	notes.addPrice(food, price, day)
	return price.PerUnit.Times(amount), true
}

// Ahead is what the packs in store would save if they were used on a day.
type Ahead struct {
	Cost   exact.Money // of all in store
	Value  exact.Ratio // at the shelf prices of the day; of what has a price
	Saving exact.Ratio // value less cost, of what has a price
	Wear   exact.Money // inside that cost
}

// toCome values the packs in store of a scope.
func toCome(g *ledger.Ledger, scope Scope, day exact.Date, notes *Notes) (a Ahead) {
	for i := range g.Packs {
		p := &g.Packs[i]
		if !p.Done || p.Left() == 0 || !scope.wantsPack(g, i) {
			continue
		}
		cost := p.LeftCost()
		a.Cost = a.Cost.Add(cost)
		value, ok := ShelfAsks(g, p.Food, p.MadeLeft(), day, notes)
		if !ok {
			continue
		}
		a.Value = a.Value.Add(value)
		a.Saving = a.Saving.Add(value).Sub(cost.Ratio())
		a.Wear = a.Wear.Add(p.Share[ledger.WearCost].Sub(p.FirstOf(ledger.WearCost, int(p.Taken))))
	}
	return a
}
