package report

import (
	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// A recipe is how the food bought becomes the food dried: by itself, by a
// ratio that was given, or as the latest kitchen batch did.
type recipe struct {
	ratio exact.Ratio // basis units made per basis unit bought
	batch int         // position in Records.Batches, or -1
	// rest is what else goes into a unit made: the batch's other foods at
	// their shelf prices and, where the shop sells the made food ready, the
	// batch's own cost.
	rest exact.Ratio
}

// makes returns what an amount bought makes.
func (r recipe) makes(bought exact.Number) exact.Ratio { return r.ratio.Times(bought) }

// findFoods finds the food bought, and what it is dried as.
func (f *facts) findFoods() bool {
	f.recipe = recipe{ratio: exact.RatioOf(exact.Int(1)), batch: -1}
	var ok bool
	f.dried = f.bought
	if f.q.As == "" || f.q.As == f.q.Item {
		f.q.As = ""
		return true
	}
	f.q.As, _ = ledger.Meant(f.q.As, f.g.Records.NamedFoods())
	if f.dried, ok = f.g.FindFood(f.q.As); !ok {
		f.wrong("as", "foods are in "+ledger.FoodsFile, "no food is called %s", exact.Quote(f.q.As))
		return false
	}
	return f.findRecipe()
}

// findRecipe finds what a unit bought makes.
func (f *facts) findRecipe() bool {
	if f.q.Ratio.Given() {
		f.recipe.ratio = exact.RatioOf(f.amount("ratio", f.food(), f.q.Ratio))
		return f.err == nil
	}
	made, took := exact.Number{}, exact.Number{}
	if i, ok := f.g.LatestBatch(f.dried, f.day); ok {
		f.recipe.batch, made = i, f.g.Batch[i].Made
		for j, part := range f.g.Batches[i].From {
			if part.Item == f.q.Item {
				took = took.Add(f.g.Batch[i].Parts[j])
			}
		}
	}
	if took.Sign() <= 0 {
		f.wrong("as", "give --ratio: what one "+f.g.Foods[f.bought].Basis.String()+" bought makes, such as --ratio \"48 mL\"",
			"no batch makes %s from %s", f.q.As, f.q.Item)
		return false
	}
	f.recipe.ratio = made.Over(took)
	return true
}

// findShelf finds what the shop asks for the same amount of the dried food,
// and what else goes into it. A price of the food bought stands for what it
// makes, with the shelf prices of what else goes in.
func (f *facts) findShelf() {
	others := f.otherFoods()
	ready := f.q.As == "" // the dried food has a shelf price of its own
	price, given := f.shelfGiven(&ready)
	switch {
	case given && !ready:
		price = price.Quo(f.recipe.ratio).Add(others)
	case given:
	default:
		s, ok := f.g.ShelfPrice(f.dried, f.day, pricing.Fresh)
		if !ok {
			f.lack("the shelf price of "+f.food().Title(), "--shelf", "one with putby price add")
			return
		}
		if price, ready = s.PerUnit, s.Batch == ""; !ready {
			f.note("no shop sells %s: its shelf price is that of what batch %s took", f.food().Title(), s.Batch)
		} else if s.Ask.Date > f.day {
			f.note("the shelf price is of a later day, %v", s.Ask.Date)
		}
	}
	f.sale.Shelf = price
	f.findRest(others, ready)
}

// shelfGiven reads --shelf, per unit of the food bought; for a price tag of the
// dried food it sets ready.
func (f *facts) shelfGiven(ready *bool) (exact.Ratio, bool) {
	price, given := f.q.Shelf.Get()
	if !given || !f.q.ShelfSize.Given() {
		return exact.RatioOf(price), given
	}
	food := &f.g.Foods[f.bought]
	if _, err := food.InBasis(f.q.ShelfSize); err != nil && f.dried != f.bought {
		food, *ready = f.food(), true
	}
	size := f.amount("shelf", food, f.q.ShelfSize).Round(exact.QuantityPlaces, exact.HalfEven).Mul(food.EdiblePart())
	if size.Sign() <= 0 {
		f.wrong("shelf", "write the price and the size of a package, such as 3.99/454g", "%v is not above 0", f.q.ShelfSize)
		return exact.Ratio{}, true
	}
	return price.Over(size), true
}

// otherFoods is what the batch's other foods cost at the shelf, per unit made.
func (f *facts) otherFoods() exact.Ratio {
	var sum exact.Ratio
	if f.recipe.batch < 0 {
		return sum
	}
	batch, cost := &f.g.Batches[f.recipe.batch], &f.g.Batch[f.recipe.batch]
	for j, part := range batch.From {
		if part.Item == f.q.Item {
			continue
		}
		food, _ := f.g.FindFood(part.Item)
		price, ok := f.g.ShelfPrice(food, f.day, pricing.Fresh)
		if !ok {
			f.note("batch %s took %s too, of which no shelf price is known: it is left out", batch.ID, part.Item)
			continue
		}
		sum = sum.Add(price.PerUnit.Times(cost.Parts[j]))
	}
	return sum.Quo(exact.RatioOf(cost.Made))
}

// findRest says what else goes into the dried food. Cooking counts only beside
// food that the shop sells ready: otherwise both sides need it.
func (f *facts) findRest(others exact.Ratio, ready bool) {
	if f.recipe.batch < 0 {
		return
	}
	batch, cost := &f.g.Batches[f.recipe.batch], &f.g.Batch[f.recipe.batch]
	f.recipe.rest = others
	if ready {
		f.recipe.rest = others.Add(ratioOf(cost.Own).Quo(exact.RatioOf(cost.Made)))
	}
	f.note("1 %v of %s makes %s of %s, as in batch %s", f.g.Foods[f.bought].Basis, f.q.Item,
		f.say().amount(rounded(f.recipe.ratio), f.unit()), f.food().Title(), batch.ID)
	if f.recipe.rest.Sign() > 0 {
		f.note("what else batch %s took counts as food, at shelf prices: %s", batch.ID, f.say().price(f.recipe.rest, f.unit()))
	}
}
