package figures

import (
	"slices"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// PriceHistory is all that is known of a food's prices per edible unit: what
// shops asked for it in one form and, of fresh food, what was paid, as receipts
// have it. What was noted and paid at one shop on one day is one price, and so is what
// was noted there twice. Gifts and garden produce, at no price, are left out.
func PriceHistory(g *ledger.Ledger, food int, form pricing.Form) *pricing.History {
	type place struct {
		date exact.Date // of purchase, or from which a shop asks it
		shop string
	}
	var prices []pricing.Price
	noted := map[place][]int{}
	for p := range g.ShelfOf(food).Asked(form) {
		at := place{p.Date, p.Shop}
		if !slices.ContainsFunc(noted[at], func(i int) bool { return prices[i].Kind == p.Kind && prices[i].PerUnit.Equal(p.PerUnit) }) {
			noted[at] = append(noted[at], len(prices))
			prices = append(prices, p)
		}
	}
	if form != pricing.Fresh {
		return pricing.NewHistory(prices)
	}
	for _, i := range g.FoodStock(food).Lots() {
		lot := &g.Lots[i]
		if lot.Row < 0 || lot.Cost.Sign() <= 0 || lot.Quantity.Sign() <= 0 {
			continue
		}
		row := g.Receipts.At(int(lot.Row))
		paid := pricing.Price{Date: lot.Date, Shop: row.Shop, Kind: pricing.Paid, PerUnit: lot.UnitCost()}
		asked := noted[place{paid.Date, paid.Shop}]
		tag := priceTag(g, lot, &row)
		same := slices.IndexFunc(asked, func(i int) bool { return prices[i].PerUnit.Equal(paid.PerUnit) || prices[i].PerUnit.Equal(tag) })
		if same >= 0 {
			p := &prices[asked[same]]
			p.Kind = p.Kind.AndPaid()
			continue
		}
		prices = append(prices, paid)
	}
	return pricing.NewHistory(prices)
}

// priceTag is what a line says that a unit costs: that of what is sold loose differs
// from what was paid by what the till rounds. Of a line that paid more or less, it is
// what was paid.
func priceTag(g *ledger.Ledger, lot *ledger.Lot, row *ledger.ReceiptRow) exact.Ratio {
	full := row.Price.Number().Mul(row.Count)
	if !full.Round(g.Settings.Currency.Minor(), exact.HalfAway).Equal(lot.Cost.Number()) {
		return lot.UnitCost()
	}
	return full.Over(lot.Quantity)
}
