package figures

import (
	"slices"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// A WorthResult is whether a sale is worth buying in bulk, how many packages to
// buy, and what would change that.
type WorthResult struct {
	*Facts
	pricing.Decision
	// Shown is the row that the rest is about: the answer, or where that is to buy
	// none the number that comes closest to saving; no row where none can be
	// bought.
	Shown     pricing.Row
	BreakEven exact.Opt[PriceAt]     // at which the answer saves nothing; where it is to buy none, the highest of any number
	Highest   exact.Opt[PriceAt]     // at which any number saves nothing
	Drying    exact.Opt[exact.Ratio] // the price of a package at which drying neither gains nor loses
	LittleUse bool                   // no number saves even as a gift, and one would if more were used
	Needs     []SupplyNeed           // to pack the answer
	Packed    []SupplyNote           // notes about what packing the row shown costs
	Bounds    []pricing.Bound
	Cases     []Case             // if things turn out otherwise; the first is as expected
	Changes   []Change           // where the answer changes
	NotSought int                // packages beyond which no change was looked for; 0: all were
	Ways      Ways               // to as much as the row shown gives
	Filling   exact.Opt[Filling] // of the room in the last cycle of the row shown
	Standing  pricing.Standing   // of the offer among the prices of the year

	Other    exact.Opt[OtherMachine] // that would save more, where the query names none
	IfFrozen exact.Opt[FrozenAnswer] // where the machine cannot dry a package before it turns
	Crowding exact.Opt[Crowding]     // of the answer, where it waits frozen
}

// An OtherMachine is one that would save more on the same offer.
type OtherMachine struct {
	Machine int         // position in Machines
	Saving  exact.Ratio // money, by the number of packages best for it
	Guessed bool        // it rests on an estimate
}

// A PriceAt is the price of a package for a number of them.
type PriceAt struct {
	Price    exact.Ratio // money per package
	Packages int         // 1 at least
}

// Answer is the answer of [Worth] alone, without what would change it.
func Answer(g *ledger.Ledger, q WorthQuery) (*Facts, pricing.Decision, error) {
	f, err := factsOf(g, q)
	if err != nil {
		return nil, pricing.Decision{}, err
	}
	d, err := f.decide(f.Sale)
	return f, d, err
}

// Worth answers whether a sale is worth buying in bulk. The ledger must be joined
// through the query's AsOf. The error is an [*UnknownError] for a food that is not
// recorded, a [*FactError] for a fact that cannot be used, or a [*MissingError].
func Worth(g *ledger.Ledger, q WorthQuery) (*WorthResult, error) {
	f, d, err := Answer(g, q)
	if err != nil {
		return nil, err
	}
	w := &WorthResult{Facts: f, Decision: d, Shown: d.Best, Bounds: f.Sale.Bounds()}
	if d.Best.Packages == 0 {
		w.Shown = closest(d)
	}
	w.Highest = f.highestBreakEven(d)
	w.BreakEven = w.Highest
	if price, ok := f.breakEvenOf(d.Best); ok {
		w.BreakEven = exact.Some(PriceAt{price, d.Best.Packages})
	}
	w.Drying = f.dryingBreakEven(d)
	w.LittleUse = f.littleUse(d)
	w.Needs = f.Packing.needs(g, d.Best.Containers)
	_, w.Packed = suppliesCost(g, f.Packing.With, w.Shown.Containers)
	if w.Cases, err = f.cases(d); err != nil {
		return nil, err
	}
	w.Changes, w.NotSought = f.changes(d)
	w.Ways = f.ways(d, w.Shown)
	w.Filling = f.fill(d, w.Shown)
	w.Other = f.otherMachine(d.Best.Saving)
	w.IfFrozen, w.Crowding = f.ifFrozen(d), f.crowding(d.Best)
	w.Standing = PriceHistory(g, f.Bought, pricing.Fresh).Standing(f.Day, f.Asked(w.Shown.Packages))
	return w, nil
}

// otherMachine is the machine that would save most on the offer, where that is more
// than the one taken does.
func (f *Facts) otherMachine(saving exact.Ratio) (other exact.Opt[OtherMachine]) {
	if f.Query.Machine != "" {
		return other
	}
	for m := range f.g.Machines {
		if m == f.Dryer.Machine {
			continue
		}
		q := f.Query
		q.Machine = f.g.Machines[m].ID
		facts, d, err := Answer(f.g, q)
		if err == nil && d.Best.Saving.Cmp(saving) > 0 { // what cannot be told is no advice
			saving = d.Best.Saving
			other = exact.Some(OtherMachine{m, saving, facts.Guessed(d.Best)})
		}
	}
	return other
}

// closest is the number of packages above none that saves most, or loses
// least.
func closest(d pricing.Decision) (best pricing.Row) {
	for r := range d.Rows() {
		if r.Packages > 0 && (best.Packages == 0 || best.Saving.Cmp(r.Saving) < 0) {
			best = r
		}
	}
	return best
}

// breakEvenOf is the price of a package at which a number of them saves exactly
// nothing. What else goes into the dried food is not part of a package.
func (f *Facts) breakEvenOf(r pricing.Row) (exact.Ratio, bool) {
	price, ok := r.BreakEven()
	if !ok {
		return price, false
	}
	return price.Sub(f.besides(r.Packages).Per(exact.Int(int64(r.Packages)))), true
}

func (f *Facts) dryingBreakEven(d pricing.Decision) (even exact.Opt[exact.Ratio]) {
	price, ok := d.DryingBreakEven(d.Best)
	if !ok {
		return even
	}
	return exact.Some(price.Sub(f.besides(d.Best.Packages).Per(d.Best.Dried).Times(f.Sale.Size)))
}

// littleUse reports whether it is what will be used in time that keeps drying from
// paying, even as a gift: with more used some number would save.
func (f *Facts) littleUse(d pricing.Decision) bool {
	if even, ok := f.highestBreakEven(d).Get(); !ok || even.Price.Sign() > 0 || !slices.Contains(d.Limits, pricing.UseLimit) {
		return false
	}
	// Asked again as a gift: what saves then is kept back by its price, and what would not save
	// with more used either is not kept back by the use.
	gift := f.Sale
	gift.Price, gift.Paid = exact.Number{}, nil
	if !f.Regular.Rest.IsZero() {
		gift.Paid = f.besides
	}
	free, err := f.decide(gift)
	if err != nil || free.Best.Packages > 0 {
		return false
	}
	flips, _ := free.LimitFlips(pricing.UseLimit, f.countable())
	return flips.Above.Given()
}

// GainGuessed reports whether the gain from the last package of a row rests on
// an estimate: where that package needs electricity.
func (w *WorthResult) GainGuessed(r pricing.Row) bool {
	same := r.Packages > 0 && r.Cost.Electricity.Equal(w.Row(r.Packages-1).Cost.Electricity)
	return !same && w.Guessed(r)
}

// BeyondSeen reports whether a cycle of the row shown has a load that no run had
// of those that tell the electricity.
func (w *WorthResult) BeyondSeen() bool {
	least, most, ok := w.Energy.Loads()
	if !ok || w.Shown.Cycles == 0 {
		return false
	}
	last := w.Shown.Dried.Sub(w.Sale.Load.Mul(exact.Int(int64(w.Shown.Cycles - 1))))
	largest := last
	if w.Shown.Cycles > 1 {
		largest = w.Sale.Load
	}
	return exact.RatioOf(last).Cmp(least) < 0 || exact.RatioOf(largest).Cmp(most) > 0
}

func preserved(g *ledger.Ledger, food int, day exact.Date) (price exact.Opt[exact.Ratio]) {
	if p, ok := g.ShelfPrice(food, day, pricing.Preserved); ok {
		return exact.Some(p.PerUnit)
	}
	return price
}
