package report

import (
	"fmt"
	"slices"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// A MonthQuery is what the month report is asked. From and To stand for the
// whole months (with weeks: weeks) that they fall in.
type MonthQuery struct {
	figures.Query
	Each    Each
	Budgets map[string]exact.Money // per month by kind of spending, beside those of the settings
}

// Month reports what was spent, put by, used, lost and saved, period by period,
// and that the packs in store come out: opening and what was put by, less all
// that left, is what is in store. The ledger must be joined through the query's AsOf. The error is a [*QueryError],
// or [figures.ErrUnbalanced].
func Month(g *ledger.Ledger, q MonthQuery) (Doc, error) {
	scope, err := q.In(g)
	if err != nil {
		return Doc{}, asked(g, err)
	}
	budgets, err := q.budgets(g)
	if err != nil {
		return Doc{}, err
	}
	c, err := newCalendar(g, q.Query, scope.Food, q.Each)
	if err != nil {
		return Doc{}, err
	}
	d := newDoc(g, monthTitle(q)+ofFood(g, scope.Food))
	if c == nil {
		d.Fields = []Field{field("rows", "By "+q.Each.String(), &Table{Columns: monthColumns(q.Each), Empty: "Nothing that moves money is recorded."})}
		return d, nil
	}
	var notes doubts
	switch q.Each {
	case EachShop:
		d.Fields, notes = []Field{field("rows", "By shop", shopTable(c))}, c.spendingDoubts()
	case EachKind:
		d.Fields, notes = []Field{field("rows", "By kind", kindTable(c, budgets))}, c.spendingDoubts()
	default:
		d.Fields, notes = c.monthFields(budgets), c.doubts()
		d.Fields = append(d.Fields, toComeField(g, c.food, &notes))
		d.Words = []string{c.inWords(g.Settings.Currency, d.Show)}
	}
	notes.add(itemNotes(g, scope.Food)...)
	d.Notes = append(notes, cautions(g, func(f int) bool { return f == c.food })...)
	return d, nil
}

func monthTitle(q MonthQuery) string {
	title := "Spent, put by and saved, by " + q.Each.String()
	if q.Each >= EachShop {
		title = "Spent, by " + q.Each.String()
	}
	return title
}

// itemNotes says what the figures of one food leave out.
func itemNotes(g *ledger.Ledger, food int) []string {
	if food < 0 {
		return nil
	}
	return []string{"only " + g.Foods[food].Title() + ": supplies, machines, services and other things are bought for no food alone, so they stand at nothing here; electricity is its share"}
}

// monthFields are the parts of a report by month, year or week.
func (c *calendar) monthFields(budgets [spendings]exact.Opt[exact.Money]) []Field {
	rows, whole := c.stretches(), c.whole()
	fields := []Field{
		field("rows", "By "+c.each.String(), monthTable(c.each, rows, &whole)),
		{Key: "totals", Node: append(Object{
			{Key: "from", Node: DateOf(whole.from)}, {Key: "to", Node: DateOf(whole.to)},
		}, monthObject(&whole)...)},
		{Key: "stock", Title: "Packs in store, at cost", Node: stockObject(&whole)},
	}
	fields = append(fields, c.comparison(rows[len(rows)-1])...)
	if t := budgetTable(rows[len(rows)-1], whole, budgets); t != nil {
		fields = append(fields, field("budget", "Budget", t))
	}
	return fields
}

// The figures of a period, in the order of the table.
var monthFigures = []struct {
	Column
	of func(*tally) Value
}{
	{Column{Key: "food_spent", Title: "food", Rank: 5, Spare: true}, func(t *tally) Value { return MoneyOf(t.spent[foodSpent]) }},
	{Column{Key: "supplies_spent", Title: "supplies", Rank: 6, Spare: true}, func(t *tally) Value { return MoneyOf(t.spent[suppliesSpent]) }},
	{Column{Key: "machines_spent", Title: "machines", Rank: 6, Spare: true}, func(t *tally) Value { return MoneyOf(t.spent[machinesSpent]) }},
	{Column{Key: "services_spent", Title: "services", Rank: 7, Spare: true}, func(t *tally) Value { return MoneyOf(t.spent[servicesSpent]) }},
	{Column{Key: "other_spent", Title: "other", Rank: 7, Spare: true}, func(t *tally) Value { return MoneyOf(t.spent[otherSpent]) }},
	{Column{Key: "electricity", Title: "power", Rank: 5, Spare: true}, func(t *tally) Value { return MoneyOf(t.spent[electricitySpent]) }},
	{Column{Title: "money out", Bar: true}, func(t *tally) Value { return MoneyOf(t.spent.total()) }},
	{Column{Key: "put_by", Title: "put by", Rank: 1}, func(t *tally) Value { return MoneyOf(t.putBy) }},
	{Column{Key: "used", Title: "used", Rank: 1}, func(t *tally) Value { return MoneyOf(t.out[ledger.Used]) }},
	{Column{Key: "given", Title: "given", Rank: 4, Spare: true}, func(t *tally) Value { return MoneyOf(t.out[ledger.Given]) }},
	{Column{Key: "spoiled", Title: "spoiled", Rank: 4, Spare: true}, func(t *tally) Value { return MoneyOf(t.out[ledger.Spoiled]) }},
	{Column{Key: "missing", Title: "missing", Rank: 4, Spare: true}, func(t *tally) Value { return MoneyOf(t.out[ledger.Missing]) }},
	{Column{Key: "lost", Title: "lost", Rank: 3, Spare: true}, func(t *tally) Value { return MoneyOf(t.lost) }},
	{Column{Key: "fresh_used", Title: "fresh used", Rank: 8, Spare: true}, func(t *tally) Value { return MoneyOf(t.fresh[ledger.Used]) }},
	{Column{Key: "fresh_given", Title: "fresh given", Rank: 8, Spare: true}, func(t *tally) Value { return MoneyOf(t.fresh[ledger.Given]) }},
	{Column{Key: "fresh_spoiled", Title: "fresh spoiled", Rank: 8, Spare: true}, func(t *tally) Value { return MoneyOf(t.freshSpoiled()) }},
	{Column{Key: "saved", Title: "saved", Bar: true}, func(t *tally) Value { return MoneyQuotient(t.saved) }},
	{Column{Key: "net", Title: "net", Bar: true}, func(t *tally) Value { return MoneyQuotient(t.net()) }},
	{Column{Key: "opening", Title: "opening", Rank: 6}, func(t *tally) Value { return MoneyOf(t.opening) }},
	{Column{Key: "closing", Title: "closing", Rank: 2}, func(t *tally) Value { return MoneyOf(t.closing) }},
	{Column{Key: "supplies_gone", Title: "supplies gone", Rank: 4, Spare: true}, func(t *tally) Value { return MoneyOf(t.supplies) }},
}

func monthColumns(each Each) []Column {
	list := []Column{{Key: each.String(), Title: each.String()}}
	for _, f := range monthFigures {
		list = append(list, f.Column)
	}
	return list
}

func monthCells(first Value, t *tally) []Value {
	cells := []Value{first}
	for _, f := range monthFigures {
		cells = append(cells, f.of(t))
	}
	return cells
}

func monthTable(each Each, rows []stretch, whole *stretch) *Table {
	t := &Table{Columns: monthColumns(each)}
	for i := range rows {
		t.Rows = append(t.Rows, Row{Cells: monthCells(TextOf(rows[i].key), &rows[i].tally)})
	}
	if len(rows) > 1 {
		t.Totals = []Row{{Cells: monthCells(TextOf("in all"), &whole.tally)}}
	}
	return t
}

// monthObject is the figures of a period under the keys of the table.
func monthObject(s *stretch) Object {
	var o Object
	for _, f := range monthFigures {
		if f.Key != "" {
			o = append(o, Field{Key: f.Key, Title: f.Title, Node: f.of(&s.tally)})
		}
	}
	return o
}

// stockObject shows what tallyUp has proved, for people who want to add it up.
func stockObject(s *stretch) Object {
	figure := func(key, title string, m exact.Money) Field { return Field{Key: key, Title: title, Node: MoneyOf(m)} }
	return Object{
		figure("opening", "in store before "+s.from.String(), s.opening),
		figure("put_by", "and put by", s.putBy),
		figure("used", "less used", s.out[ledger.Used]),
		figure("given", "less given", s.out[ledger.Given]),
		figure("spoiled", "less spoiled", s.out[ledger.Spoiled]),
		figure("missing", "less missing", s.out[ledger.Missing]),
		figure("closing", "in store after "+s.to.String(), s.closing),
		{Key: "balanced", Title: "counted pack by pack it is the same", Node: YesNoOf(true)},
	}
}

// toComeField says what is still to come from what is in store.
func toComeField(g *ledger.Ledger, food int, notes *doubts) Field {
	var unpriced figures.Notes
	a := figures.ToCome(g, food, g.AsOf, &unpriced)
	notes.addFigures(g, unpriced)
	return Field{Key: "to_come", Title: "Still to come, from the packs in store on " + g.AsOf.String(), Node: Object{
		{Key: "as_of", Node: DateOf(g.AsOf)},
		{Key: "in_store", Title: "they cost", Node: MoneyOf(a.Cost)},
		{Key: "shelf_value", Title: "the shelf asks", Node: MoneyQuotient(a.Value)},
		{Key: "saved", Title: "saved once they are used", Node: MoneyQuotient(a.Saving)},
	}}
}

// inWords says the whole in a sentence.
func (c *calendar) inWords(currency exact.Currency, show Show) string {
	whole := c.whole()
	say := func(v Value) string { return v.Shown(currency, show) }
	from, to := c.each.of(whole.from).key, c.each.of(whole.to).key
	when := "In " + from
	if from != to {
		when = "From " + from + " to " + to
	}
	return fmt.Sprintf("%s, %s was spent, electricity of the runs included. %s; with all that was lost, spoiled or missing taken off, %s.%s",
		when, say(MoneyOf(whole.spent.total())), savedInWords(&whole.tally, say), netInWords(whole.net(), say), suppliesInWords(&whole.tally, say))
}

// savedInWords says what was used from packs and what that saved.
func savedInWords(t *tally, say func(Value) string) string {
	used := t.out[ledger.Used]
	switch {
	case used.IsZero() && t.saved.IsZero():
		return "Nothing was used from packs"
	case t.saved.Sign() < 0:
		return fmt.Sprintf("What was used from packs cost %s, %s more than the shelf asked on the day", say(MoneyOf(used)), say(MoneyQuotient(t.saved.Neg())))
	case t.saved.IsZero():
		return fmt.Sprintf("What was used from packs cost %s, as much as the shelf asked on the day", say(MoneyOf(used)))
	}
	return fmt.Sprintf("What was used from packs cost %s, %s less than the shelf asked on the day", say(MoneyOf(used)), say(MoneyQuotient(t.saved)))
}

func netInWords(net exact.Ratio, say func(Value) string) string {
	switch net.Sign() {
	case -1:
		return say(MoneyQuotient(net.Neg())) + " is the net loss"
	case 0:
		return "the net is nothing"
	}
	return say(MoneyQuotient(net)) + " is the net"
}

// suppliesInWords says what supplies cost that left outright: the net knows
// only those that are in the cost of packs.
func suppliesInWords(t *tally, say func(Value) string) string {
	if t.supplies.IsZero() {
		return ""
	}
	return fmt.Sprintf(" Jars and other supplies that broke, were given away or were missing in a count still cost %s, which the net leaves out.", say(MoneyOf(t.supplies)))
}

// budgets returns the most to spend a month by kind: the query's, else the
// settings'.
func (q MonthQuery) budgets(g *ledger.Ledger) (list [spendings]exact.Opt[exact.Money], err error) {
	for _, from := range []map[string]exact.Money{g.Settings.Budgets, q.Budgets} {
		for kind, m := range from {
			i := slices.Index(spendingNames[:], kind)
			switch {
			case i < 0:
				return list, &QueryError{"budget", exact.Quote(kind) + " is no kind of spending", "food, supplies, machines, services, other or electricity"}
			case m.Sign() < 0:
				return list, &QueryError{"budget", kind + ": " + m.String() + " is below 0", ""}
			}
			list[i] = exact.Some(m)
		}
	}
	if q.Each == EachWeek && len(q.Budgets) > 0 {
		return list, &QueryError{"budget", "a budget is for a month, and the rows are weeks", "use --by month, year or kind"}
	}
	return list, nil
}
