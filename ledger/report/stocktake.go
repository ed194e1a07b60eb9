package report

import (
	"cmp"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// StocktakeSheet is the list of what a stocktake is to count, with a column to
// fill in. Its CSV is what is read back.
func StocktakeSheet(g *ledger.Ledger, list []figures.Countable) Doc {
	d := newDoc(g, "To count"+phrasingOf(&g.Settings).dated(" on ", g.AsOf, "", ""))
	t := &Table{Columns: []Column{
		{Key: "place", Title: "place"}, {Key: "pack", Title: "pack"}, {Key: "item", Title: "what", Wrap: true}, {Key: "each", Title: "each", Rank: 2},
		{Key: "unit"}, {Key: "best_by", Title: "best by", Rank: 1}, {Key: "books", Title: "books"}, {Key: "counted"}, {Title: "counted"}, {Key: "gone"},
	}, Empty: "Nothing is there to be counted."}
	for i := range list {
		c := &list[i]
		unit, each, pack, books := None, None, None, PlainOf(c.Books.Round(exact.MaxFraction, exact.HalfEven))
		item := c.ID(g)
		if c.Pack >= 0 {
			item = g.Foods[c.Food].ID
			pack, each = TextOf(c.ID(g)), AmountOf(g.Packs[c.Pack].Each, g.Foods[c.Food].Basis).WithUnit()
		} else if u := c.Unit(g); u != exact.NoUnit {
			n, _ := c.Books.Number() // of what is in hand
			unit, books = UnitOf(u), AmountOf(n, u).WithUnit()
		}
		t.add(TextOf(place(g, c)), pack, itemValue(g, item), each, unit, DateOf(c.BestBy), books, None, TextOf("______"), None)
	}
	d.Fields = []Field{field("rows", "To count", t)}
	d.Words = []string{counted(len(list), "thing") + " to count. Of jars, bags and lids that serve again count the empty ones. Leave blank what you do not look at."}
	return d
}

// place is where something stands, as the list to fill in has it.
func place(g *ledger.Ledger, c *figures.Countable) string {
	switch {
	case c.Pack >= 0:
		return g.Records.Packs.At(c.Pack).Place
	case c.Supply >= 0:
		return "supplies"
	}
	return "fresh"
}

// Whereabouts names the part of a stocktake that something belongs to: a place,
// the supplies, the fresh food.
func Whereabouts(g *ledger.Ledger, c figures.Countable) string {
	switch {
	case c.Pack >= 0:
		return cmp.Or(c.Place, "No place noted")
	case c.Supply >= 0:
		return "Supplies"
	}
	return "Fresh food"
}

// stocktakes says what a stocktake of several things comes to: how many agree,
// what is missing and what all of that cost.
func (s *savedWords) stocktakes(at []int) {
	if len(at) == 1 {
		s.stocktake(at[0])
		return
	}
	gaps, cost := figures.GapsOf(s.g, at)
	if gaps == nil {
		s.say("Stocktake of %s things: all as the books have them.", s.count(len(at)))
		return
	}
	s.say("Stocktake of %s things: %s as the books have them; missing and written off: %s.", s.count(len(at)), s.count(len(at)-len(gaps)), s.money(cost.Ratio()))
	for i, gap := range gaps {
		if i == mostSaved {
			s.say("And %d more.", len(gaps)-i)
			return
		}
		s.say("Missing: %s.", GapWords(s.g, gap))
	}
}
