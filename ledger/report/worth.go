package report

import (
	"fmt"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing"
	"putby/pricing/exact"
)

// Worth lays out whether a sale is worth buying in bulk, and how many packages
// to buy; see [figures.Worth], whose errors it returns. The ledger must be joined
// through the query's AsOf.
func Worth(g *ledger.Ledger, q WorthQuery) (Told[Verdict], error) {
	w, err := figures.Worth(g, q.WorthQuery)
	if err != nil {
		return Told[Verdict]{}, err
	}
	a := &answer{reportingOn(g), w, q.Names}
	return Told[Verdict]{a.doc(q), a.verdict()}, nil
}

// A Verdict is what the answer comes to, for a page that begins with it.
type Verdict struct {
	Packages          int    // to buy; 0: none is worth it
	Saving, BreakEven Value  // with so many; the price of one below which it pays, if any
	Why               string // none is worth buying
}

func (a *answer) verdict() Verdict {
	v := Verdict{Packages: a.Best.Packages, Saving: a.guess(MoneyQuotient(a.Best.Saving), a.Best), BreakEven: a.breakEven()}
	if v.Packages == 0 {
		v.Why = sentenceCase(a.whyNone())
	}
	return v
}

// A WorthQuery is the question whether a sale is worth buying in bulk, and how
// people are shown the answer.
type WorthQuery struct {
	figures.WorthQuery
	FullTable bool // show people every number of packages
	Brief     bool // show people the words alone
	Names     Names
}

// An answer is being laid out.
type answer struct {
	reporting
	*figures.WorthResult
	names Names
}

// doc lays the answer out: words first, then the figures of the contract, then
// what this report adds to them.
func (a *answer) doc(q WorthQuery) Doc {
	d := newDoc(a.g, "Worth buying in bulk? "+a.name())
	d.Words = a.words()
	d.Fields = append(append(a.figures(), a.parts(q.FullTable)...), a.beyond()...)
	if q.Brief {
		for i := range d.Fields {
			d.Fields[i].Title = "" // people are not shown what has no title
		}
	}
	d.Notes = append(a.notes(), refuses(a.g, func(i int) bool { return i == a.Dried || i == a.Bought })...)
	d.Cautions = careOf(a.g, a.Bought, a.Dried)
	return d
}

// unit is what amounts of the dried food are in.
func (a *answer) unit() exact.Unit { return a.g.Foods[a.Dried].Basis }

// name is what the food is called.
func (a *answer) name() string {
	name := a.title(a.Bought)
	if a.Bought != a.Dried {
		name += ", dried as " + a.title(a.Dried)
	}
	return name
}

// guess marks a figure that rests on an estimate: on the electricity of the
// cycles of any of the rows that it is of.
func guess(f *figures.Facts, v Value, of ...pricing.Row) Value {
	return v.estimatedIf(f.Guessed(of...))
}

func (a *answer) guess(v Value, of ...pricing.Row) Value { return guess(a.Facts, v, of...) }

// sumOf writes money of rows into a sentence.
func (a *answer) sumOf(r exact.Ratio, of ...pricing.Row) string {
	return a.sum(a.guess(MoneyQuotient(r), of...))
}

// figures are the single ones.
func (a *answer) figures() []Field {
	unit, best := a.unit(), a.Best
	return []Field{
		{"item", "", foodValue(&a.g.Foods[a.Bought])},
		{"unit", "", UnitOf(unit)},
		{"offer", "The offer", a.offerObject()},
		{"shelf_per_unit", "shelf price", PriceOf(a.Sale.Shelf, unit)},
		{"buy", "buy", CountOf(best.Packages)},
		{"dried", "dried", AmountOf(best.Dried, unit)},
		{"made", titleIf(!best.Made.Equal(exact.RatioOf(best.Dried)), "comes back"), AmountOf(best.Made.Round(exact.QuantityPlaces, exact.HalfEven), unit)},
		{"fresh", "eaten fresh", AmountOf(best.Fresh, unit)},
		{"cycles", "runs", CountOf(best.Cycles)},
		{"cost", "cost", a.guess(MoneyOf(best.Cost.Total()), best)},
		{"value", "value at the shelf price", MoneyQuotient(best.Value)},
		{"saving", "saving", a.guess(MoneyQuotient(best.Saving), best)},
		{"saving_without_drying", "saving without drying", MoneyQuotient(a.WithoutDrying.Saving)},
		{"break_even_price", "break-even price of a package", a.breakEven()},
		{"drying_break_even_price", "break-even price for drying", optional(a.Drying, func(p exact.Ratio) Value { return a.guess(MoneyQuotient(p), a.Best) })},
	}
}

