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
// household's own, as a [Vetting] does. more are the records of rec with the new
// ones behind them.
func Implausible(rec, more *ledger.Records) []string {
	v := NewVetting(rec)
	v.know(more.Foods[len(rec.Foods):], more.Supplies[len(rec.Supplies):])
	v.machines = more.Machines
	v.Look(&ledger.Records{
		Machines: more.Machines[len(rec.Machines):], Receipts: more.Receipts[len(rec.Receipts):], Shelf: more.Shelf[len(rec.Shelf):],
		Tariffs: more.Tariffs[len(rec.Tariffs):], Runs: more.Runs[len(rec.Runs):],
	})
	odd, _ := v.Odd()
	return odd
}

// A Vetting holds records that are about to be added against a household's own,
// and keeps of them no more than it has to say: a price per unit or a run's kWh
// ten times the usual or a tenth of it, a rate that may be in hundredths, a shelf
// price of 0, a machine that brings back more than it cost.
type Vetting struct {
	rec      *ledger.Records
	say      phrasing
	foods    map[string]*ledger.Food
	supplies map[string]bool
	machines []ledger.Machine
	prices   map[string][]exact.Ratio // per unit, of each thing; sorted
	costs    map[string]exact.Money   // of the machines that lines looked at are of
	asked    map[string]bool          // machines that are new or bought anew

	odd   []string
	told  map[string]bool
	count int
}

// mostOdd is how many figures that are far off are kept to be told one by one.
const mostOdd = 1000

// NewVetting begins with the records of a household as they are.
func NewVetting(rec *ledger.Records) *Vetting {
	v := &Vetting{
		rec: rec, say: phrasingOf(&rec.Settings),
		foods: map[string]*ledger.Food{}, supplies: map[string]bool{}, machines: rec.Machines,
		costs: map[string]exact.Money{}, asked: map[string]bool{}, told: map[string]bool{},
	}
	v.know(rec.Foods, rec.Supplies)
	return v
}

// know takes in what records may be of.
func (v *Vetting) know(foods []ledger.Food, supplies []ledger.Supply) {
	for i := range foods {
		v.foods[foods[i].ID] = &foods[i]
	}
	for i := range supplies {
		v.supplies[supplies[i].ID] = true
	}
}

// Look looks at the records of more, which are to be added. It does not keep
// them.
func (v *Vetting) Look(more *ledger.Records) {
	for i := range more.Receipts {
		r := &more.Receipts[i]
		v.price(r.Item, r.Size, r.Price)
		if r.Kind == ledger.MachineLine {
			v.costs[r.Item] = v.costs[r.Item].Add(r.Price).Sub(r.Discount()).Add(r.Tax())
			v.asked[r.Item] = true
		}
	}
	for i := range more.Machines {
		v.asked[more.Machines[i].ID] = true
	}
	for i := range more.Shelf {
		s := &more.Shelf[i]
		switch {
		case s.Price.Sign() == 0:
			v.addf("the shelf price of %s is 0", s.Item)
		case s.Form == pricing.Fresh:
			v.price(s.Item, s.Size, s.Price)
		}
	}
	for i := range more.Tariffs {
		v.rate(&more.Tariffs[i])
	}
	for i := range more.Runs {
		v.energy(&more.Runs[i])
	}
}

// Odd returns what there is to say, one sentence each and none twice; of more
// than a thousand the first, and n is how many there are, each as often as it was
// seen from there on.
func (v *Vetting) Odd() (odd []string, n int) {
	for i := range v.machines {
		v.residual(&v.machines[i])
	}
	return v.odd, v.count
}

// addf notes a figure that is far off.
func (v *Vetting) addf(format string, args ...any) {
	if len(v.odd) == mostOdd {
		v.count++
		return
	}
	if odd := fmt.Sprintf(format, args...); !v.told[odd] {
		v.odd, v.told[odd] = append(v.odd, odd), true
		v.count++
	}
}

// residual tells of a machine that is to bring back more at its end than was
// paid for it.
func (v *Vetting) residual(m *ledger.Machine) {
	if !v.asked[m.ID] {
		return
	}
	paid, bought := v.costs[m.ID]
	for i := range v.rec.Receipts {
		if r := &v.rec.Receipts[i]; r.Kind == ledger.MachineLine && r.Item == m.ID {
			paid, bought = paid.Add(r.Price).Sub(r.Discount()).Add(r.Tax()), true
		}
	}
	if bought && m.Residual.Cmp(paid) > 0 {
		v.addf("%s is to bring %s back at its end, and %s was paid for it", m.ID, v.say.sum(MoneyOf(m.Residual)), v.say.sum(MoneyOf(paid)))
	}
}

