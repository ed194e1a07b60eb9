package serve

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/folder"
	"putby/pricing/exact"
)

var takeForm = recording{
	path: "take", link: "Take out", title: "Take something out",
	intro:  "Choose a food that is in store, or write what you take. Containers of a food come from the packs with the first best-by.",
	groups: takeGroups, draft: takeDraft, about: takeAbout, parts: map[string]string{"rows": "things"},
}

func takeGroups(f *filling) []page.Group {
	quantity := f.column("draw", "quantity", "1")
	quantity.Label, quantity.Help = "how many", "containers of it"
	return []page.Group{
		{Title: "Out of store", Fields: []page.Field{
			{Kind: "select", Name: "food", Label: "food in store", Value: f.text("food", ""), Options: f.inStore()},
			quantity,
			f.thingsField("things", "or in words", "one thing a line: 2 apples, pack c46-a, 0.5 kg onions, 1 jar-1l"),
			f.column("draw", "reason", ledger.Used.String()),
			f.column("draw", "date", f.At.Today.String()),
			f.column("draw", "note", ""),
		}},
		folded("One pack, fresh food or supplies by fields", f.column("draw", "pack", ""), f.column("draw", "item", "")),
	}
}

// inStore are the foods that packs are left of.
func (f *filling) inStore() []page.Option {
	list := []page.Option{{Value: "", Label: "choose"}}
	g := f.join()
	if g == nil {
		return append(list, f.things(ledger.Foods)...)
	}
	for i := range g.Foods {
		if n := figures.InStore(g, i); n > 0 {
			list = append(list, page.Option{Value: g.Foods[i].ID, Label: fmt.Sprintf("%s, %d left", g.Foods[i].Title(), n)})
		}
	}
	return list
}

func takeAbout(f *filling) (folder.Scope, bool) {
	things := append(f.lines("things"), f.text("food", ""), f.text("pack", ""), f.text("item", ""))
	return entry.AboutThings(things)(f.Records)
}

func takeDraft(f *filling) (*entry.Draft, error) {
	things, err := f.taken()
	if err != nil {
		return nil, err
	}
	return entry.Take(f.Base, entry.TakeIn{Things: things, Reason: f.text("reason", ""), Date: f.text("date", ""), Note: f.text("note", "")})
}

// taken are the things that are written and chosen, in words.
func (f *filling) taken() ([]string, error) {
	cells, food, things := f.cells(ledger.MustKind("draw"), ""), f.text("food", ""), f.lines("things")
	chosen := len(slices.DeleteFunc([]string{food, cells["pack"], cells["item"]}, func(name string) bool { return name == "" }))
	quantity := f.text("quantity", "") // read with what it is of
	switch err := f.check("quantity"); {
	case err != nil && chosen > 0:
		return nil, entry.Wrongs{{Part: "quantity", Err: err}}
	case chosen > 1:
		return nil, errors.New("choose a food, or name a pack or something else, not both")
	case food != "":
		return append(things, strings.TrimSpace(quantity+" "+food)), nil
	case cells["pack"] != "":
		return append(things, strings.TrimSpace(quantity+" pack "+cells["pack"])), nil
	case cells["item"] != "":
		return append(things, f.amountOf(quantity, cells["item"])), nil
	}
	return things, nil
}

// amountOf is so much of an item: of a fresh food in its own unit, where no unit
// is given.
func (f *filling) amountOf(quantity, item string) string {
	i := slices.IndexFunc(f.Records.Foods, func(food ledger.Food) bool { return food.ID == item })
	if _, err := exact.ParseNumber(f.cells(ledger.MustKind("draw"), "")["quantity"]); err == nil && i >= 0 {
		quantity += " " + f.Records.Foods[i].Basis.String()
	}
	return strings.TrimSpace(quantity + " " + item)
}
