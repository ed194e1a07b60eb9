package report

import (
	"fmt"

	"putby/ledger/figures"
)

// All in this file tells of estimates.

func (p *payback) pace() Object {
	pace := &p.Pace
	if p.Since.Key != "" {
		return Object{{Key: "paid_in", Title: "paid in", Node: periodOf(p.Since.Key)}}
	}
	if !pace.Known() {
		return Object{
			{Key: "months", Title: "whole months since " + p.first() + " came", Node: CountOf(pace.Months)},
			{Key: "months_needed", Title: "that a pace takes", Node: CountOf(figures.PaceLeast)},
			{Key: "paid_in", Title: "paid in", Node: None},
		}
	}
	return Object{
		{Key: "months", Title: "whole months looked back on", Node: CountOf(pace.Months)},
		{Key: "per_month", Title: "earned a month", Node: MoneyQuotient(pace.Mean).Estimated()},
		{Key: "low", Title: "as low as", Node: MoneyQuotient(pace.Low).Estimated()},
		{Key: "high", Title: "as high as", Node: MoneyQuotient(pace.High).Estimated()},
		{Key: "cycles_a_month", Title: "runs a month", Node: QuotientOf(pace.Cycles, 1)},
		{Key: "paid_in", Title: "paid in", Node: periodOf(pace.Paid.Key).Estimated()},
		{Key: "earliest", Title: "as early as", Node: periodOf(pace.Earliest.Key).Estimated()},
		{Key: "latest", Title: "as late as", Node: periodOf(pace.Latest.Key).Estimated()},
	}
}

// sooner says when it is paid if more is done, and what it takes to be paid by a
// day.
func (p *payback) sooner() *Table {
	t := &Table{Columns: []Column{
		{Key: "step", Title: "what is done"}, {Key: "once", Title: "earned at once", Rank: 2}, {Key: "per_month", Title: "a month"},
		{Key: "cycles_a_month", Title: "runs a month", Rank: 1}, {Key: "paid_in", Title: "paid in"},
	}, Empty: p.either("It is paid for.", "They are paid for.")}
	if p.Left().Sign() > 0 && !p.Pace.Known() {
		t.Empty = p.tooFew()
	}
	for i := range p.Sooner {
		s := &p.Sooner[i]
		cycles := QuotientOf(s.Cycles, 1)
		if s.What == figures.PayIn {
			cycles = cycles.Estimated()
		}
		row := Row{Cells: []Value{
			TextOf(stepWords(s)), MoneyQuotient(s.Once).Estimated(), MoneyQuotient(s.PerMonth).Estimated(), cycles, periodOf(s.Paid.Key).Estimated(),
		}}
		if s.TooMany {
			row.Notes = []string{"more runs than fit a month, back to back"}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// stepWords says what is done.
func stepWords(s *figures.Step) string {
	switch s.What {
	case figures.UseStore:
		return "and use up the store"
	case figures.MoreCycles:
		return fmt.Sprint(s.N, " more ", plural(s.N, "run"), " a month")
	case figures.PayIn:
		return "to pay in " + counted(s.N, "year")
	}
	return "as now"
}
