package page

import (
	"fmt"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// monthsMost is how many months the charts show; the table has all.
const monthsMost = 24

// months is the part about money out and savings, month by month.
func months(r Reports) (s section, err error) {
	s = section{ID: "months", Title: "Month by month"}
	rows := r.Month.Figures.Rows
	if len(rows) == 0 {
		return s, nil
	}
	t := tellerOf(r.Month.Doc)
	table, err := tables(r.Month.Doc, "month", "rows")
	if err != nil {
		return s, err
	}
	spent := figure{ID: "spent", Title: "Money out", Key: keyOf(spentParts),
		Lead: "Running money in " + t.currency.Code() + ", the electricity of the runs included. The machine itself stands in the table below, and under what it has earned back."}
	out, in := stacksOf(rows, spentParts), stacksOf(rows, savedParts)
	axes := axesOf(out, in)
	spent.drawColumns(t, out, axes[0])
	spent.About = aboutColumns(t, out, "Stacked columns of money out by month")
	saved := figure{ID: "saved", Title: "Saved, and lost", Key: keyOf(savedParts),
		Lead: "Above the line, what was used from packs cost less than the shelf asked on the day. Below it, in the other colour, food that cost more, and what was lost, spoiled or went missing."}
	saved.drawColumns(t, in, axes[1])
	saved.About = aboutColumns(t, in, "Columns of savings above and losses below a line, by month")
	s.Figures, s.Wide, s.Tables = []figure{spent, saved}, "two", table
	return s, nil
}

// A partOf says which figure of something a part of a stack or bar is.
type partOf[F any] struct {
	class, name string
	less        bool // it counts downwards
	of          func(*F) report.Value
}

// spentOn is the money out of one kind.
func spentOn(kind figures.Spending) func(*figures.Tally) report.Value {
	return func(t *figures.Tally) report.Value { return report.MoneyOf(t.Spent[kind]) }
}

var spentParts = []partOf[figures.Tally]{
	{class: "food", name: "food", of: spentOn(figures.FoodSpent)},
	{class: "power", name: "electricity", of: spentOn(figures.ElectricitySpent)},
	{class: "supplies", name: "supplies", of: spentOn(figures.SuppliesSpent)},
	{class: "services", name: "services", of: spentOn(figures.ServicesSpent)},
	{class: "other", name: "other", of: spentOn(figures.OtherSpent)},
}

var savedParts = []partOf[figures.Tally]{
	{class: "saved", name: "saved", of: func(t *figures.Tally) report.Value { return report.MoneyQuotient(t.Saved) }},
	{class: "lost", name: "lost, spoiled, missing", less: true, of: func(t *figures.Tally) report.Value { return report.MoneyOf(t.Lost) }},
	{class: "lost", name: "spoiled in store", less: true, of: func(t *figures.Tally) report.Value { return report.MoneyOf(t.Out[ledger.Spoiled]) }},
	{class: "lost", name: "missing", less: true, of: func(t *figures.Tally) report.Value { return report.MoneyOf(t.Out[ledger.Missing]) }},
	{class: "lost", name: "fresh food spoiled", less: true, of: func(t *figures.Tally) report.Value { return report.MoneyOf(t.FreshSpoiled()) }},
}

// keyOf names each filling once.
func keyOf[F any](parts []partOf[F]) (key []keyEntry) {
	seen := map[string]bool{}
	for _, p := range parts {
		if !seen[p.class] {
			seen[p.class] = true
			key = append(key, keyEntry{Class: p.class, Name: p.name})
		}
	}
	return key
}

// stacksOf turns the newest months into columns.
func stacksOf(rows []figures.Stretch, parts []partOf[figures.Tally]) (stacks []stack) {
	for _, row := range rows[max(0, len(rows)-monthsMost):] {
		s := stack{month: row.From}
		for _, p := range parts {
			s.parts = append(s.parts, part{p.class, p.name, p.of(&row.Tally), p.less})
		}
		stacks = append(stacks, s)
	}
	return stacks
}

// aboutColumns says what there is to see.
func aboutColumns(t valueText, stacks []stack, what string) string {
	if len(stacks) == 0 {
		return what + "."
	}
	about := fmt.Sprintf("%s, from %s to %s.", what, monthName(stacks[0].month), monthName(stacks[len(stacks)-1].month))
	best, at := exact.Ratio{}, -1
	for i, s := range stacks {
		up, _ := s.reach()
		if at < 0 || up.Cmp(best) > 0 {
			best, at = up, i
		}
	}
	if best.Sign() == 0 { // there are losses alone
		return about
	}
	return about + fmt.Sprintf(" The highest is %s with %s.", monthName(stacks[at].month), t.money(report.MoneyQuotient(best)))
}
