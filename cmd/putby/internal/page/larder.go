package page

import (
	"cmp"
	"slices"

	"putby/ledger/report"
	"putby/pricing/exact"
)

// Due lists show what is due soon; where little is, they show at least some.
const (
	dueDays  = 60
	dueLeast = 6
)

// A dueList is a list of things with a last day.
type dueList struct {
	Title string
	Items []dueItem
	Empty string
}

// A dueItem is one of them.
type dueItem struct {
	What, Detail string
	When, Away   string // its day, and how far off that is
	Class        string // "past", "soon" or nothing
}

// larder is the part about what is in the house.
func larder(r Reports) (s section, err error) {
	s = section{ID: "larder", Title: "In the larder", Wide: "one"}
	foods := read(r.OnHand, "foods")
	t := tellerOf(r.OnHand)
	s.Lists = []dueList{duePacks(t, read(r.OnHand, "packs")), dueFresh(t, read(r.OnHand, "fresh_lots"))}
	if waiting := read(r.OnHand, "awaiting"); len(waiting.Rows) > 0 {
		s.Lists = append(s.Lists, awaiting(t, waiting))
	}
	if len(foods.Rows) > 0 {
		f := figure{ID: "store", Title: "Packs in store, in " + t.currency.Code(),
			Lead: "A bar is what the packs cost; the upright line is what the shop asks for as much."}
		bars := storeBars(t, foods)
		f.drawBars(t, bars)
		f.About = aboutStore(t, bars)
		s.Figures = []figure{f}
	}
	s.Tables, err = tables(r.OnHand, "packs", "fresh_lots", "running", "awaiting", "foods", "supplies", "machines")
	return s, err
}

// duePacks lists the packs soonest due: all that are due soon, and some more.
func duePacks(t teller, packs reader) dueList {
	l := dueList{Title: "Use first", Empty: "No pack is in store."}
	rows := slices.Clone(packs.Rows)
	slices.SortStableFunc(rows, func(a, b report.Row) int { return cmp.Compare(daysOf(packs, a), daysOf(packs, b)) })
	for i, row := range rows {
		days := daysOf(packs, row)
		if i >= dueLeast && days > dueDays {
			break
		}
		each := t.short(packs.cell(row, "each")) + " " + t.show.In(packs.cell(row, "each").Unit()).String()
		l.Items = append(l.Items, dueItem{
			What:   packs.word(row, "item"),
			Detail: packs.word(row, "pack") + ", " + packs.cell(row, "left").Number().String() + " × " + each,
			When:   dayOf(packs.cell(row, "best_by")), Away: awayOf(packs.cell(row, "days_left")), Class: dueClass(days),
		})
	}
	return l
}

// dueFresh lists the fresh food in hand.
func dueFresh(t teller, fresh reader) dueList {
	l := dueList{Title: "Fresh in hand, to dry or eat", Empty: "No fresh food is in hand."}
	for _, row := range fresh.Rows {
		if row.Minor {
			continue
		}
		detail := fresh.cell(row, "quantity").ShownWithUnit(t.currency, t.show)
		if fresh.word(row, "frozen") == "yes" {
			detail += ", frozen"
		}
		l.Items = append(l.Items, dueItem{
			What:   fresh.word(row, "item"),
			Detail: detail,
			When:   dayOf(fresh.cell(row, "use_by")), Away: awayOf(fresh.cell(row, "days_left")), Class: dueClass(daysOf(fresh, row)),
		})
	}
	return l
}

func awaiting(t teller, rows reader) dueList {
	l := dueList{Title: "Awaiting packing"}
	for _, row := range rows.Rows {
		l.Items = append(l.Items, dueItem{What: rows.word(row, "item"),
			Detail: rows.cell(row, "loaded").ShownWithUnit(t.currency, t.show) + " in run " + rows.word(row, "run"), When: "of " + rows.word(row, "date")})
	}
	return l
}

// unknownDays stands for a last day that nobody knows: it comes after all
// others.
const unknownDays = 1 << 30

func daysOf(r reader, row report.Row) int {
	v := r.cell(row, "days_left")
	if v.IsNull() {
		return unknownDays
	}
	n, _ := v.Number().Int64()
	return int(n)
}

func dueClass(days int) string {
	switch {
	case days < 0:
		return "past"
	case days <= dueDays:
		return "soon"
	}
	return ""
}

// dayOf writes a last day.
func dayOf(day report.Value) string {
	if day.IsNull() {
		return "no last day is known"
	}
	return day.Text()
}

// awayOf says how far off a last day is.
func awayOf(left report.Value) string {
	switch n := left.Number(); {
	case left.IsNull():
		return ""
	case n.IsZero():
		return "today"
	case n.Sign() < 0:
		return "past, " + dayCount(n.Neg()) + " ago"
	default:
		return "in " + dayCount(n)
	}
}

func dayCount(n exact.Number) string {
	if n.Equal(exact.Int(1)) {
		return "1 day"
	}
	return n.String() + " days"
}

// storeBars are the foods in store: what they cost, beside what the shop asks.
func storeBars(t teller, foods reader) (bars []bar) {
	for _, row := range foods.Rows {
		cost := foods.cell(row, "cost")
		bars = append(bars, bar{
			name: foods.word(row, "item"), total: cost, beside: foods.cell(row, "shelf_value"),
			parts:  []part{{class: "food", name: "cost of what is in store", value: cost}},
			amount: foods.cell(row, "quantity").ShownWithUnit(t.currency, t.show),
		})
	}
	slices.SortStableFunc(bars, func(a, b bar) int { return b.total.Ratio().Cmp(a.total.Ratio()) })
	return bars
}

func aboutStore(t teller, bars []bar) string {
	about := "Bars of what the packs in store cost, by food, beside what the shop asks for as much."
	for _, b := range bars {
		about += " " + b.name + ": " + b.amount + " cost " + t.short(b.total)
		if !b.beside.IsNull() {
			about += ", shop " + t.short(b.beside)
		}
		about += "."
	}
	return about
}
