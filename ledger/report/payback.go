package report

import (
	"fmt"
	"slices"

	"putby/ledger"
	"putby/ledger/figures"
)

// Payback reports what the machines have earned back so far; see
// [figures.Payback]. The error is one of a query, or
// [figures.ErrUnbalanced].
func Payback(g *ledger.Ledger, q figures.PaybackQuery) (Doc, error) {
	return laid(g, q, figures.Payback, PaybackDoc)
}

// PaybackDoc lays out what the machines have earned back.
func PaybackDoc(g *ledger.Ledger, _ figures.PaybackQuery, r *figures.PaybackResult) Doc {
	p := payback{reportingOn(g), r}
	d := newDoc(g, "What "+p.either(p.subject()+" has", "the machines have")+" earned back"+ofFood(g, r.Food))
	d.Share = paybackShare(r)
	if r.Outlay.Machines == 0 {
		d.Words = []string{"No receipt has " + p.wanted() + p.dated(" by ", r.AsOf, "", "") + ", so there is nothing to earn back."}
		d.Fields = []Field{field("rows", "By month", &Table{Columns: paybackColumns, Empty: "Nothing to earn back."})}
		return d
	}
	d.Words = []string{p.inWords()}
	d.Fields = p.fields()
	var notes noteList
	notes.addFigures(g, r.Notes)
	notes.add(p.remarks()...)
	d.Notes, d.Cautions = notes, cautions(g, func(f int) bool {
		return slices.ContainsFunc(r.Foods, func(s figures.FoodEarning) bool { return s.Food == f })
	})
	return d
}

// payback is being laid out.
type payback struct {
	reporting
	*figures.PaybackResult
}

var paybackColumns = []Column{
	{Key: "month", Title: "month"}, {Key: "net", Title: "net", Rank: 1}, {Key: "wear", Title: "wear added back", Rank: 1},
	{Key: "earned", Title: "earned", Bar: true}, {Key: "so_far", Title: "so far"}, {Key: "left", Title: "left"},
	{Key: NotesKey, Title: "notes"},
}

func (p *payback) fields() []Field {
	o := p.Outlay
	fields := []Field{
		{Key: "machine", Title: "To earn back", Node: Object{
			{Key: "price", Title: "price", Node: MoneyOf(o.Price)},
			{Key: "repairs", Title: "and repairs", Node: MoneyOf(o.Repairs)},
			{Key: "residual", Title: "less residual", Node: MoneyOf(o.Residual)},
			{Key: "target", Title: "to earn back", Node: MoneyOf(o.Target())},
			{Key: "earned", Title: "earned by " + p.day(p.AsOf), Node: MoneyQuotient(p.Earned())},
			{Key: "percent", Title: "that is, %", Node: optPercent(p.Part())},
			{Key: "left", Title: "left", Node: MoneyQuotient(p.Left())},
		}},
		field("rows", "By month", p.table()),
		{Key: "curve", Title: "Earned back so far", Node: p.curve()},
		{Key: "pace", Title: "At this pace, an estimate", Node: p.pace()},
		field("sooner", "To be paid sooner, an estimate", p.sooner()),
		field("foods", "What a run earns, by food", p.foods()),
	}
	if len(p.ByMachine) > 0 {
		fields = slices.Insert(fields, 1, field("by_machine", "By machine", p.byMachine()))
	}
	return fields
}

func (p *payback) table() *Table {
	t := &Table{Columns: paybackColumns}
	for _, m := range p.Shown() {
		t.Rows = append(t.Rows, Row{Cells: []Value{
			periodOf(m.Key), MoneyQuotient(m.Net()), MoneyOf(m.Wear), MoneyQuotient(m.Earned), MoneyQuotient(m.SoFar), MoneyQuotient(m.Left),
		}, Notes: p.partly(&m)})
	}
	return t
}

// partly says which part of a month counts, where it is not all of it.
func (p *payback) partly(m *figures.Earning) (notes []string) {
	if m.Came {
		notes = append(notes, p.first()+" came on "+p.day(p.Outlay.Bought)+": part of a month, which the pace leaves out")
	}
	if m.Open {
		notes = append(notes, "up to "+p.day(p.AsOf)+": part of a month, which the pace leaves out")
	}
	return notes
}

// curve is what had been earned by the end of each month shown.
func (p *payback) curve() *Series {
	s := &Series{}
	for _, m := range p.Shown() {
		s.Points = append(s.Points, Point{m.To, MoneyQuotient(m.SoFar)})
	}
	return s
}

// remarks says what the figures rest on.
func (p *payback) remarks() (notes []string) {
	if p.Outlay.Machines > 1 {
		notes = append(notes, fmt.Sprintf("all %d machines together: what fresh food was lost belongs to none of them", p.Outlay.Machines))
	}
	if p.Machine >= 0 {
		notes = append(notes, "only what "+p.subject()+" dried earns here: what fresh food was lost belongs to no machine")
	}
	if p.Food >= 0 {
		notes = append(notes, "only "+p.title(p.Food)+" earns here; what there is to earn back is "+p.either("the whole machine", "all of the machines"))
	}
	if p.Pace.Known() {
		notes = append(notes, fmt.Sprintf("the pace is the mean of the last %d whole months; its range holds in 95 cases of 100 if the months to come are like those (Student's t), and seasons may move it further", p.Pace.Months))
	}
	return notes
}

// foods lists what a run of each food earns, the most first.
func (p *payback) foods() *Table {
	t := &Table{Columns: []Column{
		{Key: "item", Title: "food"}, {Key: "runs", Title: "runs", Rank: 3}, {Key: "whole_runs", Title: "as whole runs", Rank: 1}, {Key: "earned", Title: "earned once used", Rank: 1},
		{Key: "per_run", Title: "a whole run", Bar: true}, {Key: "runs_to_pay", Title: "runs of it that pay what is left", Rank: 2},
	}, Empty: "No run is packed yet."}
	for i := range p.Foods {
		s := &p.Foods[i]
		t.add(foodValue(&p.g.Foods[s.Food]), CountOf(s.Runs), QuotientOf(s.Whole, 2), MoneyQuotient(s.Earned), optMoney(s.PerRun()), guessed(s.RunsToPay, PlainOf))
	}
	return t
}
