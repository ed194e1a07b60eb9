package report

import (
	"fmt"
	"slices"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// Worth answers whether a sale is worth buying in bulk, and how many packages
// to buy. Its error is an [*figures.UnknownError] for a food that is not
// recorded, a [*QueryError] for a wrong option, or a [*MissingError] that names
// all facts that are missing. The ledger must be joined through the query's
// AsOf.
func Worth(g *ledger.Ledger, q WorthQuery) (Doc, error) {
	a, err := answerTo(g, q)
	if err != nil {
		return Doc{}, err
	}
	return a.doc()
}

// An answer is what the decision comes to.
type answer struct {
	*facts
	pricing.Decision
	// shown is the row that the rest of the report is about: the answer, or
	// where that is to buy none the number that comes closest to saving; no
	// row where none can be bought.
	shown pricing.Row
}

// answerTo gathers the facts and decides.
func answerTo(g *ledger.Ledger, q WorthQuery) (*answer, error) {
	f, err := gather(g, q)
	if err != nil {
		return nil, err
	}
	if err := f.pay(); err != nil {
		return nil, err
	}
	d, err := f.decide()
	if err != nil {
		return nil, err
	}
	a := &answer{facts: f, Decision: d, shown: d.Best}
	if d.Best.Packages == 0 {
		a.shown = closest(d)
	}
	_, notes := f.supplies(f.with, a.shown.Containers)
	for _, n := range notes {
		f.note("%s", n)
	}
	if a.power.estimated() && !a.power.spread() && a.shown.Cycles > 0 {
		a.note("how much the electricity differs from cycle to cycle is not known: it takes two runs of %s alone to tell", f.food().Title())
	}
	a.beyondSeen()
	return a, nil
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

// breakEven is the price of a package at which a number of them saves exactly
// nothing. What else goes into the dried food is not part of a package.
func (a *answer) breakEven(r pricing.Row) (exact.Ratio, bool) {
	price, ok := r.BreakEven()
	if !ok {
		return price, false
	}
	return price.Sub(a.besides(r.Packages).Per(whole(r.Packages))), true
}

// answerBreakEven is that of the answer; where it is to buy none, the highest
// of any number.
func (a *answer) answerBreakEven() (price exact.Ratio, packages int, ok bool) {
	if a.Best.Packages > 0 {
		price, ok = a.breakEven(a.Best)
		return price, a.Best.Packages, ok
	}
	for r := range a.Rows() {
		if p, is := a.breakEven(r); is && (!ok || price.Cmp(p) < 0) {
			price, packages, ok = p, r.Packages, true
		}
	}
	return price, packages, ok
}

// dryingBreakEven is the price of a package at which drying what a row dries
// neither gains nor loses.
func (a *answer) dryingBreakEven(r pricing.Row) (exact.Ratio, bool) {
	price, ok := a.DryingBreakEven(r)
	if !ok {
		return price, false
	}
	return price.Sub(a.besides(r.Packages).Per(r.Dried).Times(a.sale.Size)), true
}

// guess marks a figure that rests on an estimate: on the electricity of the
// cycles of any of the rows that it is of.
func (f *facts) guess(v Value, of ...pricing.Row) Value {
	if f.power.estimated() && slices.ContainsFunc(of, func(r pricing.Row) bool { return r.Cycles > 0 }) {
		return v.Estimated()
	}
	return v
}

// sum writes money of a row into a sentence.
func (f *facts) sum(r exact.Ratio, of ...pricing.Row) string {
	return f.say().sum(f.guess(MoneyQuotient(r), of...))
}

// doc lays the answer out: words first, then the figures of the contract, then
// what this report adds to them.
func (a *answer) doc() (Doc, error) {
	d := newDoc(a.g, "Worth buying in bulk? "+a.name())
	d.Words = a.words()
	d.Fields = append(a.figures(), a.parts()...)
	more, err := a.beyond()
	if err != nil {
		return Doc{}, err
	}
	d.Fields = append(d.Fields, more...)
	if a.q.Brief {
		d.Fields = wordless(d.Fields)
	}
	refuse := refuses(a.g, func(i int) bool { return i == a.dried || i == a.bought })
	d.Notes = slices.Concat(a.notes, refuse, a.care())
	return d, nil
}

// wordless are fields that people are not shown.
func wordless(fields []Field) []Field {
	for i := range fields {
		fields[i].Title = ""
	}
	return fields
}

// name is what the food is called.
func (f *facts) name() string {
	name := f.g.Foods[f.bought].Name
	if name == "" {
		name = f.q.Item
	}
	if f.q.As != "" {
		name += ", dried as " + f.q.As
	}
	return name
}

// figures are the single ones.
func (a *answer) figures() []Field {
	breakEven, drying := None, None
	if p, n, ok := a.answerBreakEven(); ok {
		breakEven = a.guess(MoneyQuotient(p), a.Row(n))
	}
	if p, ok := a.dryingBreakEven(a.Best); ok {
		drying = a.guess(MoneyQuotient(p), a.Best)
	}
	unit, best := a.unit(), a.Best
	return []Field{
		{"item", "", itemValue(a.g, a.q.Item)},
		{"unit", "", UnitOf(unit)},
		{"offer", "The offer", a.offerObject()},
		{"shelf_per_unit", "shelf price", PriceOf(a.sale.Shelf, unit)},
		{"buy", "buy", CountOf(best.Packages)},
		{"dried", "dried", AmountOf(best.Dried, unit)},
		{"fresh", "eaten fresh", AmountOf(best.Fresh, unit)},
		{"cycles", "cycles", CountOf(best.Cycles)},
		{"cost", "cost", a.guess(MoneyOf(best.Cost.Total()), best)},
		{"value", "value at the shelf price", MoneyQuotient(best.Value)},
		{"saving", "saving", a.guess(MoneyQuotient(best.Saving), best)},
		{"saving_without_drying", "saving without drying", MoneyQuotient(a.WithoutDrying.Saving)},
		{"break_even_price", "break-even price of a package", breakEven},
		{"drying_break_even_price", "break-even price for drying", drying},
	}
}

func (a *answer) offerObject() Object {
	limit := None
	if n, ok := a.sale.Limit.Get(); ok {
		limit = CountOf(n)
	}
	o := Object{
		{"price", "price of a package", MoneyOf(exact.MoneyOf(a.sale.Price))},
		{"", "size of a package", TextOf(a.q.Size.String())},
		{"size", "that gives", AmountOf(a.sale.Size, a.unit())},
		{"limit", "at most", limit},
		{"per_unit", "price per unit", PriceOf(a.sale.Price.Over(a.sale.Size), a.unit())},
	}
	if a.purchase.round != nil && a.shown.Packages > 0 {
		paid := a.purchase.round.Paid(a.shown.Packages).Per(a.sale.Size.Mul(whole(a.shown.Packages)))
		o = append(o, Field{"paid_per_unit", "as paid, per unit", PriceOf(paid, a.unit())})
	}
	return o
}

// parts are the tables of the contract.
func (a *answer) parts() []Field {
	return []Field{
		{"per_unit", "", a.perUnit(a.Best)},
		{"", a.ifAny("Cost per unit, taken apart, buying " + fmt.Sprint(a.shown.Packages)), a.perUnit(a.shown)},
		{"limits", "", a.limitWords()},
		{"table", "", a.table(mostRows)},
		{"", a.ifAny("Package by package"), a.table(worthRows)},
		{"bounds", "What limits the number", a.boundsTable()},
		packingField(a.g, a.needs(a.Best.Containers)),
		{"estimate", "Electricity of a cycle", a.estimateObject()},
	}
}

// ifAny is a title where any package can be bought at all; else people are
// not shown the part.
func (a *answer) ifAny(title string) string {
	if a.Most == 0 {
		return ""
	}
	return title
}

// perUnit takes the cost of a unit apart, over all that the packages give;
// containers are supplies.
func (a *answer) perUnit(r pricing.Row) Object {
	keys := []string{"food", "electricity", "supplies", "wear", "labour", "total"}
	values := make([]Value, len(keys))
	if u, ok := r.PerUnit(); ok {
		for i, v := range []exact.Ratio{u.Food, u.Electricity, u.Supplies.Add(u.Packing), u.Wear, u.Labour, u.Total} {
			values[i] = PriceOf(v, a.unit())
		}
		values[1], values[5] = a.guess(values[1], r), a.guess(values[5], r)
	}
	var o Object
	for i, key := range keys {
		o = append(o, Field{key, key, values[i]})
	}
	return o
}

func (a *answer) estimateObject() Object {
	p := &a.power
	kwh := func(at kwhOf) Value {
		switch {
		case at == nil || a.sale.Load.IsZero():
			return None
		case p.estimated():
			return PlainOf(at(a.sale.Load)).Estimated()
		}
		return PlainOf(at(a.sale.Load))
	}
	basis := None
	if p.basis != "" {
		basis = TextOf(p.basis)
	}
	from, to := "nine in ten, from", "to"
	if !p.spread() { // one figure tells nothing of others
		from, to = "", ""
	}
	return Object{
		{"basis", "known from", basis}, {"runs", "runs", CountOf(p.runs)},
		{"kwh_per_cycle", "kWh, full", kwh(p.kwh)}, {"low", from, kwh(p.low)}, {"high", to, kwh(p.high)},
	}
}
