package serve

import (
	"cmp"
	"slices"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/report"
)

var stocktakeForm = recording{
	seldom: true,
	path:   "stocktake", link: "Stocktake", title: "Count what is there",
	intro: "Place by place. A number where you looked; empty where you did not. Where all the rest of a place is as the books have it, one tick says so. " +
		"Everything is saved as one change.",
	groups: stocktakeGroups, draft: stocktakeDraft,
}

func stocktakeGroups(f *filling) []page.Group {
	day := page.Group{Title: "When", Fields: []page.Field{f.column("count", "date", f.At.Today.String())}}
	list, g, err := entry.ToCount(f.Base, f.text("date", ""), figures.CountQuery{Supplies: true, Fresh: true})
	if err != nil {
		return []page.Group{day}
	}
	var groups []page.Group
	for i, c := range list {
		place := report.Whereabouts(g, c)
		if i == 0 || place != report.Whereabouts(g, list[i-1]) {
			groups = append(groups, page.Group{Title: place, Folded: true, Fields: []page.Field{
				{Kind: "switch", Name: restName(place), Label: "the rest here is as the books have it", Value: f.text(restName(place), "")},
			}})
		}
		last := &groups[len(groups)-1]
		last.Fields = append(last.Fields, f.countFields(g, c)...)
	}
	for i := range groups {
		groups[i].Folded = i > 0 && !slices.ContainsFunc(groups[i].Fields, func(f page.Field) bool { return f.Value != "" })
	}
	day.Fields = append(day.Fields, f.column("count", "note", ""))
	return append(groups, day)
}

// restName is the field that says that the rest of a place is as the books have
// it.
func restName(place string) string { return "rest-" + entry.Slug(place) }

// countName is the field of something that is counted.
func countName(g *ledger.Ledger, c figures.Countable) string {
	if c.Pack >= 0 {
		return "count-pack-" + c.ID(g)
	}
	return "count-item-" + c.ID(g)
}

// goneName is the field of what became of what is not there any more.
func goneName(g *ledger.Ledger, c figures.Countable) string { return "gone-" + c.ID(g) }

// countFields ask how much is there of something, and of fresh food what became of
// the rest.
func (f *filling) countFields(g *ledger.Ledger, c figures.Countable) []page.Field {
	name, books := countName(g, c), entry.BooksText(g, c)
	field := page.Field{Kind: "number", Name: name, Label: entry.Counting(g, c), Help: "the books have " + books, Value: f.text(name, "")}
	if c.Whole(g) {
		field.Kind, field.From = "count", books
	}
	if c.Pack >= 0 {
		field.Most = books
	}
	list := []page.Field{field}
	if c.Pack < 0 && c.Food >= 0 {
		became := append([]page.Option{{Value: "", Label: "nobody knows"}}, options(entry.Became...)...)
		list = append(list, page.Field{Kind: "select", Name: goneName(g, c), Label: "what became of the rest of the " + g.Foods[c.Food].Title(), Options: became, Value: f.text(goneName(g, c), "")})
	}
	return list
}

func stocktakeDraft(f *filling) (*entry.Draft, error) {
	in := entry.StocktakeIn{Date: f.text("date", ""), Note: f.text("note", "")}
	list, g, err := entry.ToCount(f.Base, in.Date, figures.CountQuery{Supplies: true, Fresh: true})
	if err != nil {
		return nil, entry.Wrongs{{Part: "date", Err: err}}
	}
	var bad entry.Wrongs
	for _, c := range list {
		text := f.text(countName(g, c), "")
		if text == "" && f.text(restName(report.Whereabouts(g, c)), "") == "" {
			continue
		}
		of := entry.WithReturned(g, c, in.Counted)
		if _, _, err := entry.ReadCount(g, of, text); err != nil {
			bad = append(bad, entry.Wrong{Part: countName(g, c), Err: err})
			continue
		}
		in.Counted = append(in.Counted, entry.CountedOf(g, of, cmp.Or(text, entry.BooksText(g, of)), f.text(goneName(g, c), "")))
	}
	if bad != nil {
		return nil, bad
	}
	return entry.Stocktake(f.Base, in)
}
