package report

import (
	"fmt"
	"slices"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

var eachNames = []string{"month", "year", "week", "shop", "kind"}

// EachNames returns what the rows of a month report may be, in the order of
// [figures.Each].
func EachNames() []string { return slices.Clone(eachNames) }

// Month reports what was spent, put by, used, lost and saved, period by period,
// and that the packs in store come out; see [figures.Month]. The error is
// one of a query, or [figures.ErrUnbalanced].
func Month(g *ledger.Ledger, q figures.MonthQuery) (Doc, error) {
	return laid(g, q, figures.Month, MonthDoc)
}

// MonthDoc lays out what moved, period by period.
func MonthDoc(g *ledger.Ledger, q figures.MonthQuery, m figures.MonthResult) Doc {
	by := eachNames[q.Each]
	d := newDoc(g, monthTitle(q.Each)+ofFood(g, m.Food))
	d.Share = monthShare(m.Whole.Tally)
	if m.Rows == nil {
		d.Fields = []Field{field("rows", "By "+by, &Table{Columns: monthColumns(by)})}
		d.Words = []string{"Nothing that moves money is recorded."}
		return d
	}
	switch q.Each {
	case figures.EachShop:
		d.Fields = []Field{field("rows", "By shop", shopTable(&m))}
	case figures.EachKind:
		d.Fields = []Field{field("rows", "By kind", kindTable(&m))}
	default:
		d.Fields = append(monthFields(phrasingOf(&g.Settings), &m, by), toComeField(g, m.Ahead))
		d.Words = []string{phrasingOf(&g.Settings).monthInWords(&m)}
	}
	var notes noteList
	notes.addFigures(g, m.Notes)
	notes.add(itemNotes(g, m.Food)...)
	d.Notes, d.Cautions = notes, cautions(g, func(f int) bool { return f == m.Food })
	return d
}

func monthTitle(each figures.Each) string {
	if each >= figures.EachShop { // which splits what was spent alone
		return "Spent, by " + eachNames[each]
	}
	return "Spent, put by and saved, by " + eachNames[each]
}

// itemNotes says what the figures of one food leave out.
func itemNotes(g *ledger.Ledger, food int) []string {
	if food < 0 {
		return nil
	}
	return []string{"only " + g.Foods[food].Title() + ": supplies, machines, services and other things are bought for no food alone, so they stand at nothing here; electricity is its share"}
}

// monthFields are the parts of a report by month, year or week.
func monthFields(say phrasing, m *figures.MonthResult, by string) []Field {
	last := m.Rows[len(m.Rows)-1]
	fields := []Field{
		field("rows", "By "+by, monthTable(by, m.Rows, &m.Whole)),
		{Key: "totals", Node: append(Object{
			{Key: "from", Node: DateOf(m.Whole.From)}, {Key: "to", Node: DateOf(m.Whole.To)},
		}, monthObject(&m.Whole)...)},
		{Key: "stock", Title: "Packs in store, at cost", Node: stockObject(say, &m.Whole)},
	}
	fields = append(fields, comparison(say, last, m.Last)...)
	if t := budgetTable(last, m.Whole, m.Budgets); t != nil {
		fields = append(fields, field("budget", "Budget", t))
	}
	return fields
}

// The figures of a period, in the order of the table.
var monthFigures = []struct {
	Column
	of func(*figures.Tally) Value
}{
	{Column{Key: "food_spent", Title: "food", Rank: 5, Spare: true}, func(t *figures.Tally) Value { return MoneyOf(t.Spent[figures.FoodSpent]) }},
	{Column{Key: "supplies_spent", Title: "supplies", Rank: 6, Spare: true}, func(t *figures.Tally) Value { return MoneyOf(t.Spent[figures.SuppliesSpent]) }},
	{Column{Key: "machines_spent", Title: "machines", Rank: 6, Spare: true}, func(t *figures.Tally) Value { return MoneyOf(t.Spent[figures.MachinesSpent]) }},
	{Column{Key: "services_spent", Title: "services", Rank: 7, Spare: true}, func(t *figures.Tally) Value { return MoneyOf(t.Spent[figures.ServicesSpent]) }},
	{Column{Key: "other_spent", Title: "other", Rank: 7, Spare: true}, func(t *figures.Tally) Value { return MoneyOf(t.Spent[figures.OtherSpent]) }},
	{Column{Key: "electricity", Title: "electricity", Rank: 5, Spare: true}, func(t *figures.Tally) Value { return MoneyOf(t.Spent[figures.ElectricitySpent]) }},
	{Column{Title: "money out", Bar: true}, func(t *figures.Tally) Value { return MoneyOf(t.Spent.Total()) }},
	{Column{Key: "put_by", Title: "put by", Rank: 1}, func(t *figures.Tally) Value { return MoneyOf(t.PutBy) }},
	{Column{Key: "used", Title: "used", Rank: 1}, func(t *figures.Tally) Value { return MoneyOf(t.Out[ledger.Used]) }},
	{Column{Key: "given", Title: "given", Rank: 4, Spare: true}, func(t *figures.Tally) Value { return MoneyOf(t.Out[ledger.Given]) }},
	{Column{Key: "spoiled", Title: "spoiled", Rank: 4, Spare: true}, func(t *figures.Tally) Value { return MoneyOf(t.Out[ledger.Spoiled]) }},
	{Column{Key: "missing", Title: "missing", Rank: 4, Spare: true}, func(t *figures.Tally) Value { return MoneyOf(t.Out[ledger.Missing]) }},
	{Column{Key: "lost", Title: "lost", Rank: 3, Spare: true}, func(t *figures.Tally) Value { return MoneyOf(t.Lost) }},
	{Column{Key: "fresh_used", Title: "fresh used", Rank: 8, Spare: true}, func(t *figures.Tally) Value { return MoneyOf(t.Fresh[ledger.Used]) }},
	{Column{Key: "fresh_given", Title: "fresh given", Rank: 8, Spare: true}, func(t *figures.Tally) Value { return MoneyOf(t.Fresh[ledger.Given]) }},
	{Column{Key: "fresh_spoiled", Title: "fresh spoiled", Rank: 8, Spare: true}, func(t *figures.Tally) Value { return MoneyOf(t.FreshSpoiled()) }},
	{Column{Key: "saved", Title: "saved", Bar: true}, func(t *figures.Tally) Value { return MoneyQuotient(t.Saved) }},
	{Column{Key: "net", Title: "net", Bar: true}, func(t *figures.Tally) Value { return MoneyQuotient(t.Net()) }},
	{Column{Key: "opening", Title: "opening", Rank: 6}, func(t *figures.Tally) Value { return MoneyOf(t.Opening) }},
	{Column{Key: "closing", Title: "closing", Rank: 2}, func(t *figures.Tally) Value { return MoneyOf(t.Closing) }},
	{Column{Key: "supplies_gone", Title: "supplies gone", Rank: 4, Spare: true}, func(t *figures.Tally) Value { return MoneyOf(t.Supplies) }},
}

func monthColumns(by string) []Column {
	list := []Column{{Key: by, Title: by}}
	for _, f := range monthFigures {
		list = append(list, f.Column)
	}
	return list
}

func monthCells(first Value, t *figures.Tally) []Value {
	cells := []Value{first}
	for _, f := range monthFigures {
		cells = append(cells, f.of(t))
	}
	return cells
}

func monthTable(by string, rows []figures.Stretch, whole *figures.Stretch) *Table {
	t := &Table{Columns: monthColumns(by)}
	for i := range rows {
		t.Rows = append(t.Rows, Row{Cells: monthCells(periodOf(rows[i].Key), &rows[i].Tally)})
	}
	if len(rows) > 1 {
		t.Totals = []Row{{Cells: monthCells(TextOf("in all"), &whole.Tally)}}
	}
	return t
}

// monthObject is the figures of a period under the keys of the table.
func monthObject(s *figures.Stretch) Object {
	var o Object
	for _, f := range monthFigures {
		if f.Key != "" {
			o = append(o, Field{Key: f.Key, Title: f.Title, Node: f.of(&s.Tally)})
		}
	}
	return o
}

// stockObject shows what [figures.Month] has proved, for people who want to add it up.
func stockObject(say phrasing, s *figures.Stretch) Object {
	figure := func(key, title string, m exact.Money) Field { return Field{Key: key, Title: title, Node: MoneyOf(m)} }
	return Object{
		figure("opening", "in store before "+say.day(s.From), s.Opening),
		figure("put_by", "and put by", s.PutBy),
		figure("used", "less used", s.Out[ledger.Used]),
		figure("given", "less given", s.Out[ledger.Given]),
		figure("spoiled", "less spoiled", s.Out[ledger.Spoiled]),
		figure("missing", "less missing", s.Out[ledger.Missing]),
		figure("closing", "in store after "+say.day(s.To), s.Closing),
		{Key: "balanced", Title: "agrees with the count of packs", Node: YesNoOf(true)},
	}
}

// toComeField says what is still to come from what is in store.
func toComeField(g *ledger.Ledger, a figures.Ahead) Field {
	return Field{Key: "to_come", Title: "Still to come, from the packs in store on " + phrasingOf(&g.Settings).day(g.AsOf), Node: Object{
		{Key: "as_of", Node: DateOf(g.AsOf)},
		{Key: "in_store", Title: "they cost", Node: MoneyOf(a.Cost)},
		{Key: "shelf_value", Title: "the shelf asks", Node: MoneyQuotient(a.Value)},
		{Key: "saved", Title: "saved once they are used", Node: MoneyQuotient(a.Saving)},
	}}
}

// monthInWords says the whole in a sentence.
func (p phrasing) monthInWords(m *figures.MonthResult) string {
	whole := &m.Whole
	when := "In " + p.period(m.From)
	if m.From != m.To {
		when = "From " + p.period(m.From) + " to " + p.period(m.To)
	}
	return fmt.Sprintf("%s, %s was spent, electricity of the runs included. %s.%s",
		when, p.sum(MoneyOf(whole.Spent.Total())), p.savedAndNet(&whole.Tally), p.suppliesGone(&whole.Tally))
}

// savedAndNet says what was used from packs, what that saved and what is left of
// it; the first sum with its currency.
func (p phrasing) savedAndNet(t *figures.Tally) string {
	used, net := t.Out[ledger.Used], p.money
	words := "Nothing was used from packs"
	if !used.IsZero() || !t.Saved.IsZero() {
		words, net = "What was used from packs cost "+p.money(used.Ratio())+", "+p.besideShelf(t.Saved), p.figure
	}
	words += "; with all that was lost, spoiled or missing taken off, "
	switch left := t.Net(); left.Sign() {
	case -1:
		return words + net(left.Neg()) + " is the net loss"
	case 0:
		return words + "the net is nothing"
	default:
		return words + net(left) + " is the net"
	}
}

// besideShelf says what was saved against the shelf, where the currency has been
// said.
func (p phrasing) besideShelf(saved exact.Ratio) string {
	switch saved.Sign() {
	case -1:
		return p.figure(saved.Neg()) + " more than the shelf asked on the day"
	case 0:
		return "as much as the shelf asked on the day"
	}
	return p.figure(saved) + " less than the shelf asked on the day"
}

// suppliesGone says what supplies cost that left outright: the net knows only
// those that are in the cost of packs.
func (p phrasing) suppliesGone(t *figures.Tally) string {
	if t.Supplies.IsZero() {
		return ""
	}
	return fmt.Sprintf(" Jars and other supplies that broke, were given away or were missing in a count still cost %s, which the net leaves out.", p.money(t.Supplies.Ratio()))
}