// price tells of a price per unit that is far from the usual.
func (v *Vetting) price(item string, size exact.Quantity, price exact.Money) {
	unit, have, ok := v.perUnit(item, size, price)
	if !ok {
		return
	}
	if v.prices == nil {
		v.prices = v.ownPrices()
	}
	usual, ok := exact.Quantile(v.prices[item], half)
	if !ok || !far(have, usual) {
		return
	}
	v.addf("%s is at %s, far from the usual %s (%s)", item, v.say.price(have, unit), v.say.price(usual, unit), usualOf(len(v.prices[item]), "price"))
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

// ownPrices gathers what was paid and asked for each thing, per unit, and the
// price that supplies.csv has for a supply that no receipt is of.
func (v *Vetting) ownPrices() map[string][]exact.Ratio {
	rec, prices := v.rec, map[string][]exact.Ratio{}
	add := func(item string, size exact.Quantity, price exact.Money) {
		if _, each, ok := v.perUnit(item, size, price); ok {
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
	for i := range rec.Supplies {
		s := &rec.Supplies[i]
		if list, known := s.Price.Get(); known && prices[s.ID] == nil {
			add(s.ID, exact.Quantity{}, list)
		}
	}
	for _, list := range prices {
		slices.SortFunc(list, exact.Ratio.Cmp)
	}
	return prices
}

// perUnit is a price per unit as bought of a food or a supply; what costs
// nothing, such as garden produce, has none.
func (v *Vetting) perUnit(item string, size exact.Quantity, price exact.Money) (unit exact.Unit, each exact.Ratio, ok bool) {
	if price.Sign() <= 0 {
		return unit, each, false
	}
	if f := v.foods[item]; f != nil {
		n, err := f.InBasis(size)
		if err != nil || n.Sign() <= 0 {
			return unit, each, false
		}
		return f.Basis, price.Number().Over(n), true
	}
	if !v.supplies[item] {
		return unit, each, false
	}
	n := exact.Int(1)
	if size.Given() {
		n = size.Base().Number()
	}
	if n.Sign() <= 0 {
		return unit, each, false
	}
	return exact.Ea, price.Number().Over(n), true
}

// rate tells of a rate that may be in hundredths. Where the household's own
// rates are above 5, as in some currencies they are, they say what is usual.
func (v *Vetting) rate(b *ledger.Band) {
	var own []exact.Ratio
	for i := range v.rec.Tariffs {
		own = append(own, exact.RatioOf(v.rec.Tariffs[i].Rate))
	}
	slices.SortFunc(own, exact.Ratio.Cmp)
	limit := exact.RatioOf(exact.Int(highRate))
	if usual, ok := exact.Quantile(own, half); ok && usual.Cmp(limit) > 0 {
		limit = usual.Times(exact.Int(farOff))
	}
	if exact.RatioOf(b.Rate).Cmp(limit) > 0 {
		code := v.rec.Settings.Currency.Code()
		v.addf("tariff %s asks %s a kWh: a rate is in %s, not in hundredths of it", b.Tariff, v.say.show.Locale.Money(b.Rate.String(), v.rec.Settings.Currency), code)
	}
}

// energy tells of a run that used ten times what the machine's runs usually do.
func (v *Vetting) energy(r *ledger.Run) {
	kwh, given := r.KWh.Get()
	var own []exact.Ratio
	for i := range v.rec.Runs {
		if n, ok := v.rec.Runs[i].KWh.Get(); ok && n.Sign() > 0 && v.rec.Runs[i].Machine == r.Machine {
			own = append(own, exact.RatioOf(n))
		}
	}
	slices.SortFunc(own, exact.Ratio.Cmp)
	usual, ok := exact.Quantile(own, half)
	if !given || kwh.Sign() <= 0 || !ok || !far(exact.RatioOf(kwh), usual) {
		return
	}
	v.addf("run %s has %s kWh, far from the usual %s kWh on %s (%s)", r.ID, v.say.number(kwh), v.say.number(usual.Round(2, exact.HalfAway)), r.Machine, usualOf(len(own), "run"))
}
