package serve

import (
	"slices"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
)

var suppliesForm = recording{
	seldom: true,
	path:   "supplies", link: "Supplies", title: "Supplies bought",
	intro:  "Jars, bags, lids, absorbers, labels, oil, filters: which, how many, and what they cost. Several kinds on one receipt, or food beside them, go into the form Receipt.",
	groups: suppliesGroups, draft: suppliesDraft,
	parts: map[string]string{"name": "new-name", "kind": "new-kind", "uses": "new-uses", "capacity": "new-capacity"},
}

// boughtColumns are the columns of a receipt that a line of supplies has.
var boughtColumns = []string{"count", "size", "price", "shop", "date", "receipt", "discount", "note"}

func suppliesGroups(f *filling) []page.Group {
	k, r := ledger.MustKind("supply"), ledger.MustKind("receipt")
	known := byID(f.Records.NamedSupplies())
	which := page.Field{Kind: "select", Name: "supply", Label: "supply", Value: f.text("supply", ""), Options: slices.Insert(known, 0, page.Option{Label: "a new one, as below"})}
	fresh := f.fieldsOf(k, "new-", nil, "supply", "price")
	for i := range fresh {
		fresh[i].Need = false
		if fresh[i].Name == "new-kind" {
			fresh[i].Options = slices.Insert(fresh[i].Options, 0, page.Option{Label: "choose"})
		}
	}
	bought := f.only(r, map[string]string{"date": f.At.Today.String(), "shop": entry.LastShop(f.Records), "count": "1"}, boughtColumns...)
	for i := range bought {
		bought[i].Need = bought[i].Name == "price" || bought[i].Name == "shop"
		switch bought[i].Name {
		case "size":
			bought[i].Label, bought[i].Help = "pieces in a package", "empty: 1"
		case "count":
			bought[i].Label, bought[i].Help = "packages", ""
		case "receipt":
			bought[i].Help = "a name for it; empty: the next"
		}
	}
	return []page.Group{
		{Title: "Which", Fields: []page.Field{which}},
		folded("A new supply", fresh...),
		{Title: "Bought", Fields: bought[:5]},
		folded("Discount, name, note", bought[5:]...),
	}
}

func suppliesDraft(f *filling) (*entry.Draft, error) {
	in := entry.SuppliesIn{Supply: f.text("supply", ""), New: f.cells(ledger.MustKind("supply"), "new-"), Bought: map[string]string{}}
	k := ledger.MustKind("receipt")
	for _, column := range boughtColumns {
		in.Bought[column] = f.cell(k.Column(column), column)
	}
	return entry.BuySupplies(f.Base, in)
}
