package ledger

import (
	"putby/pricing"
	"putby/pricing/exact"
)

// buildShelves works out the unit prices that shops ask, per edible unit, or
// per reconstituted unit of the preserved form.
func (g *Ledger) buildShelves() {
	last := g.AsOf
	if g.options.PricesThrough != exact.NoDate {
		last = min(last, g.options.PricesThrough)
	}
	asks := make([][]pricing.Ask, len(g.Foods))
	for i := range g.Shelf {
		r := &g.Shelf[i]
		f, ok := g.x.food(ShelfFile, r.Line, "item", r.Item)
		if !ok {
			continue
		}
		food := &g.Foods[f]
		size, field, part := r.Size, "size", food.ediblePart()
		if r.Form == pricing.Preserved {
			size, field, part = r.Makes, "makes", exact.Int(1)
		}
		q, ok := g.x.amount(food, size, ShelfFile, r.Line, field)
		if r.Date > last {
			continue // a later record
		}
		if q = q.Round(exact.QuantityPlaces, exact.HalfEven).Mul(part); !ok || q.Sign() <= 0 {
			continue
		}
		asks[f] = append(asks[f], pricing.Ask{
			Date: r.Date, Shop: r.Shop, Terms: r.Terms, Form: r.Form, PerUnit: r.Price.Per(q), Line: r.Line,
		})
	}
	g.shelves = make([]*pricing.Shelf, len(g.Foods))
	for i, list := range asks {
		g.shelves[i] = pricing.NewShelf(list)
	}
}

// ShelfOf returns what shops ask for the food at a position in Records.Foods.
func (g *Ledger) ShelfOf(food int) *pricing.Shelf { return g.shelves[food] }

// A ShelfPrice is a unit price of a food, and where it is from.
type ShelfPrice struct {
	PerUnit exact.Ratio // money per basis unit of the food
	Ask     pricing.Ask // the zero value when reckoned from a batch
	Batch   string      // the batch it was reckoned from
}

// ShelfPrice returns the regular price of a food on a day, in one form. A food
// that no shop sells fresh has the price of what its latest batch took, per
// unit made, through and through. It reports false when nothing is known.
func (g *Ledger) ShelfPrice(food int, day exact.Date, form pricing.Form) (ShelfPrice, bool) {
	return g.shelfPrice(food, day, form, nil)
}

func (g *Ledger) shelfPrice(food int, day exact.Date, form pricing.Form, above []int) (ShelfPrice, bool) {
	if ask, ok := g.shelves[food].At(day, pricing.Regular, form); ok {
		return ShelfPrice{PerUnit: ask.PerUnit, Ask: ask}, true
	}
	for _, f := range above {
		if f == food { // a food made of itself has no price of its own
			return ShelfPrice{}, false
		}
	}
	i, ok := g.LatestBatch(food, day)
	if form != pricing.Fresh || !ok {
		return ShelfPrice{}, false
	}
	b, cost := &g.Batches[i], &g.Batch[i]
	var sum exact.Ratio
	for j, part := range b.From {
		f := int(g.x.foods[part.Item])
		price, ok := g.shelfPrice(f, day, form, append(above, food))
		if !ok {
			return ShelfPrice{}, false
		}
		sum = sum.Add(price.PerUnit.Times(cost.Parts[j]))
	}
	return ShelfPrice{PerUnit: sum.Quo(exact.RatioOf(cost.Made)), Batch: b.ID}, true
}

// LatestBatch returns the position of the last batch that made a food by a
// day, else of the first one after it.
func (g *Ledger) LatestBatch(food int, day exact.Date) (int, bool) {
	best, found := -1, false
	for i := range g.Batches {
		b := &g.Batches[i]
		if f, ok := g.x.foods[b.Item]; !ok || int(f) != food || g.Batch[i].Made.Sign() == 0 {
			continue
		}
		switch {
		case b.Date > g.AsOf:
		case !found,
			b.Date <= day && (g.Batches[best].Date > day || b.Date >= g.Batches[best].Date),
			b.Date > day && b.Date < g.Batches[best].Date:
			best, found = i, true
		}
	}
	return best, found
}
