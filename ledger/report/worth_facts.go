package report

import (
	"fmt"
	"slices"
	"time"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing"
	"putby/pricing/exact"
)

// facts are what a decision needs, from the query where it says so, else from
// the ledger. Amounts are in the basis unit of the food that is dried.
type facts struct {
	g        *ledger.Ledger
	q        WorthQuery
	day      exact.Date    // of purchase
	bought   int           // position of the food bought
	dried    int           // of the food it is dried as; mostly the same
	recipe   recipe        // of which the dried food is made; mostly of nothing else
	machine  int           // position, or -1
	runs     []int         // good runs of the food on the machine, else all good ones of it
	cycle    time.Duration // usual length; 0: nothing tells
	free     time.Time     // when the machine can take the first load
	waits    []waiting     // foods in hand that go first
	purchase purchase
	with     []ledger.Use // supplies per container, where they are priced
	power    power
	sale     pricing.Sale
	missing  []MissingFact
	notes    []string
	err      *QueryError // the first wrong option
}

// note adds a doubt, once.
func (f *facts) note(format string, args ...any) {
	if s := fmt.Sprintf(format, args...); !slices.Contains(f.notes, s) {
		f.notes = append(f.notes, s)
	}
}

func (f *facts) lack(what, flag, record string) {
	f.missing = append(f.missing, MissingFact{what, flag, record})
}

func (f *facts) wrong(option, hint, format string, args ...any) {
	if f.err == nil {
		f.err = errorf(option, hint, format, args...)
	}
}

// food is the food that is dried.
func (f *facts) food() *ledger.Food { return &f.g.Foods[f.dried] }

// unit is what its amounts are in.
func (f *facts) unit() exact.Unit { return f.food().Basis }

// leaves reports whether an element of cost counts nowhere.
func (f *facts) leaves(e ledger.Element) bool { return slices.Contains(f.q.Without, e) }

// factsOf begins with the food bought and what it is dried as. Its error is an
// [*figures.UnknownError] or a [*QueryError].
func factsOf(g *ledger.Ledger, q WorthQuery) (*facts, error) {
	q.Item, _ = ledger.Meant(q.Item, g.Records.NamedFoods())
	food, ok := g.FindFood(q.Item)
	if !ok {
		return nil, &figures.UnknownError{What: "food", Name: q.Item}
	}
	f := &facts{g: g, q: q, bought: food, machine: -1, day: purchaseDay(g, q)}
	if !f.findFoods() {
		return nil, f.err
	}
	return f, nil
}

// gather finds all facts. Its error is an [*figures.UnknownError] for a food that is
// not recorded, a [*QueryError] for an option that is wrong, or a
// [*MissingError] that names everything that is missing.
func gather(g *ledger.Ledger, q WorthQuery) (*facts, error) {
	f, err := factsOf(g, q)
	if err != nil {
		return nil, err
	}
	if f.day == exact.NoDate {
		return nil, errorf("as-of", "write it as 2025-02-28", "a ledger without dates needs the day of purchase")
	}
	f.findOffer()
	f.findShelf()
	f.findMachine()
	f.findLoad()
	f.findCycle()
	f.findYield()
	f.findPacking()
	f.findFree()
	f.findLimits()
	f.findCycleCosts()
	f.findPower()
	switch {
	case f.err != nil:
		return nil, f.err
	case f.missing != nil:
		return nil, &MissingError{f.missing}
	}
	return f, nil
}

// purchaseDay is the day of purchase: as asked, else the ledger's.
func purchaseDay(g *ledger.Ledger, q WorthQuery) exact.Date {
	if q.AsOf != exact.NoDate {
		return q.AsOf
	}
	return g.AsOf
}

// amount reads a quantity in a food's basis unit.
func (f *facts) amount(option string, food *ledger.Food, q exact.Quantity) exact.Number {
	if q.Sign() == 0 {
		return exact.Number{} // nothing, whatever the unit
	}
	n, err := food.InBasis(q)
	if err != nil {
		f.wrong(option, "write it in a unit of "+food.Basis.Dimension().String()+
			", or record the density of "+food.ID+" in "+ledger.FoodsFile, "%v", err)
	}
	return n
}

// eaten reads an amount of the dried food, or of the food bought.
func (f *facts) eaten(option string, q exact.Quantity) exact.Number {
	if n, err := f.food().InBasis(q); err == nil || q.Sign() == 0 {
		return n
	}
	return ended(f.recipe.makes(f.amount(option, &f.g.Foods[f.bought], q)))
}

// rounded is an amount whose quotient may not end, at 12 decimals.
func rounded(r exact.Ratio) exact.Number { return r.Round(exact.QuantityPlaces, exact.HalfEven) }

// ended is an amount with all its digits, where they end; else rounded.
func ended(r exact.Ratio) exact.Number {
	if n, ends := r.Number(); ends {
		return n
	}
	return rounded(r)
}

// whole is a number of things.
func whole(n int) exact.Number { return exact.Int(int64(n)) }

// ratioOf is an amount of money as a ratio.
func ratioOf(m exact.Money) exact.Ratio { return exact.RatioOf(m.Number()) }

// post rounds an amount as the ledger posts it.
func (f *facts) post(r exact.Ratio) exact.Money {
	return exact.MoneyOf(r.Round(f.g.Places(), exact.HalfEven))
}
