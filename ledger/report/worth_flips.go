package report

import (
	"putby/pricing"
	"putby/pricing/exact"
)

// A flipping is a fact of the decision, and the values of it between which the
// answer holds.
type flipping struct {
	name  string
	now   Value
	flips pricing.Flips
	value func(exact.Ratio) Value
}

// flipsTable says between which values of one fact the answer holds, and what it
// is beyond them.
func (a *answer) flipsTable() *Table {
	t := &Table{Columns: []Column{
		{Key: "figure", Title: "figure"}, {Key: "now", Title: "now"},
		{Key: "below", Title: "below"}, {Key: "buy_below", Title: "buy"},
		{Key: "above", Title: "from"}, {Key: "buy_above", Title: "buy"},
	}}
	list := a.limitFlippings()
	if a.Most > 0 {
		list = append(a.priceFlippings(), list...)
	}
	for _, f := range list {
		cells := []Value{TextOf(f.name), f.now}
		for _, side := range []exact.Opt[pricing.Flip]{f.flips.Below, f.flips.Above} {
			if flip, ok := side.Get(); ok {
				cells = append(cells, f.value(flip.At), CountOf(flip.Packages))
			} else {
				cells = append(cells, None, None)
			}
		}
		t.Rows = append(t.Rows, Row{Cells: cells})
	}
	return t
}

// priceFlippings are those of the prices, which every cycle's electricity moves.
func (a *answer) priceFlippings() []flipping {
	money := func(r exact.Ratio) Value { return a.guess(MoneyQuotient(r)) }
	list := []flipping{{"shelf price", PriceOf(a.sale.Shelf, a.unit()), a.ShelfFlips(),
		func(r exact.Ratio) Value { return a.guess(PriceOf(r, a.unit())) }}}
	if a.even() {
		list = append(list, flipping{"price of a package", MoneyOf(exact.MoneyOf(a.sale.Price)), a.PriceFlips(), money})
	} else { // what every package would have to cost more or less
		list = append(list, flipping{"every price, changed by", MoneyOf(exact.Money{}), a.PriceFlips(),
			func(r exact.Ratio) Value { return money(r.Sub(exact.RatioOf(a.sale.Price))) }})
	}
	if a.sale.Electricity != nil {
		list = append(list, flipping{"electricity, times", QuotientOf(exact.RatioOf(exact.Int(1)), 2), a.ElectricityFlips(),
			func(r exact.Ratio) Value { return a.guess(QuotientOf(r, 2)) }})
	}
	return list
}

// limitFlippings are those of what limits the number of packages.
func (a *answer) limitFlippings() (list []flipping) {
	flips := func(l pricing.Limit) pricing.Flips {
		flips, all := a.LimitFlips(l, a.countable())
		if !all {
			a.note("whether more packages than %d would be the answer is not looked for", a.countable())
		}
		return flips
	}
	amount := func(r exact.Ratio) Value { return AmountOf(r.Round(exact.QuantityPlaces, exact.Up), a.unit()) }
	if use, keep, known := a.usage(); known && keep > 0 {
		// The monthly use at which so much is made in time; its last digit is
		// rounded up, so that it still is.
		monthly := func(made exact.Ratio) Value {
			most := made.Add(exact.RatioOf(a.stock())).Round(exact.QuantityPlaces, exact.Up)
			return amount(most.Over(whole(keep)))
		}
		list = append(list, flipping{"used a month", AmountOf(rounded(use), a.unit()), flips(pricing.UseLimit), monthly})
	}
	number := func(r exact.Ratio) Value { return PlainOf(r.Ceil()) }
	if n, ok := a.sale.Limit.Get(); ok && a.even() {
		list = append(list, flipping{"packages that the shop sells", CountOf(n), flips(pricing.ShopLimit), number})
	}
	if k, ok := a.sale.MaxCycles.Get(); ok {
		list = append(list, flipping{"cycles before it turns", CountOf(k), flips(pricing.MachineLimit), number})
	}
	return list
}

// countable is how many packages are counted where a limit is lifted.
func (a *answer) countable() int {
	most := mostPackages
	if a.sale.Load.Sign() > 0 {
		most = min(most, a.room(exact.RatioOf(a.sale.Load.Mul(whole(mostCycles)))))
	}
	return min(most, a.purchase.reach)
}
