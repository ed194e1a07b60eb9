package figures

import (
	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// Made is how the food bought becomes the food dried: by itself, by a ratio that
// was given, or as the latest kitchen batch did.
type Made struct {
	Bought, Dried int         // positions in Foods; mostly the same
	Ratio         exact.Ratio // basis units made per basis unit bought
	Batch         int         // position in Records.Batches, or -1
}

// madeOf finds the food bought, and what it is dried as. The error is an
// [*UnknownError] or a [*FactError].
func madeOf(g *ledger.Ledger, q *WorthQuery, day exact.Date) (Made, error) {
	m := Made{Ratio: wholeRatio(1), Batch: -1}
	var ok bool
	if m.Bought, ok = foodNamed(g, q.Item); !ok {
		return m, unknown(ledger.Foods, q.Item)
	}
	if m.Dried = m.Bought; q.As != "" {
		if m.Dried, ok = foodNamed(g, q.As); !ok {
			return m, &FactError{Fact: AsFact, Fault: Unknown, Name: q.As}
		}
	}
	if m.Dried == m.Bought {
		return m, nil
	}
	return m.byRecipe(g, q.Ratio, day)
}

// byRecipe finds what a unit bought makes.
func (m Made) byRecipe(g *ledger.Ledger, given exact.Quantity, day exact.Date) (Made, error) {
	if given.Given() {
		n, err := inBasis(g, RatioFact, m.Dried, given)
		m.Ratio = exact.RatioOf(n)
		return m, err
	}
	var made, took exact.Number
	if i, ok := g.LatestBatch(m.Dried, day); ok {
		m.Batch, made = i, g.Batch[i].Made
		for j, part := range g.Batches[i].From {
			if part.Item == g.Foods[m.Bought].ID {
				took = took.Add(g.Batch[i].Parts[j])
			}
		}
	}
	if took.Sign() <= 0 {
		return m, &FactError{Fact: AsFact, Fault: NoBatch, Food: m.Bought}
	}
	m.Ratio = made.Over(took)
	return m, nil
}

// makes returns what an amount bought makes.
func (m Made) makes(bought exact.Number) exact.Ratio { return m.Ratio.Times(bought) }

// inBasis reads a quantity in a food's basis unit; nothing is nothing in any.
func inBasis(g *ledger.Ledger, fact Fact, food int, q exact.Quantity) (exact.Number, error) {
	if q.Sign() == 0 {
		return exact.Number{}, nil
	}
	n, err := g.Foods[food].InBasis(q)
	if err != nil {
		return n, &FactError{Fact: fact, Fault: WrongUnit, Food: food, Err: err}
	}
	return n, nil
}

// eaten reads an amount of the dried food, or of the food bought.
func (m Made) eaten(g *ledger.Ledger, fact Fact, q exact.Quantity) (exact.Number, error) {
	if n, err := g.Foods[m.Dried].InBasis(q); err == nil || q.Sign() == 0 {
		return n, nil
	}
	n, err := inBasis(g, fact, m.Bought, q)
	return Ended(m.makes(n)), err
}

// rounded is an amount whose quotient may not end, at 12 decimals.
func rounded(r exact.Ratio) exact.Number { return r.Round(exact.QuantityPlaces, exact.HalfEven) }

// Ended is an amount with all its digits, where they end; else at 12 decimals.
func Ended(r exact.Ratio) exact.Number {
	if n, ends := r.Number(); ends {
		return n
	}
	return rounded(r)
}

// A Regular is what the shop asks for a unit of the dried food, and what else
// goes into one.
type Regular struct {
	PerUnit exact.Ratio // money
	Priced  string      // the batch whose foods' prices stand for its own; empty: it has its own
	Later   exact.Date  // the day of the price, where that is after the purchase; else NoDate
	// Rest is what else goes into a unit made: the batch's other foods at their
	// shelf prices and, where the shop sells the made food ready, the batch's own
	// cost: otherwise both sides need the cooking.
	Rest     exact.Ratio
	Unpriced []string // the batch's other foods of which no price is known: left out
}

// regularOf finds it. A price of the food bought stands for what it makes, with
// the shelf prices of what else goes in. The error is a [*FactError] or a
// [*MissingError].
func regularOf(g *ledger.Ledger, q *WorthQuery, m Made, day exact.Date) (r Regular, err error) {
	others := r.others(g, m, day)
	ready := m.Dried == m.Bought // the dried food has a shelf price of its own
	if q.Shelf.Given() {
		var own bool
		if r.PerUnit, own, err = shelfGiven(g, q, m); err != nil {
			return r, err
		}
		if ready = ready || own; !ready {
			// From per unit bought to per unit made, which has other foods in it too.
			r.PerUnit = r.PerUnit.Quo(m.Ratio).Add(others)
		}
	} else {
		s, ok := g.ShelfPrice(m.Dried, day, pricing.Fresh)
		if !ok {
			return r, lack(Missing{Fact: ShelfFact, Food: m.Dried})
		}
		if r.PerUnit, r.Priced, ready = s.PerUnit, s.Batch, s.Batch == ""; ready && s.Ask.Date > day {
			r.Later = s.Ask.Date
		}
	}
	if m.Batch >= 0 {
		cost := &g.Batch[m.Batch]
		if r.Rest = others; ready {
			r.Rest = others.Add(cost.Own.Ratio().Quo(exact.RatioOf(cost.Made)))
		}
	}
	return r, nil
}

// shelfGiven reads the price that was given: per unit of the food bought, or of
// a price tag, of the dried food too; own says that it is of that.
func shelfGiven(g *ledger.Ledger, q *WorthQuery, m Made) (price exact.Ratio, own bool, err error) {
	money := q.Shelf.Or(exact.Number{})
	if !q.ShelfSize.Given() {
		return exact.RatioOf(money), false, nil
	}
	food := m.Bought
	if _, err := g.Foods[food].InBasis(q.ShelfSize); err != nil && m.Dried != m.Bought {
		food, own = m.Dried, true
	}
	n, err := inBasis(g, ShelfFact, food, q.ShelfSize)
	if err != nil {
		return price, own, err
	}
	size := n.Round(exact.QuantityPlaces, exact.HalfEven).Mul(g.Foods[food].EdiblePart())
	if size.Sign() <= 0 {
		return price, own, &FactError{Fact: ShelfFact, Fault: NotAbove}
	}
	return money.Over(size), own, nil
}

// others is what the batch's other foods cost at the shelf, per unit made.
func (r *Regular) others(g *ledger.Ledger, m Made, day exact.Date) (sum exact.Ratio) {
	if m.Batch < 0 {
		return sum
	}
	cost := &g.Batch[m.Batch]
	for j, part := range g.Batches[m.Batch].From {
		if part.Item == g.Foods[m.Bought].ID {
			continue
		}
		food, _ := g.FindFood(part.Item)
		price, ok := g.ShelfPrice(food, day, pricing.Fresh)
		if !ok {
			r.Unpriced = append(r.Unpriced, part.Item)
			continue
		}
		sum = sum.Add(price.PerUnit.Times(cost.Parts[j]))
	}
	return sum.Quo(exact.RatioOf(cost.Made))
}
