package report

import (
	"fmt"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// Worth answers whether a sale is worth buying in bulk, and how many packages
// (design section 6). Its error is a [*QueryError] for a wrong option, a
// [*MissingError] that names all facts that are missing, or one of package
// pricing. The ledger must be joined through the query's AsOf.
func Worth(g *ledger.Ledger, q WorthQuery) (Doc, error) {
	f, err := gather(g, q)
	if err != nil {
		return Doc{}, err
	}
	d, err := pricing.Decide(f.sale)
	if err == nil {
		err = f.power.err
	}
	if err != nil {
		return Doc{}, err
	}
	return f.doc(d), nil
}

// doc lays the answer out: words first, then the figures of the contract.
func (f *facts) doc(d pricing.Decision) Doc {
	doc := newDoc(f.g, "Is it worth it? "+f.q.Item)
	doc.Words = f.words(d)
	unit, best := f.food().Basis, d.Best
	breakEven, drying := None, None
	if p, _, ok := d.BreakEven(); ok {
		breakEven = MoneyQuotient(p)
	}
	if p, ok := d.DryingBreakEven(best); ok {
		drying = MoneyQuotient(p)
	}
	doc.Fields = []Field{
		{"item", "food", TextOf(f.q.Item)},
		{"unit", "", UnitOf(unit)},
		{"offer", "The offer", f.offerObject()},
		{"shelf_per_unit", "shelf price", PriceOf(f.sale.Shelf, unit)},
		{"buy", "buy", CountOf(best.Packages)},
		{"dried", "dried", AmountOf(best.Dried, unit)},
		{"fresh", "eaten fresh", AmountOf(best.Fresh, unit)},
		{"cycles", "cycles", CountOf(best.Cycles)},
		{"cost", "cost", MoneyOf(best.Cost.Total())},
		{"value", "value", MoneyQuotient(best.Value)},
		{"saving", "saving", MoneyQuotient(best.Saving)},
		{"saving_without_drying", "saving without drying", MoneyQuotient(d.WithoutDrying.Saving)},
		{"break_even_price", "break-even price of a package", breakEven},
		{"drying_break_even_price", "price at which drying itself breaks even", drying},
		{"per_unit", "Cost per unit, taken apart", f.perUnit(best)},
		{"limits", "Limits", f.limitWords(d)},
		{"table", "Package by package", f.table(d)},
		{"estimate", "Electricity of a cycle, estimated", f.estimateObject()},
	}
	if f.q.As != "" {
		doc.Fields = append(doc.Fields, Field{"as", "dried as", TextOf(f.q.As)})
	}
	doc.Notes = append(f.notes, cautions(f.g, func(i int) bool { return i == f.dried || i == f.bought })...)
	return doc
}

func (f *facts) offerObject() Object {
	limit := None
	if n, ok := f.sale.Limit.Get(); ok {
		limit = CountOf(n)
	}
	return Object{
		{"price", "price of a package", MoneyOf(exact.MoneyOf(f.sale.Price))},
		{"size", "size of a package", AmountOf(f.sale.Size, f.food().Basis)},
		{"limit", "at most", limit},
		{"per_unit", "price per unit", PriceOf(f.sale.Price.Over(f.sale.Size), f.food().Basis)},
	}
}

// perUnit takes the cost of a unit apart; containers are supplies.
func (f *facts) perUnit(r pricing.Row) Object {
	keys := []string{"food", "electricity", "supplies", "wear", "labour", "total"}
	values := make([]Value, len(keys))
	if u, ok := r.PerUnit(); ok {
		for i, v := range []exact.Ratio{u.Food, u.Electricity, u.Supplies.Add(u.Packing), u.Wear, u.Labour, u.Total} {
			values[i] = PriceOf(v, f.food().Basis)
		}
	}
	var o Object
	for i, key := range keys {
		o = append(o, Field{key, key, values[i]})
	}
	return o
}

// limitWords say what keeps the number where it is.
func (f *facts) limitWords(d pricing.Decision) List {
	var list List
	for _, l := range d.Binding() {
		list = append(list, TextOf(l.String()))
	}
	return list
}

// worthRows is how many numbers of packages a person is shown at once.
const worthRows = 12

func (f *facts) table(d pricing.Decision) *Table {
	t := &Table{Columns: []Column{
		{Key: "buy", Title: "buy"}, {Key: "fresh", Title: "fresh", Rank: 2}, {Key: "dried", Title: "dried", Rank: 1},
		{Key: "cycles", Title: "cycles"}, {Key: "cost", Title: "cost"}, {Key: "value", Title: "value", Rank: 1},
		{Key: "saving", Title: "saving", Bar: true}, {Key: "marginal", Title: "one more saves"},
	}}
	rows := d.Worth(worthRows)
	if f.q.FullTable {
		rows = rows[:0]
		for r := range d.Rows() {
			rows = append(rows, r)
		}
	}
	for _, r := range rows {
		t.Rows = append(t.Rows, Row{Cells: []Value{
			CountOf(r.Packages), AmountOf(r.Fresh, f.food().Basis), AmountOf(r.Dried, f.food().Basis), CountOf(r.Cycles),
			MoneyOf(r.Cost.Total()), MoneyQuotient(r.Value), MoneyQuotient(r.Saving), MoneyQuotient(r.Marginal),
		}})
	}
	return t
}

func (f *facts) estimateObject() Object {
	load := f.sale.Load
	kwh := func(at func(exact.Number) exact.Number) Value {
		if f.power.basis == "given" {
			return PlainOf(at(load))
		}
		return PlainOf(at(load)).Estimated()
	}
	return Object{
		{"basis", "from", TextOf(f.power.basis)}, {"runs", "runs", CountOf(f.power.runs)},
		{"kwh_per_cycle", "kWh of a full cycle", kwh(f.power.kwh)},
		{"low", "from", kwh(f.power.low)}, {"high", "to", kwh(f.power.high)},
	}
}

// words are the answer in sentences.
func (f *facts) words(d pricing.Decision) []string {
	best, doc := d.Best, newDoc(f.g, "")
	money := func(r exact.Ratio) string {
		return MoneyQuotient(r).Shown(doc.Currency, doc.Show) + " " + doc.Currency.Code()
	}
	amount := func(n exact.Number) string { return AmountOf(n, f.food().Basis).ShownWithUnit(doc.Currency, doc.Show) }
	price, _, known := d.BreakEven()
	if best.Packages == 0 {
		words := "Buy none: at this price no number of packages saves anything."
		if known && price.Sign() > 0 {
			words += fmt.Sprintf(" It begins to pay below %s a package.", money(price))
		}
		return []string{words}
	}
	words := fmt.Sprintf("Buy %d.", best.Packages)
	if best.Dried.Sign() > 0 {
		words += fmt.Sprintf(" Dry %s in %s.", amount(best.Dried), cyclesWord(best.Cycles))
	}
	if best.Fresh.Sign() > 0 {
		words += fmt.Sprintf(" Eat %s fresh.", amount(best.Fresh))
	}
	words += fmt.Sprintf(" That saves %s against the shelf", money(best.Saving))
	if best.Dried.Sign() > 0 {
		words += fmt.Sprintf("; without drying it would be %s", money(d.WithoutDrying.Saving))
	}
	words += "."
	if known {
		words += fmt.Sprintf(" It is worth it below %s a package.", money(price))
	}
	return []string{words}
}

func cyclesWord(n int) string {
	if n == 1 {
		return "1 cycle"
	}
	return fmt.Sprintf("%d cycles", n)
}
