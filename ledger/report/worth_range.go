package report

import (
	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// beyond are the parts that this report adds to those of the contract.
func (a *answer) beyond() ([]Field, error) {
	cases, err := a.rangeTable()
	if err != nil {
		return nil, err
	}
	flips := a.flipsTable()
	changes := ""
	if len(flips.Rows) > 0 {
		changes = "Where the answer changes"
	}
	fields := []Field{
		{"range", a.ifAny("If things turn out otherwise"), cases},
		{"flips", changes, flips},
		{"ways", a.ifAny("Other ways to " + a.say().amount(rounded(a.shown.Amount()), a.unit())), a.waysTable()},
		a.partLoad(),
		{"offer_rank", "", a.rankObject()},
		{"visits", "", a.visitsTable()},
	}
	if a.q.As != "" {
		fields = append(fields, Field{"as", "", TextOf(a.q.As)}, Field{"made_per_unit", "", QuotientOf(a.recipe.ratio, ledger.ShownPlaces)})
	}
	return append(fields, Field{NotesKey, "", List{}}), nil
}

// A turn is one way in which things can turn out otherwise.
type turn struct {
	name  string
	value Value // the figure that differs
	shown string
	sale  pricing.Sale
}

// cases are those of the range: the cycle's electricity at both ends of its
// spread, a shelf price 10 % lower, and half the use.
func (a *answer) cases() []turn {
	list := []turn{{"as expected", None, "", a.sale}}
	with := func(name string, value Value, shown string, change func(*pricing.Sale)) {
		sale := a.sale
		change(&sale)
		list = append(list, turn{name, value, shown, sale})
	}
	if p := &a.power; p.spread() && a.sale.Load.Sign() > 0 {
		for _, end := range []struct {
			name string
			kwh  kwhOf
		}{{"little electricity", p.low}, {"much electricity", p.high}} {
			kwh := end.kwh(a.sale.Load)
			with(end.name, PlainOf(kwh).Estimated(), about+kwh.String()+" kWh", func(s *pricing.Sale) { s.Electricity, _ = a.priced(end.kwh) })
		}
	}
	lower := a.sale.Shelf.Times(exact.New(9, 1))
	shelf := PriceOf(lower, a.unit())
	with("shelf 10 % lower", shelf, shelf.ShownWithUnit(a.say().currency, a.say().show), func(s *pricing.Sale) { s.Shelf = lower })
	if a.sale.MaxMade.Given() {
		use, keep, _ := a.usage()
		half := use.Times(exact.New(5, 1))
		amount := rounded(half)
		with("half the use", AmountOf(amount, a.unit()), a.say().amount(amount, a.unit())+" a month", func(s *pricing.Sale) {
			s.MaxMade = exact.Some(a.roomFor(half, keep))
		})
	}
	return list
}

// rangeTable decides each case again: the answer there, its saving, and what
// the answer given would save.
func (a *answer) rangeTable() (*Table, error) {
	t := &Table{Columns: []Column{
		{Key: "case", Title: "if"}, {Key: "value"}, {Title: "at", Rank: 1}, {Key: "buy", Title: "buy"},
		{Key: "saving", Title: "saving"}, {Key: "saving_as_answered", Title: "as answered", Rank: 2},
	}}
	for _, c := range a.cases() {
		d, err := pricing.Decide(c.sale)
		if err == nil {
			err = a.power.err
		}
		if err != nil {
			return nil, a.explain(err)
		}
		t.Rows = append(t.Rows, Row{Cells: []Value{
			TextOf(c.name), c.value, TextOf(c.shown), CountOf(d.Best.Packages), a.guess(MoneyQuotient(d.Best.Saving), d.Best), a.guess(a.asAnswered(c.sale, d), a.Best),
		}})
	}
	return t, nil
}

// asAnswered is what the answer saves when things turn out otherwise. What is
// made beyond the use then saves nothing.
func (a *answer) asAnswered(sale pricing.Sale, d pricing.Decision) Value {
	if n := a.Best.Packages; n <= d.Most {
		return MoneyQuotient(d.Row(n).Saving)
	}
	made, ok := sale.MaxMade.Get()
	if !ok {
		return None
	}
	waste := a.Best.Made.Sub(exact.RatioOf(made)).Mul(sale.Shelf)
	return MoneyQuotient(a.Best.Saving.Sub(waste))
}
