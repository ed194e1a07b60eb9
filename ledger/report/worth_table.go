package report

import (
	"putby/pricing"
	"putby/pricing/exact"
)

// How many numbers of packages are shown: to people, and to machines.
const (
	worthRows = 12
	mostRows  = 1000
)

// table is package by package, at most so many that are worth seeing.
func (a *answer) table(most int) *Table {
	t := &Table{Columns: []Column{
		{Key: "buy", Title: "buy"}, {Key: "fresh", Title: "fresh", Rank: 4}, {Key: "dried", Title: "dried", Rank: 2},
		{Key: "cycles", Title: "cycles"}, {Key: "cost", Title: "cost", Rank: 1}, {Key: "value", Title: "value", Rank: 3},
		{Key: "saving", Title: "saving", Bar: true}, {Key: "marginal", Title: "gain from the last one"},
	}}
	rows := a.Worth(most)
	if a.q.FullTable {
		rows = rows[:0]
		for r := range a.Rows() {
			rows = append(rows, r)
		}
	}
	for _, r := range rows {
		t.Rows = append(t.Rows, Row{Cells: []Value{
			CountOf(r.Packages), AmountOf(r.Fresh, a.unit()), AmountOf(r.Dried, a.unit()), CountOf(r.Cycles),
			a.guess(MoneyOf(r.Cost.Total()), r), MoneyQuotient(r.Value), a.guess(MoneyQuotient(r.Saving), r), a.marginal(r, r.Marginal),
		}})
	}
	return t
}

// marginal marks what the last package of a row adds or loses: an estimate where
// that package needs electricity.
func (a *answer) marginal(r pricing.Row, marginal exact.Ratio) Value {
	v := MoneyQuotient(marginal)
	if r.Packages > 0 && r.Cost.Electricity.Equal(a.Row(r.Packages-1).Cost.Electricity) {
		return v
	}
	return a.guess(v, r)
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

// boundsTable lists the limits, and marks those that hold the answer.
func (a *answer) boundsTable() *Table {
	t := &Table{
		Columns: []Column{{Key: "limit"}, {Title: "limit"}, {Key: "allows", Title: "allows", Rank: 1},
			{Key: "packages", Title: "packages"}, {Key: "binds", Title: "limiting"}},
	}
	short := map[pricing.Limit]string{
		pricing.ShopLimit: "the shop", pricing.MachineLimit: "the machine, in time", pricing.UseLimit: "use before best-by",
	}
	holding := map[pricing.Limit]bool{}
	for _, l := range a.Binding() {
		holding[l] = true
	}
	for _, b := range a.bounds() {
		t.Rows = append(t.Rows, Row{Cells: []Value{
			TextOf(b.limit.String()), TextOf(short[b.limit]), TextOf(b.what), CountOf(b.packages), YesNoOf(holding[b.limit]),
		}})
	}
	return t
}

// say writes figures into sentences.
func (f *facts) say() phrasing {
	return phrasing{f.g.Settings.Currency, newDoc(f.g, "").Show}
}