// breakEven is the price of a package below which some number of them pays.
func (a *answer) breakEven() Value {
	return optional(a.BreakEven, func(even figures.PriceAt) Value { return a.guess(MoneyQuotient(even.Price), a.Row(even.Packages)) })
}

func (a *answer) offerObject() Object {
	o := Object{
		{"price", "price of a package", MoneyOf(exact.MoneyOf(a.Sale.Price))},
		{"", "size of a package", TextOf(a.quantity(a.Query.Size))},
		{"size", "that gives", AmountOf(a.Sale.Size, a.unit())},
		{"limit", "at most", optional(a.Sale.Limit, CountOf)},
		{"per_unit", "price per unit", PriceOf(a.PricePerUnit(0), a.unit())},
	}
	if n := a.Shown.Packages; a.Purchase.Round != nil && n > 0 {
		o = append(o, Field{"paid_per_unit", "as paid, per unit", PriceOf(a.PricePerUnit(n), a.unit())})
	}
	return o
}

// parts are the tables of the contract.
func (a *answer) parts(full bool) []Field {
	return []Field{
		{"per_unit", "", a.perUnit(a.Best)},
		{"", titleOf(a.Most, "Cost per unit, taken apart, buying "+fmt.Sprint(a.Shown.Packages)), a.perUnit(a.Shown)},
		{"limits", "", a.limitWords()},
		{"table", "", a.table(mostRows, full)},
		{"", titleOf(a.Most, a.tableTitle(full)), a.table(worthRows, full)},
		{"bounds", "What limits the number", a.boundsTable()},
		packingField(a.g, a.Needs),
		{"estimate", "Electricity of a run", a.estimateObject()},
	}
}

// perUnit takes the cost of a unit apart, over all that the packages give;
// containers are supplies.
func (a *answer) perUnit(r pricing.Row) Object {
	keys := []string{"food", "electricity", "supplies", "wear", "labour", "total"}
	values := make([]Value, len(keys))
	if u, ok := r.PerUnit(); ok {
		for i, v := range []exact.Ratio{u.Food, u.Electricity, u.AllSupplies(), u.Wear, u.Labour, u.Total} {
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
	e := &a.Energy
	kwh := func(at figures.KWhOf) Value {
		if at == nil || a.Sale.Load.IsZero() {
			return None
		}
		return PlainOf(at(a.Sale.Load)).estimatedIf(e.Estimated())
	}
	from, to := "nine in ten, from", "to"
	if !e.Spread() { // one figure tells nothing of others
		from, to = "", ""
	}
	return Object{
		{"basis", "known from", basisValue(e.Basis)}, {"runs", "runs", CountOf(e.Runs)},
		{"kwh_per_cycle", "kWh, full", kwh(e.KWh)}, {"low", from, kwh(e.Low)}, {"high", to, kwh(e.High)},
	}
}

// beyond are the parts that this report adds to those of the contract.
func (a *answer) beyond() []Field {
	changes := a.changesTable()
	amount := a.amount(a.Shown.Amount().Round(exact.QuantityPlaces, exact.HalfEven), a.unit())
	fields := []Field{
		{"range", titleOf(a.Most, "If things turn out otherwise"), a.casesTable()},
		{"flips", titleOf(len(changes.Rows), "Where the answer changes"), changes},
		{"ways", titleOf(a.Most, "Other ways to "+amount), a.waysTable()},
		{"cheapest_way", "", a.cheapest()},
		{"part_load", "", a.fillingNode()},
		{"offer_rank", "", a.rankObject()},
		{"visits", "", a.visitsTable()},
	}
	if a.Bought != a.Dried {
		fields = append(fields, Field{"as", "", TextOf(a.g.Foods[a.Dried].ID)}, Field{"made_per_unit", "", QuotientOf(a.Ratio, ledger.ShownPlaces)})
	}
	return append(fields, Field{NotesKey, "", List{}})
}
