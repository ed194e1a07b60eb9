package ledger

import (
	"cmp"
	"slices"

	"putby/pricing"
	"putby/pricing/exact"
)

// buildShelves works out the unit prices that shops ask, per edible unit, or
// per reconstituted unit of the preserved form.
func (g *joiner) buildShelves() {
	asks := make([][]pricing.Ask, len(g.Foods))
	for i := range g.Shelf {
		r := &g.Shelf[i]
		at := place{ShelfFile, r.Line}
		f, ok := g.x.food(at, ItemColumn, r.Item)
		if !ok {
			continue
		}
		food := &g.Foods[f]
		// Looked at even if it is of a later day: faults count whatever their date.
		size, field := r.gives()
		q, ok := g.x.amount(food, size, at, field)
		per, priced := r.perUnit(food, q)
		if r.Date > g.day || !ok || !priced {
			continue // a later record, or of nothing
		}
		asks[f] = append(asks[f], pricing.Ask{
			Date: r.Date, Shop: r.Shop, Terms: r.Terms, Form: r.Form, PerUnit: per, Line: r.Line,
		})
	}
	g.shelves = make([]*pricing.Shelf, len(g.Foods))
	for i, list := range asks {
		g.shelves[i] = pricing.NewShelf(list)
	}
}

// gives is what a package is counted by, and the name of its column.
func (r *ShelfRow) gives() (size exact.Quantity, column string) {
	if r.Form == pricing.Preserved {
		return r.Makes, "makes"
	}
	return r.Size, "size"
}

// perUnit is what a shop asks for a unit of a food, of which a package has q.
func (r *ShelfRow) perUnit(food *Food, q exact.Number) (per exact.Ratio, ok bool) {
	q = q.Round(exact.QuantityPlaces, exact.HalfEven)
	if r.Form != pricing.Preserved {
		q = q.Mul(food.EdiblePart())
	}
	if q.Sign() <= 0 {
		return per, false
	}
	return r.Price.Per(q), true
}

// UnitPrice is what a shop asks for an edible unit of a food, or a reconstituted one of
// the preserved form; false where the size of a package is no amount of the food.
func (r *ShelfRow) UnitPrice(food *Food) (per exact.Ratio, ok bool) {
	size, _ := r.gives()
	q, err := food.InBasis(size)
	if err != nil {
		return per, false
	}
	return r.perUnit(food, q)
}

// ShelfOf returns what shops ask for the food at a position in Records.Foods.
func (g *Ledger) ShelfOf(food int) *pricing.Shelf { return g.shelves[food] }

// A ShelfPrice is a unit price of a food, and where it is from.
type ShelfPrice struct {
	PerUnit exact.Ratio // money per basis unit of the food
	Ask     pricing.Ask // the zero value when worked out from a batch
	Batch   string      // that it was worked out from
}

// ShelfPrice returns the regular price of a food on a day, in one form. A food
// that no shop sells fresh has the price of what its latest batch took, per
// unit made, through and through. It reports false when nothing is known.
func (g *Ledger) ShelfPrice(food int, day exact.Date, form pricing.Form) (ShelfPrice, bool) {
	if ask, ok := g.shelves[food].At(day, pricing.Regular, form); ok {
		return ShelfPrice{PerUnit: ask.PerUnit, Ask: ask}, true
	}
	if form != pricing.Fresh {
		return ShelfPrice{}, false
	}
	prices := batchPrices{g, day, map[int]exact.Opt[ShelfPrice]{}}
	return prices.of(food)
}

// batchPrices works out prices of foods made in batches, each food once.
type batchPrices struct {
	g    *Ledger
	day  exact.Date                    // on which shops are asked
	done map[int]exact.Opt[ShelfPrice] // not given: it has none, or is being worked out, so that a food made of itself has none
}

func (r *batchPrices) of(food int) (ShelfPrice, bool) {
	if price, seen := r.done[food]; seen {
		return price.Get()
	}
	r.done[food] = exact.Opt[ShelfPrice]{}
	i, ok := r.g.LatestBatch(food, r.day)
	if !ok {
		return ShelfPrice{}, false
	}
	b, cost := &r.g.Batches[i], &r.g.Batch[i]
	if cost.Made.Sign() == 0 || len(cost.Parts) < len(b.From) { // not yet cooked
		return ShelfPrice{}, false
	}
	var sum exact.Ratio
	for j, part := range b.From {
		f, _ := r.g.find.foods.find(part.Item)
		unit, ok := r.unit(int(f))
		if !ok {
			return ShelfPrice{}, false
		}
		sum = sum.Add(unit.Times(cost.Parts[j]))
	}
	r.done[food] = exact.Some(ShelfPrice{PerUnit: sum.Quo(exact.RatioOf(cost.Made)), Batch: b.ID})
	return r.done[food].Get()
}

// unit returns what a unit of a food costs, bought or made.
func (r *batchPrices) unit(food int) (exact.Ratio, bool) {
	if ask, ok := r.g.shelves[food].At(r.day, pricing.Regular, pricing.Fresh); ok {
		return ask.PerUnit, true
	}
	price, ok := r.of(food)
	return price.PerUnit, ok
}

// LatestBatch returns the position of the last batch that made a food by a
// day: the last in file order among those of the newest date. Where there is
// none it is that of the next date after.
func (g *Ledger) LatestBatch(food int, day exact.Date) (int, bool) {
	made := g.made[food]
	if len(made) == 0 {
		return 0, false
	}
	day = max(day, g.Batches[made[0]].Date)
	after, _ := slices.BinarySearchFunc(made, day, func(i int32, day exact.Date) int {
		if g.Batches[i].Date <= day {
			return -1
		}
		return 1
	})
	return int(made[after-1]), true
}

// gatherBatches lists the batches that made each food, by date.
func (g *joiner) gatherBatches() {
	g.made = make([][]int32, len(g.Foods))
	for i := range g.Batches {
		b := &g.Batches[i]
		if f, ok := g.x.foods.find(b.Item); ok && b.Date <= g.day && b.Quantity.Sign() > 0 {
			g.made[f] = append(g.made[f], int32(i))
		}
	}
	for _, list := range g.made {
		slices.SortStableFunc(list, func(a, b int32) int { return cmp.Compare(g.Batches[a].Date, g.Batches[b].Date) })
	}
}
