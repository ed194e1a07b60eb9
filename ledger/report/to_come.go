package report

import (
	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// ahead is what the packs in store would save if they were used today.
type ahead struct {
	cost   exact.Money // of all in store
	value  exact.Ratio // at the shelf prices of the day; of what has a price
	saving exact.Ratio // value less cost, of what has a price
	wear   exact.Money // inside that cost
}

// shelfAsks returns what the shelf asks on a day for an amount of a food,
// reconstituted.
func shelfAsks(g *ledger.Ledger, food int, amount exact.Number, day exact.Date, notes *doubts) (exact.Ratio, bool) {
	price, ok := g.ShelfPrice(food, day, pricing.Fresh)
	if !ok {
		notes.addf("no fresh shelf price of %s is known", g.Foods[food].Title())
		return exact.Ratio{}, false
	}
	notes.aboutPrice(&g.Foods[food], price, price.Ask.Date > day)
	return price.PerUnit.Times(amount), true
}

// toCome values the packs in store of one food, or of all where it is -1.
func toCome(g *ledger.Ledger, food int, day exact.Date, notes *doubts) (a ahead) {
	for i := range g.Packs {
		p := &g.Packs[i]
		if !p.Done || p.Left() == 0 || food >= 0 && p.Food != food {
			continue
		}
		cost := p.LeftCost()
		a.cost = a.cost.Add(cost)
		value, ok := shelfAsks(g, p.Food, p.Each.Mul(exact.Int(int64(p.Left()))), day, notes)
		if !ok {
			continue
		}
		a.value = a.value.Add(value)
		a.saving = a.saving.Add(value).Sub(ratioOf(cost))
		a.wear = a.wear.Add(p.Costs[ledger.WearCost].Sub(p.FirstOf(ledger.WearCost, p.Taken)))
	}
	return a
}

// toComeField says what is still to come from what is in store.
func toComeField(g *ledger.Ledger, food int, day exact.Date, notes *doubts) Field {
	a := toCome(g, food, day, notes)
	return Field{Key: "to_come", Title: "Still to come, from the packs in store on " + day.String(), Node: Object{
		{Key: "as_of", Node: DateOf(day)},
		{Key: "in_store", Title: "they cost", Node: MoneyOf(a.cost)},
		{Key: "shelf_value", Title: "the shelf asks", Node: MoneyQuotient(a.value)},
		{Key: "saved", Title: "saved once they are used", Node: MoneyQuotient(a.saving)},
	}}
}
