package report

import (
	"fmt"
	"slices"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// A PaybackQuery is what the payback report is asked. From and To say which
// months are shown; what has been earned counts from the first record.
type PaybackQuery struct{ figures.Query }

// Payback reports what the machines have earned back so far, month by month,
// at what pace, when at that pace they are paid for, and what would make it
// sooner. Earned is what was saved net of
// all that came to nothing, with the wear inside it added back, since the wear
// is the machine's own price. The ledger must be joined through the query's
// AsOf. The error is a [*QueryError], or [figures.ErrUnbalanced].
func Payback(g *ledger.Ledger, q PaybackQuery) (Doc, error) {
	scope, err := q.In(g)
	if err != nil {
		return Doc{}, asked(g, err)
	}
	d := newDoc(g, "What the machine has earned back"+ofFood(g, scope.Food))
	outlay := outlayOf(g)
	asks := q.Query
	if asks.To == exact.NoDate && outlay.bought != exact.LastDate {
		asks.To = max(g.AsOf, q.From) // a month without records earned nothing, and counts
	}
	c, err := figures.NewCalendar(g, asks, scope.Food, figures.EachMonth)
	if err != nil {
		return Doc{}, asked(g, err)
	}
	if c == nil || outlay.bought == exact.LastDate {
		d.Words = []string{"No receipt has a machine" + dated(" by ", g.AsOf, "", "") + ", so there is nothing to earn back."}
		d.Fields = []Field{field("rows", "By month", &Table{Columns: paybackColumns, Empty: "Nothing to earn back."})}
		return d, nil
	}
	p := payback{Calendar: c, g: g, food: scope.Food, outlay: outlay, target: outlay.target()}
	months, recorded := c.All()
	p.addUp(months)
	p.findPace()
	var notes doubts
	notes.addFigures(g, recorded) // about all months, since all of them count
	p.addSources(&notes)
	d.Words = []string{p.inWords(phrasing{d.Currency, d.Show})}
	d.Fields = p.fields(&notes)
	notes.add(p.remarks(q)...)
	d.Notes = append(notes, cautions(g, func(f int) bool {
		return slices.ContainsFunc(p.foods, func(s source) bool { return s.food == f })
	})...)
	return d, nil
}

// An outlay is what the machines cost by the ledger's date.
type outlay struct {
	price    exact.Money
	repairs  exact.Money // that are in the wear of later cycles
	residual exact.Money
	bought   exact.Date // the first one; LastDate where there is none
	machines int
}

// target is what there is to earn back.
func (o outlay) target() exact.Money { return o.price.Add(o.repairs).Sub(o.residual) }

func outlayOf(g *ledger.Ledger) outlay {
	o := outlay{bought: exact.LastDate}
	for i := range g.Machines {
		for _, at := range g.MachineStock(i).Lots() {
			lot := &g.Lots[at]
			price := g.Spends[lot.Row].Cost
			o.price, o.residual = o.price.Add(price), o.residual.Add(lot.Residual)
			o.repairs = o.repairs.Add(lot.Cost.Sub(price))
			o.bought = min(o.bought, lot.Date)
			o.machines++
		}
	}
	return o
}

// payback is the report in the making.
type payback struct {
	*figures.Calendar
	g      *ledger.Ledger
	food   int // -1: all
	outlay outlay
	target exact.Money
	months []earning // all, whatever is shown
	pace   pace
	foods  []source
	run    exact.Opt[exact.Ratio] // what a run earns on average
}

// An earning is what a month earned, and all up to it.
type earning struct {
	figures.Stretch
	earned exact.Ratio
	soFar  exact.Ratio
}

func (p *payback) addUp(months []figures.Stretch) {
	var sum exact.Ratio
	for _, m := range months {
		e := earning{Stretch: m, earned: m.Net().Add(m.Wear.Ratio())}
		sum = sum.Add(e.earned)
		e.soFar = sum
		p.months = append(p.months, e)
	}
}

// earned is what has been earned back by the ledger's date.
func (p *payback) earned() exact.Ratio { return p.months[len(p.months)-1].soFar }

// left is what is not earned back yet; 0 or less when it is paid.
func (p *payback) left() exact.Ratio { return p.target.Ratio().Sub(p.earned()) }

// paid returns the month since which it is paid for, without a key where it is
// not, and the last month in which it was: what is lost later may bring it back
// below what it cost.
func (p *payback) paid() (since, until figures.Period) {
	for _, m := range p.months {
		switch {
		case m.To < p.outlay.bought || m.soFar.Cmp(p.target.Ratio()) < 0:
			since = figures.Period{}
		case since.Key == "":
			since, until = m.Period, m.Period
		default:
			until = m.Period
		}
	}
	return since, until
}

var paybackColumns = []Column{
	{Key: "month", Title: "month"}, {Key: "net", Title: "net", Rank: 1}, {Key: "wear", Title: "wear added back", Rank: 1},
	{Key: "earned", Title: "earned", Bar: true}, {Key: "so_far", Title: "so far"}, {Key: "left", Title: "left"},
	{Key: NotesKey, Title: "notes"},
}

func (p *payback) fields(notes *doubts) []Field {
	o := p.outlay
	percent := None
	if p.target.Sign() > 0 {
		percent = QuotientOf(p.earned().Times(exact.Int(100)).Quo(p.target.Ratio()), 1)
	}
	return []Field{
		{Key: "machine", Title: "To earn back", Node: Object{
			{Key: "price", Title: "price", Node: MoneyOf(o.price)},
			{Key: "repairs", Title: "and repairs", Node: MoneyOf(o.repairs)},
			{Key: "residual", Title: "less residual", Node: MoneyOf(o.residual)},
			{Key: "target", Title: "to earn back", Node: MoneyOf(p.target)},
			{Key: "earned", Title: "earned by " + p.g.AsOf.String(), Node: MoneyQuotient(p.earned())},
			{Key: "percent", Title: "that is, %", Node: percent},
			{Key: "left", Title: "left", Node: MoneyQuotient(p.left())},
		}},
		field("rows", "By month", p.table()),
		{Key: "curve", Title: "Earned back so far", Node: p.curve()},
		{Key: "pace", Title: "At this pace, an estimate", Node: p.paceObject()},
		field("sooner", "To be paid sooner, an estimate", p.soonerTable(notes)),
		field("foods", "What a cycle earns, by food", p.foodTable()),
	}
}

func (p *payback) table() *Table {
	t := &Table{Columns: paybackColumns}
	target := p.target.Ratio()
	for _, m := range p.months[p.First : p.Last+1] {
		t.Rows = append(t.Rows, Row{Cells: []Value{
			TextOf(m.Key), MoneyQuotient(m.Net()), MoneyOf(m.Wear), MoneyQuotient(m.earned), MoneyQuotient(m.soFar), MoneyQuotient(target.Sub(m.soFar)),
		}, Notes: p.partly(m.Period)})
	}
	return t
}

// partly says which part of a month counts, where it is not all of it.
func (p *payback) partly(m figures.Period) (notes []string) {
	if m.From < p.outlay.bought && p.outlay.bought <= m.To {
		notes = append(notes, "the machine came on "+p.outlay.bought.String()+": part of a month, which the pace leaves out")
	}
	if m.From <= p.g.AsOf && p.g.AsOf < m.To {
		notes = append(notes, "up to "+p.g.AsOf.String()+": part of a month, which the pace leaves out")
	}
	return notes
}

// curve is what had been earned by the end of each month shown.
func (p *payback) curve() *Series {
	s := &Series{}
	for _, m := range p.months[p.First : p.Last+1] {
		s.Points = append(s.Points, Point{m.To, MoneyQuotient(m.soFar)})
	}
	return s
}

// remarks says what the figures rest on.
func (p *payback) remarks(q PaybackQuery) (notes []string) {
	if p.outlay.machines > 1 {
		notes = append(notes, fmt.Sprintf("all %d machines together: what fresh food was lost belongs to none of them", p.outlay.machines))
	}
	if q.Item != "" {
		notes = append(notes, "only "+p.g.Foods[p.food].Title()+" earns here; what there is to earn back is the whole machine")
	}
	if p.pace.months >= paceLeast {
		notes = append(notes, fmt.Sprintf("the pace is the mean of the last %d whole months; its range holds in 95 cases of 100 if the months to come are like those (Student's t), and seasons may move it further", p.pace.months))
	}
	return notes
}
