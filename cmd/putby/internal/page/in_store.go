package page

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"putby/cmd/putby/internal/render"
	"putby/ledger/figures"
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
	l := larderOf{foodTeller{tellerOf(r.OnHand.Doc), r.Ledger}, r.OnHand.Figures}
	fresh, past := l.fresh()
	s.Lists = []dueList{l.packs(), fresh}
	if past.Items != nil {
		s.Lists = append(s.Lists, past)
	}
	if len(l.Awaiting) > 0 {
		s.Lists = append(s.Lists, l.awaiting())
	}
	if len(l.Foods) > 0 {
		f := figure{ID: "store", Title: "Packs in store, in " + l.currency.Code(),
			Lead: "A bar is what the packs cost; the upright line is what the shop asks for as much."}
		f.drawBars(l.valueText, l.bars())
		s.Figures = []figure{f}
	}
	s.Tables, err = tables(r.OnHand.Doc, "onhand", "packs", "fresh_lots", "running", "awaiting", "foods", "supplies", "machines")
	return s, err
}

// larderOf is what is in the house, and who writes its figures.
type larderOf struct {
	foodTeller
	*figures.OnHandResult
}

// item is something with a last day.
func (l *larderOf) item(food int, detail string, last exact.Date) dueItem {
	days := l.DaysTo(last)
	return dueItem{What: l.name(food), Detail: detail, When: l.dayOf(last), Away: awayOf(days), Class: dueClass(days.Or(unknownDays))}
}

// packs lists the packs soonest due: all that are due soon, and some more.
func (l *larderOf) packs() dueList {
	list := dueList{Title: "Use first", Empty: "No pack is in store."}
	days := func(p figures.PackInStore) int { return l.DaysTo(p.BestBy).Or(unknownDays) }
	packs := slices.Clone(l.Packs)
	// A best-by that nobody knows comes last, and is listed only where few are due.
	slices.SortStableFunc(packs, func(a, b figures.PackInStore) int { return cmp.Compare(days(a), days(b)) })
	for i, p := range packs {
		if i >= dueLeast && days(p) > dueDays {
			break
		}
		each := report.AmountOf(l.g.Packs[p.Pack].Each, l.g.Foods[p.Food].Basis)
		detail := fmt.Sprintf("%s, %d × %s %v", render.Clean(l.g.Records.Packs.At(p.Pack).ID), p.Left, l.short(each), l.show.In(each.Unit()))
		list.Items = append(list.Items, l.item(p.Food, detail, p.BestBy))
	}
	return list
}

// packLinks lead to the labels of each pack in store.
func packLinks(r Reports) (list []Link) {
	for _, p := range r.OnHand.Figures.Packs[:min(mostRows, len(r.OnHand.Figures.Packs))] {
		id := r.Ledger.Records.Packs.At(p.Pack).ID
		list = append(list, Link{To: "/labels/" + id, Name: render.Clean(r.Ledger.Foods[p.Food].Title()) + ", " + id})
	}
	return list
}

// fresh lists the fresh food in hand, and by itself what is past its day.
func (l *larderOf) fresh() (list, past dueList) {
	list = dueList{Title: "Fresh in hand", Empty: "No fresh food is in hand."}
	past = dueList{Title: "Past its day: look it over; if in doubt, throw it out"}
	for _, lot := range l.Lots {
		if lot.Crumb {
			continue
		}
		detail := l.amount(lot.Food, lot.Quantity)
		if lot.Frozen {
			detail += ", frozen"
		}
		to := &list
		if lot.Past {
			to = &past
		}
		to.Items = append(to.Items, l.item(lot.Food, detail, lot.UseBy))
	}
	if past.Items != nil {
		list.Empty = "All that is in hand is past its day."
	}
	return list, past
}

func (l *larderOf) awaiting() dueList {
	list := dueList{Title: "Awaiting packing"}
	for _, a := range l.Awaiting {
		run := &l.g.Runs[a.Run]
		list.Items = append(list.Items, dueItem{What: l.name(a.Food), When: "of " + l.day(run.Date),
			Detail: l.amount(a.Food, run.Items[a.At].Loaded) + " in run " + render.Clean(l.g.Records.Runs[a.Run].ID)})
	}
	return list
}

// unknownDays stands for a last day that nobody knows: it comes after all
// others.
const unknownDays = 1 << 30

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
func (t valueText) dayOf(day exact.Date) string {
	if day == exact.NoDate {
		return "no last day is known"
	}
	return t.day(day)
}

// awayOf says how far off a last day is.
func awayOf(left exact.Opt[int]) string {
	switch n, known := left.Get(); {
	case !known:
		return ""
	case n == 0:
		return "today"
	case n < 0:
		return "past, " + dayCount(-n) + " ago"
	default:
		return "in " + dayCount(n)
	}
}

func dayCount(n int) string {
	if n == 1 {
		return "1 day"
	}
	return strconv.Itoa(n) + " days"
}

// bars are the foods in store: what they cost, beside what the shop asks.
func (l *larderOf) bars() (bars []bar) {
	for _, s := range l.Foods {
		cost := report.MoneyOf(s.Cost)
		bars = append(bars, bar{
			name: l.name(s.Food), total: cost, beside: exact.Map(s.Shelf, report.MoneyQuotient).Or(report.None),
			made:   slices.Contains(l.Notes, figures.Note{Kind: figures.PriceOfBatch, Food: s.Food}),
			parts:  []part{{class: "food", name: "cost of what is in store", value: cost}},
			amount: l.amount(s.Food, s.Amount),
		})
	}
	slices.SortStableFunc(bars, func(a, b bar) int { return b.total.Ratio().Cmp(a.total.Ratio()) })
	return bars
}
