package report

import (
	"putby/ledger/figures"
	"putby/pricing"
	"putby/pricing/exact"
)

// All in this file is an estimate: it takes what was for what will be.

const (
	paceMost  = 12  // whole months that the pace looks back on
	paceLeast = 3   // below which there is none
	mostYears = 100 // beyond which a day is not worth naming
)

// A pace is what is earned a month, and when that pays.
type pace struct {
	months   int         // whole months it is the mean of
	mean     exact.Ratio // a month
	low      exact.Ratio // of the mean, in 95 cases of 100
	high     exact.Ratio
	cycles   exact.Ratio    // a month
	paid     figures.Period // no key: not within mostYears
	earliest figures.Period
	latest   figures.Period
}

// findPace takes the mean of the last whole months since the machine came.
func (p *payback) findPace() {
	var earned []exact.Ratio
	runs := 0
	for i := len(p.months) - 1; i >= 0 && len(earned) < paceMost; i-- {
		m := &p.months[i]
		if m.To > p.g.AsOf {
			continue // not over yet
		}
		if m.From < p.outlay.bought {
			break
		}
		earned, runs = append(earned, m.earned), runs+m.Runs
	}
	p.pace.months = len(earned)
	if len(earned) < paceLeast {
		return
	}
	p.pace.mean, p.pace.cycles = figures.MeanOf(earned), wholeRatio(runs).Quo(wholeRatio(len(earned)))
	off, _ := figures.ErrorOf(earned)
	p.pace.low, p.pace.high = p.pace.mean.Sub(off), p.pace.mean.Add(off)
	p.pace.paid, p.pace.earliest, p.pace.latest = p.paidAt(p.left(), p.pace.mean), p.paidAt(p.left(), p.pace.high), p.paidAt(p.left(), p.pace.low)
}

// paidAt is the month in which an amount is earned at so much a month from the
// ledger's date on; it has no key when that is never, or not within mostYears.
func (p *payback) paidAt(left, perMonth exact.Ratio) figures.Period {
	months, err := pricing.Payback(left, perMonth)
	if err != nil {
		return figures.Period{}
	}
	n, fits := months.Ceil().Int64()
	if !fits || n > 12*mostYears {
		return figures.Period{}
	}
	return figures.MonthOf(p.g.AsOf.AddMonths(int(n)))
}

func (p *payback) paceObject() Object {
	if since, _ := p.paid(); since.Key != "" {
		return Object{{Key: "paid_in", Title: "paid in", Node: TextOf(since.Key)}}
	}
	if p.pace.months < paceLeast {
		return Object{
			{Key: "months", Title: "whole months since the machine came", Node: CountOf(p.pace.months)},
			{Key: "months_needed", Title: "that a pace takes", Node: CountOf(paceLeast)},
			{Key: "paid_in", Title: "paid in", Node: None},
		}
	}
	return Object{
		{Key: "months", Title: "whole months looked back on", Node: CountOf(p.pace.months)},
		{Key: "per_month", Title: "earned a month", Node: MoneyQuotient(p.pace.mean).Estimated()},
		{Key: "low", Title: "as low as", Node: MoneyQuotient(p.pace.low).Estimated()},
		{Key: "high", Title: "as high as", Node: MoneyQuotient(p.pace.high).Estimated()},
		{Key: "cycles_a_month", Title: "cycles a month", Node: QuotientOf(p.pace.cycles, 1)},
		{Key: "paid_in", Title: "paid in", Node: textOrNone(p.pace.paid.Key).Estimated()},
		{Key: "earliest", Title: "as early as", Node: textOrNone(p.pace.earliest.Key).Estimated()},
		{Key: "latest", Title: "as late as", Node: textOrNone(p.pace.latest.Key).Estimated()},
	}
}

// soonerTable says when it is paid if more is done, and what it takes to be
// paid by a day.
func (p *payback) soonerTable(notes *doubts) *Table {
	t := &Table{Columns: []Column{
		{Key: "step", Title: "what is done"}, {Key: "once", Title: "earned at once", Rank: 2}, {Key: "per_month", Title: "a month"},
		{Key: "cycles_a_month", Title: "cycles a month", Rank: 1}, {Key: "paid_in", Title: "paid in"},
	}, Empty: "It is paid for."}
	if p.left().Sign() <= 0 {
		return t
	}
	if p.pace.months < paceLeast {
		t.Empty = p.tooFew()
		return t
	}
	add := func(step string, once, perMonth exact.Ratio, cycles Value) {
		row := Row{Cells: []Value{
			TextOf(step), MoneyQuotient(once).Estimated(), MoneyQuotient(perMonth).Estimated(), cycles,
			textOrNone(p.paidAt(p.left().Sub(once), perMonth).Key).Estimated(),
		}}
		if most, ok := p.mostCycles().Get(); ok && cycles.Ratio().Cmp(most) > 0 {
			row.Notes = []string{"more cycles than fit a month, back to back"}
		}
		t.Rows = append(t.Rows, row)
	}
	add("as now", exact.Ratio{}, p.pace.mean, QuotientOf(p.pace.cycles, 1))
	var unpriced figures.Notes
	store := figures.ToCome(p.g, p.food, p.g.AsOf, &unpriced)
	notes.addFigures(p.g, unpriced)
	add("and use up the store", store.Saving.Add(store.Wear.Ratio()), p.pace.mean, QuotientOf(p.pace.cycles, 1))
	p.moreCycles(add, notes)
	return t
}

// moreCycles adds what more cycles would do, each as good as the average one.
func (p *payback) moreCycles(add func(string, exact.Ratio, exact.Ratio, Value), notes *doubts) {
	earns, ok := p.run.Get()
	switch {
	case !ok:
		return
	case earns.Sign() <= 0:
		notes.add("an average run earns nothing: more of the same do not pay sooner, other foods may")
		return
	}
	for i, step := range []string{"1 more cycle a month", "2 more cycles a month", "4 more cycles a month"} {
		more := wholeRatio(1 << i)
		add(step, exact.Ratio{}, p.pace.mean.Add(earns.Mul(more)), QuotientOf(p.pace.cycles.Add(more), 1))
	}
	for _, years := range []int{1, 2, 5} {
		needed := p.left().Quo(wholeRatio(12 * years))
		if needed.Cmp(p.pace.mean) <= 0 {
			continue // it is sooner than that already
		}
		cycles := p.pace.cycles.Add(needed.Sub(p.pace.mean).Quo(earns))
		add("to pay in "+counted(years, "year"), exact.Ratio{}, needed, QuotientOf(cycles, 1).Estimated())
	}
}

// mostCycles is how many cycles of the usual length fit a month on all machines
// together.
func (p *payback) mostCycles() (most exact.Opt[exact.Ratio]) {
	var lengths []exact.Ratio
	for i := range p.g.Runs {
		if length, ok := p.g.Runs[i].Length.Get(); ok && p.g.Runs[i].Done && length > 0 && !p.g.Records.Runs[i].Running {
			lengths = append(lengths, SpanOf(length).Ratio())
		}
	}
	if len(lengths) == 0 {
		return most
	}
	const hours = 365 * 24 / 12 // of a month
	return exact.Some(wholeRatio(hours * p.outlay.machines).Quo(figures.MeanOf(lengths)))
}

func wholeRatio(n int) exact.Ratio { return exact.RatioOf(exact.Int(int64(n))) }
