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
	sure  bool // the value rests on no estimate
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
				at := f.value(flip.At)
				if !f.sure {
					at = a.guess(at, a.Best, a.Row(flip.Packages))
				}
				cells = append(cells, at, CountOf(flip.Packages))
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
	list := []flipping{{name: "shelf price", now: PriceOf(a.sale.Shelf, a.unit()), flips: a.ShelfFlips(),
		value: func(r exact.Ratio) Value { return PriceOf(r, a.unit()) }}}
	if a.even() {
		list = append(list, flipping{name: "price of a package", now: MoneyOf(exact.MoneyOf(a.sale.Price)), flips: a.PriceFlips(), value: MoneyQuotient})
	} else { // what every package would have to cost more or less
		list = append(list, flipping{name: "every price, changed by", now: MoneyOf(exact.Money{}), flips: a.PriceFlips(),
			value: func(r exact.Ratio) Value { return MoneyQuotient(r.Sub(exact.RatioOf(a.sale.Price))) }})
	}
	if a.sale.Electricity != nil {
		list = append(list, flipping{name: "electricity, times", now: QuotientOf(exact.RatioOf(exact.Int(1)), 2), flips: a.ElectricityFlips(),
			value: func(r exact.Ratio) Value { return QuotientOf(r, 2) }})
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
		list = append(list, flipping{"used a month", AmountOf(rounded(use), a.unit()), flips(pricing.UseLimit), monthly, true})
	}
	number := func(r exact.Ratio) Value { return PlainOf(r.Ceil()) }
	if n, ok := a.sale.Limit.Get(); ok && a.even() {
		list = append(list, flipping{"packages that the shop sells", CountOf(n), flips(pricing.ShopLimit), number, true})
	}
	if k, ok := a.sale.MaxCycles.Get(); ok {
		list = append(list, flipping{"cycles before it turns", CountOf(k), flips(pricing.MachineLimit), number, true})
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
