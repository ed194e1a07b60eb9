package serve

import (
	"slices"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
)

// One supply and the receipt that brought it, on one page: entry.BuySupplies makes both records of it.
var suppliesForm = recording{
	seldom: true,
	path:   "supplies", link: "Supplies", title: "Supplies bought",
	intro:  "Jars, bags, lids, absorbers, labels, oil, filters: which, how many, and what they cost. Several kinds on one receipt, or food beside them, go into the form Receipt.",
	groups: suppliesGroups, draft: suppliesDraft,
	parts: map[string]string{"name": "new-name", "kind": "new-kind", "uses": "new-uses", "capacity": "new-capacity"},
}

// boughtColumns are the columns of a receipt that are shown first; notBought are those
// that say themselves what they are of a line of supplies.
var (
	boughtColumns = []string{"count", "size", "price", "shop", "date"}
	notBought     = []string{"line", "kind", "item", "tax", "on"}
)

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
	bought = append(bought, f.fieldsOf(r, "", nil, append(notBought, boughtColumns...)...)...)
	for i := range bought {
		bought[i].Need = bought[i].Name == "price" || bought[i].Name == "shop"
		switch bought[i].Name {
		case "size":
			bought[i].Label, bought[i].Help = "pieces in a package", "empty: 1"
		case "count":
			bought[i].Label, bought[i].Help = "packages", ""
		case "price":
			bought[i].Help = "of one package"
		case "receipt":
			bought[i].Help = "a name for it; empty: the next"
		}
	}
	return []page.Group{
		{Title: "Which", Fields: []page.Field{which}},
		{Title: "A new supply", Folded: len(known) > 0, Fields: fresh},
		{Title: "Bought", Fields: bought[:len(boughtColumns)]}, // those come first, as made above
		folded("Discount, name, note", bought[len(boughtColumns):]...),
	}
}

func suppliesDraft(f *filling) (*entry.Draft, error) {
	in := entry.SuppliesIn{Supply: f.text("supply", ""), New: f.cells(ledger.MustKind("supply"), "new-"), Bought: map[string]string{}}
	k := ledger.MustKind("receipt")
	for i := range k.Columns {
		if c := &k.Columns[i]; !slices.Contains(notBought, c.Name) {
			in.Bought[c.Name] = f.cell(c, c.Name)
		}
	}
	return entry.BuySupplies(f.Base, in)
}
