package figures

import (
	"slices"

	"putby/ledger"
	"putby/pricing"
)

// PriceHistory is all that is known of a food's prices per edible unit: what
// shops asked for it in one form and, of fresh food, what was paid, as receipts
// have it. Gifts and garden produce, at no price, are left out.
func PriceHistory(g *ledger.Ledger, food int, form pricing.Form) *pricing.History {
	prices := slices.Collect(g.ShelfOf(food).Asked(form))
	if form == pricing.Fresh {
		for _, i := range g.FoodStock(food).Lots() {
			if lot := &g.Lots[i]; lot.Row >= 0 && lot.Cost.Sign() > 0 && lot.Quantity.Sign() > 0 {
				prices = append(prices, pricing.Price{
					Date: lot.Date, Shop: g.Receipts.At(int(lot.Row)).Shop, Kind: pricing.Paid, PerUnit: lot.Cost.Per(lot.Quantity),
				})
			}
		}
	}
	return pricing.NewHistory(prices)
}
