package report

import (
	"fmt"

	"putby/ledger/figures"
	"putby/pricing"
	"putby/pricing/exact"
)

// How many numbers of packages are shown: to people, and to machines.
const (
	worthRows = 12
	mostRows  = 1000
)

// table is package by package, at most so many that are worth seeing, or all.
func (a *answer) table(most int, full bool) *Table {
	t := &Table{Columns: []Column{
		{Key: "buy", Title: "buy"}, {Key: "fresh", Title: "fresh", Rank: 4}, {Key: "dried", Title: "dried", Rank: 2},
		{Key: "cycles", Title: "runs"}, {Key: "cost", Title: "cost", Rank: 1}, {Key: "value", Title: "value", Rank: 3},
		{Key: "saving", Title: "saving", Bar: true}, {Key: "marginal", Title: "gain from the last one"},
	}}
	if full {
		most = a.Most + 1
	}
	for _, r := range a.Decision.Worth(most) {
		t.add(CountOf(r.Packages), AmountOf(r.Fresh, a.unit()), AmountOf(r.Dried, a.unit()), CountOf(r.Cycles),
			a.guess(MoneyOf(r.Cost.Total()), r), MoneyQuotient(r.Value), a.guess(MoneyQuotient(r.Saving), r), a.gain(r, r.Marginal))
	}
	return t
}

// tableTitle says how many of the numbers of packages people are shown: the gain of
// a row is that of its last package, so that gains add up where none is left out.
func (a *answer) tableTitle(full bool) string {
	title := "Package by package"
	if all := a.Most + 1; all > worthRows && !full {
		title += fmt.Sprintf(" (%d of %d shown)", len(a.Decision.Worth(worthRows)), all)
	}
	return title
}

// gain marks what the last package of a row adds or loses.
func (a *answer) gain(r pricing.Row, marginal exact.Ratio) Value {
	return MoneyQuotient(marginal).estimatedIf(a.GainGuessed(r))
}

// limitWords are what keeps the answer from being more packages; nothing does
// where one more would be allowed but not save.
func (a *answer) limitWords() List {
	list := List{}
	for _, l := range a.Binding() {
		list = append(list, TextOf(l.String()))
	}
	return list
}

// boundsTable lists the limits, and marks those that limit the answer.
func (a *answer) boundsTable() *Table {
	t := &Table{
		Columns: []Column{{Key: "limit"}, {Title: "limit"}, {Key: "allows", Title: "allows", Rank: 1},
			{Key: "packages", Title: "packages"}, {Key: "binds", Title: "limiting"}},
	}
	short := map[pricing.Limit]string{
		pricing.ShopLimit: "the shop", pricing.MachineLimit: "the machine, in time", pricing.UseLimit: "use before best-by",
	}
	binds := map[pricing.Limit]bool{}
	for _, l := range a.Binding() {
		binds[l] = true
	}
	for _, b := range a.Bounds {
		t.add(TextOf(b.Limit.String()), TextOf(short[b.Limit]), TextOf(a.allows(b)), CountOf(b.Packages), YesNoOf(binds[b.Limit]))
	}
	return t
}

// allows says what a limit does, in figures.
func (a *answer) allows(b pricing.Bound) string {
	switch b.Limit {
	case pricing.ShopLimit:
		return counted(b.Packages, "package")
	case pricing.MachineLimit:
		return counted(a.Sale.MaxCycles.Or(0), "run") + " of " + a.amount(a.Sale.Load, a.unit())
	}
	return a.amount(a.Sale.MaxMade.Or(exact.Number{}), a.unit()) + " more"
}

// casesTable is the answer if things turn out otherwise, its saving, and what the
// answer given would save.
func (a *answer) casesTable() *Table {
	t := &Table{Columns: []Column{
		{Key: "case", Title: "if"}, {Key: "value"}, {Title: "at", Rank: 1}, {Key: "buy", Title: "buy"},
		{Key: "saving", Title: "saving"}, {Key: "saving_as_answered", Title: "as answered", Rank: 2},
	}}
	for _, c := range a.Cases {
		name, value, shown := a.caseWords(c)
		t.add(TextOf(name), value, TextOf(shown), CountOf(c.Decision.Best.Packages),
			a.guess(MoneyQuotient(c.Decision.Best.Saving), c.Decision.Best), a.guess(optMoney(c.AsAnswered), a.Best))
	}
	return t
}

