package report

import (
	"fmt"
	"slices"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// farOff is how many times the usual a figure is when it is told as far from it.
const farOff = 10

// highRate is the price of a kWh above which a tariff that is a household's
// first is taken to be in hundredths, as bills print it.
const highRate = 5

// Implausible says which figures of records about to be added are far from this
// household's own, one sentence each: a price per unit or a run's kWh ten times
// the usual or a tenth of it, a rate that may be in hundredths, a shelf price of
// 0, a machine that brings back more than it cost. more are the records of rec with the new ones behind them.
func Implausible(rec, more *ledger.Records) []string {
	c := plausibility{rec: rec, say: phrasing{rec.Settings.Currency, Show{Volume: rec.Settings.ShowVolume, Mass: rec.Settings.ShowMass}}}
	for i := range more.Receipts[len(rec.Receipts):] {
		r := &more.Receipts[len(rec.Receipts)+i]
		if c.price(more, r.Item, r.Size, r.Price); r.Kind == ledger.MachineLine && len(more.Machines) == len(rec.Machines) {
			c.residual(more, r.Item)
		}
	}
	for i := range more.Machines[len(rec.Machines):] {
		c.residual(more, more.Machines[len(rec.Machines)+i].ID)
	}
	for i := range more.Shelf[len(rec.Shelf):] {
		s := &more.Shelf[len(rec.Shelf)+i]
		switch {
		case s.Price.Sign() == 0:
			c.addf("the shelf price of %s is 0", s.Item)
		case s.Form == pricing.Fresh:
			c.price(more, s.Item, s.Size, s.Price)
		}
	}
	for i := range more.Tariffs[len(rec.Tariffs):] {
		c.rate(&more.Tariffs[len(rec.Tariffs)+i])
	}
	for i := range more.Runs[len(rec.Runs):] {
		c.energy(&more.Runs[len(rec.Runs)+i])
	}
	return c.doubts
}

// plausibility is a household's own figures.
type plausibility struct {
	rec    *ledger.Records
	say    phrasing
	prices map[string][]exact.Ratio // per unit, of each thing; sorted
	doubts
}

// residual tells of a machine that is to bring back more at its end than was
// paid for it.
func (c *plausibility) residual(more *ledger.Records, machine string) {
	var paid exact.Money
	bought := false
	for i := range more.Receipts {
		if r := &more.Receipts[i]; r.Kind == ledger.MachineLine && r.Item == machine {
			paid, bought = paid.Add(r.Price).Sub(r.Discount).Add(r.Tax), true
		}
	}
	for i := range more.Machines {
		if m := &more.Machines[i]; bought && m.ID == machine && m.Residual.Cmp(paid) > 0 {
			c.addf("%s is to bring %s back at its end, and %s was paid for it", machine, c.say.sum(MoneyOf(m.Residual)), c.say.sum(MoneyOf(paid)))
		}
	}
}

// price tells of a price per unit that is far from the usual.
func (c *plausibility) price(more *ledger.Records, item string, size exact.Quantity, price exact.Money) {
	unit, have, ok := perUnitOf(more, item, size, price)
	if !ok {
		return
	}
	if c.prices == nil {
		c.prices = pricesOf(c.rec)
	}
	usual, ok := exact.Quantile(c.prices[item], half)
	if !ok || !far(have, usual) {
		return
	}
	c.addf("%s is at %s, far from the usual %s (%s)", item, c.say.price(have, unit), c.say.price(usual, unit), usualOf(len(c.prices[item]), "price"))
}

var half = exact.Int(1).Over(exact.Int(2))

// usualOf says what a usual figure is.
func usualOf(n int, what string) string {
	if n == 1 {
		return "the only " + what + " known"
	}
	return fmt.Sprintf("the median of %d %ss", n, what)
}

// far reports whether a figure is ten times another or a tenth of it, or beyond.
func far(have, usual exact.Ratio) bool {
	times := exact.Int(farOff)
	return have.Cmp(usual.Times(times)) >= 0 || have.Times(times).Cmp(usual) <= 0
}

// pricesOf gathers what was paid and asked for each thing, per unit.
func pricesOf(rec *ledger.Records) map[string][]exact.Ratio {
	prices := map[string][]exact.Ratio{}
	add := func(item string, size exact.Quantity, price exact.Money) {
		if _, each, ok := perUnitOf(rec, item, size, price); ok {
			prices[item] = append(prices[item], each)
		}
	}
	for i := range rec.Receipts {
		add(rec.Receipts[i].Item, rec.Receipts[i].Size, rec.Receipts[i].Price)
	}
	for i := range rec.Shelf {
		if s := &rec.Shelf[i]; s.Form == pricing.Fresh {
			add(s.Item, s.Size, s.Price)
		}
	}
	for _, list := range prices {
		slices.SortFunc(list, exact.Ratio.Cmp)
	}
	return prices
}

// perUnitOf is a price per unit as bought of a food or a supply; what costs
// nothing, such as garden produce, has none.
func perUnitOf(rec *ledger.Records, item string, size exact.Quantity, price exact.Money) (unit exact.Unit, each exact.Ratio, ok bool) {
	if price.Sign() <= 0 {
		return unit, each, false
	}
	for i := range rec.Foods {
		if f := &rec.Foods[i]; f.ID == item {
			n, err := f.InBasis(size)
			if err != nil || n.Sign() <= 0 {
				return unit, each, false
			}
			return f.Basis, price.Number().Over(n), true
		}
	}
	for i := range rec.Supplies {
		if rec.Supplies[i].ID == item {
			n := exact.Int(1)
			if size.Given() {
				n = size.Base().Number()
			}
			return exact.Ea, price.Number().Over(n), n.Sign() > 0
		}
	}
	return unit, each, false
}

// rate tells of a rate that may be in hundredths. Where the household's own
// rates are above 5, as in some currencies they are, they say what is usual.
func (c *plausibility) rate(b *ledger.Band) {
	var own []exact.Ratio
	for i := range c.rec.Tariffs {
		own = append(own, exact.RatioOf(c.rec.Tariffs[i].Rate))
	}
	slices.SortFunc(own, exact.Ratio.Cmp)
	limit := exact.RatioOf(exact.Int(highRate))
	if usual, ok := exact.Quantile(own, half); ok && usual.Cmp(limit) > 0 {
		limit = usual.Times(exact.Int(farOff))
	}
	if exact.RatioOf(b.Rate).Cmp(limit) > 0 {
		code := c.rec.Settings.Currency.Code()
		c.addf("tariff %s asks %v %s a kWh: a rate is in %s, not in hundredths of it", b.Tariff, b.Rate, code, code)
	}
}

// energy tells of a run that used ten times what the machine's runs usually do.
func (c *plausibility) energy(r *ledger.Run) {
	kwh, given := r.KWh.Get()
	var own []exact.Ratio
	for i := range c.rec.Runs {
		if n, ok := c.rec.Runs[i].KWh.Get(); ok && n.Sign() > 0 && c.rec.Runs[i].Machine == r.Machine {
			own = append(own, exact.RatioOf(n))
		}
	}
	slices.SortFunc(own, exact.Ratio.Cmp)
	usual, ok := exact.Quantile(own, half)
	if !given || kwh.Sign() <= 0 || !ok || !far(exact.RatioOf(kwh), usual) {
		return
	}
	c.addf("run %s has %v kWh, far from the usual %v kWh on %s (%s)", r.ID, kwh, usual.Round(2, exact.HalfAway), r.Machine, usualOf(len(own), "run"))
}
