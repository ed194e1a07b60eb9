package page

import (
	"fmt"

	"putby/ledger/report"
	"putby/pricing/exact"
)

// monthsMost is how many months the charts show; the table has all.
const monthsMost = 24

// months is the part about money out and savings, month by month.
func months(r Reports) (s section, err error) {
	s = section{ID: "months", Title: "Month by month"}
	rows := read(r.Month, "rows")
	if len(rows.Rows) == 0 {
		return s, nil
	}
	t := tellerOf(r.Month)
	table, err := tables(r.Month, "rows")
	if err != nil {
		return s, err
	}
	spent := figure{ID: "spent", Title: "Money out", Key: keyOf(spentParts),
		Lead: "Running money in " + t.currency.Code() + ", the electricity of the runs included. The machine itself stands in the table below, and under what it has earned back."}
	stacks := rows.stacks(spentParts)
	spent.drawColumns(t, stacks)
	spent.About = aboutColumns(t, stacks, "Stacked columns of money out by month")
	saved := figure{ID: "saved", Title: "Saved, and lost", Key: keyOf(savedParts),
		Lead: "Above the line, what was used from packs cost less than the shelf asked on the day. Below it, what was lost, spoiled or went missing."}
	stacks = rows.stacks(savedParts)
	saved.drawColumns(t, stacks)
	saved.About = aboutColumns(t, stacks, "Columns of savings above and losses below a line, by month")
	s.Figures, s.Wide, s.Tables = []figure{spent, saved}, "two", table
	return s, nil
}

// A partOf says which column of a report a part of a stack or bar is.
type partOf struct {
	key, class, name string
	less             bool // it counts downwards
}

var spentParts = []partOf{
	{key: "food_spent", class: "food", name: "food"},
	{key: "electricity", class: "power", name: "electricity"},
	{key: "supplies_spent", class: "supplies", name: "supplies"},
	{key: "services_spent", class: "services", name: "services"},
	{key: "other_spent", class: "other", name: "other"},
}

var savedParts = []partOf{
	{key: "saved", class: "saved", name: "saved"},
	{key: "lost", class: "lost", name: "lost, spoiled, missing", less: true},
	{key: "spoiled", class: "lost", name: "spoiled in store", less: true},
	{key: "missing", class: "lost", name: "missing", less: true},
	{key: "fresh_spoiled", class: "lost", name: "fresh food spoiled", less: true},
}

// keyOf names each filling once.
func keyOf(parts []partOf) (key []keyEntry) {
	seen := map[string]bool{}
	for _, p := range parts {
		if !seen[p.class] {
			seen[p.class] = true
			key = append(key, keyEntry{Class: p.class, Name: p.name})
		}
	}
	return key
}

// stacks turns the newest rows into columns.
func (r reader) stacks(parts []partOf) (stacks []stack) {
	for _, row := range r.Rows[max(0, len(r.Rows)-monthsMost):] {
		month, err := exact.ParseDate(r.cell(row, "month").Text() + "-01")
		if err != nil {
			continue
		}
		s := stack{month: month}
		for _, p := range parts {
			s.parts = append(s.parts, part{p.class, p.name, r.cell(row, p.key), p.less})
		}
		stacks = append(stacks, s)
	}
	return stacks
}

// aboutColumns says what there is to see.
func aboutColumns(t teller, stacks []stack, what string) string {
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
	return about + fmt.Sprintf(" The highest is %s with %s %s.", monthName(stacks[at].month), t.short(report.MoneyQuotient(best)), t.currency.Code())
}
