package serve

import (
	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/folder"
)

// asLast is the button that fills in what is blank as it was last time.
var asLast = page.Button{Do: "last", Label: "As last time"}

var priceForm = recording{
	seldom: true,
	path:   "price", link: "Price seen", title: "A price seen in a shop",
	intro:  "What a shop asks, so that the ledger knows what the same would have cost there.",
	groups: priceGroups, draft: added("price"), about: priceAbout, buttons: []page.Button{asLast},
}

func priceGroups(f *filling) []page.Group {
	k := ledger.MustKind("price")
	f.fillAsLast(k)
	s, _ := f.Suggest(k, f.cells(k, ""))
	s = map[string]string{"date": s["date"], "shop": s["shop"], "terms": s["terms"]}
	return []page.Group{
		{Title: "The price", Fields: f.fieldsOf(k, "", s, "form", "makes", "note", "date")},
		folded("Another day, dried food, a note", f.only(k, s, "form", "makes", "note", "date")...),
	}
}

// priceAbout is what was paid for the food, and the shops that there are.
func priceAbout(f *filling) (folder.Scope, bool) {
	cells := f.cells(ledger.MustKind("price"), "")
	return folder.Scope{Lots: []string{cells["item"]}, Bought: cells["date"]}, cells["date"] != ""
}

// only makes a field of each of some columns of a kind.
func (f *filling) only(k ledger.Kind, suggested map[string]string, columns ...string) (list []page.Field) {
	for _, name := range columns {
		list = append(list, f.field(k, k.Column(name), name, suggested[name]))
	}
	return list
}

// fillAsLast fills in what is blank as it was last time, where that is asked for.
func (f *filling) fillAsLast(k ledger.Kind) {
	if f.in.Get("do") != asLast.Do {
		return
	}
	s, _ := f.Suggest(k, f.cells(k, ""))
	for column, text := range s {
		if c := k.Column(column); f.text(column, "") == "" {
			f.in.Set(column, entry.CellAsTyped(f.Records, c, text))
		}
	}
}