// caseWords names a case, and the figure that differs in it.
func (a *answer) caseWords(c figures.Case) (name string, value Value, shown string) {
	kwh := func() (Value, string) {
		n, _ := c.At.Number()
		return PlainOf(n).Estimated(), about + a.number(n) + " kWh"
	}
	switch c.Of {
	case figures.LittleElectricity:
		value, shown = kwh()
		return "little electricity", value, shown
	case figures.MuchElectricity:
		value, shown = kwh()
		return "much electricity", value, shown
	case figures.LowerShelf:
		value = PriceOf(c.At, a.unit())
		return "shelf 10 % lower", value, value.ShownWithUnit(a.currency, a.show)
	case figures.HalfUse:
		n := c.At.Round(exact.QuantityPlaces, exact.HalfEven)
		return "half the use", AmountOf(n, a.unit()), a.amount(n, a.unit()) + " a month"
	}
	return "as expected", None, ""
}

// changesTable says between which values of one fact the answer holds, and what
// it is beyond them.
func (a *answer) changesTable() *Table {
	t := &Table{Columns: []Column{
		{Key: "figure", Title: "figure"}, {Key: "now", Title: "now"},
		{Key: "below", Title: "below"}, {Key: "buy_below", Title: "buy"},
		{Key: "above", Title: "from"}, {Key: "buy_above", Title: "buy"},
	}}
	for _, c := range a.Changes {
		name, value := a.changeWords(c.Of)
		cells := []Value{TextOf(name), nowValue(c, value)}
		for _, side := range []exact.Opt[pricing.Flip]{c.Below, c.Above} {
			flip, ok := side.Get()
			if !ok {
				cells = append(cells, None, None)
				continue
			}
			at := value(flip.At)
			if c.Of.Guessed() {
				at = a.guess(at, a.Best, a.Row(flip.Packages))
			}
			cells = append(cells, at, CountOf(flip.Packages))
		}
		t.add(cells...)
	}
	return t
}

// nowValue is what a figure is now: of prices paid and of things counted not a
// quotient.
func nowValue(c figures.Change, value func(exact.Ratio) Value) Value {
	n, _ := c.Now.Number()
	switch c.Of {
	case figures.PackagePrice, figures.EveryPrice:
		return MoneyOf(exact.MoneyOf(n))
	case figures.ShopPackages, figures.CyclesInTime:
		count, _ := n.Int64()
		return CountOf(int(count))
	}
	return value(c.Now)
}

// changeWords names a figure, and lays a value of it out.
func (a *answer) changeWords(of figures.ChangeOf) (string, func(exact.Ratio) Value) {
	whole := func(r exact.Ratio) Value { return PlainOf(r.Ceil()) }
	switch of {
	case figures.ShelfPrice:
		return "shelf price", func(r exact.Ratio) Value { return PriceOf(r, a.unit()) }
	case figures.PackagePrice:
		return "price of a package", MoneyQuotient
	case figures.EveryPrice:
		return "every price, changed by", MoneyQuotient
	case figures.TimesKWh:
		return "electricity, times", func(r exact.Ratio) Value { return QuotientOf(r, 2) }
	case figures.UsedMonth:
		return "used a month", func(r exact.Ratio) Value {
			return AmountOf(r.Round(exact.QuantityPlaces, exact.HalfEven), a.unit())
		}
	case figures.ShopPackages:
		return "packages that the shop sells", whole
	}
	return "runs before it turns", whole
}

// visitsTable says what to buy at each visit.
func (a *answer) visitsTable() *Table {
	t := &Table{Columns: []Column{{Key: "visit", Title: "visit"}, {Key: "price", Title: "price"},
		{Key: "limit", Title: "at most"}, {Key: "buy", Title: "buy"}}}
	if a.Purchase.Round == nil {
		return t
	}
	for i, n := range a.Purchase.Round.Take(a.Best.Packages) {
		v := a.Offering.Visits[i]
		t.add(CountOf(i+1), MoneyOf(exact.MoneyOf(v.Price)), optional(v.Limit, CountOf), CountOf(n))
	}
	return t
}

// fillingNode is what filling the last cycle saves, for machines; people read it
// in words.
func (a *answer) fillingNode() Node {
	f, ok := a.Filling.Get()
	if !ok {
		return None
	}
	with, takes := None, None
	if f.Food >= 0 {
		food := &a.g.Foods[f.Food]
		with, takes = foodValue(food), AmountOf(f.Takes, food.Basis)
	}
	return Object{
		{"cycle", "", CountOf(f.Cycle + 1)}, {"load", "", AmountOf(f.Load, a.unit())}, {"spare", "", AmountOf(f.Spare, a.unit())},
		{"with", "", with}, {"with_amount", "", takes}, {"saves", "", a.guess(MoneyOf(f.Saves), a.Shown)},
	}
}
