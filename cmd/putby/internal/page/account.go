package page

import (
	"putby/ledger"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// An account is what stands at the top of the page: what was saved, and what
// was lost of it, to the net.
type account struct {
	Net   figureOf
	Words []string
	Lines []line
}

// A figureOf is a figure as people read it, with all its digits beside.
type figureOf struct{ Text, Exact string }

// A line is a line of an account.
type line struct {
	Name  string
	Class string // "sum" below a sum, "after" at a new group
	figureOf
}

func (t valueText) figure(v report.Value) figureOf { return figureOf{t.short(v), t.whole(v)} }

// newAccount takes the account from the month report. Nothing is said of a
// ledger that has nothing to sum.
func newAccount(r Reports) account {
	t, whole, ahead := tellerOf(r.Month.Doc), &r.Month.Figures.Whole.Tally, &r.Month.Figures.Ahead
	a := account{Words: r.Month.Words}
	if r.Month.Figures.Rows == nil {
		a.Net = t.figure(report.None)
		return a
	}
	add := func(name, class string, v report.Value) { a.Lines = append(a.Lines, line{name, class, t.figure(v)}) }
	a.Net = t.figure(report.MoneyQuotient(whole.Net()))
	add("saved on what was used", "", report.MoneyQuotient(whole.Saved))
	// The parts of [figures.Tally.Gone], so that the lines come to the net below them.
	for _, less := range []struct {
		name string
		sum  exact.Money
	}{
		{"less what was lost in drying", whole.Lost}, {"less what spoiled in store", whole.Out[ledger.Spoiled]},
		{"less what went missing", whole.Out[ledger.Missing]}, {"less fresh food that spoiled", whole.FreshSpoiled()},
	} {
		if !less.sum.IsZero() {
			add(less.name, "", report.MoneyOf(less.sum))
		}
	}
	add("net", "sum", report.MoneyQuotient(whole.Net()))
	add("packs in store cost", "after", report.MoneyOf(ahead.Cost))
	add("the shelf asks for them", "", report.MoneyQuotient(ahead.Value))
	add("saved once they are used", "", report.MoneyQuotient(ahead.Saving))
	return a
}
