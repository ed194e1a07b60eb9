package report

import (
	"errors"
	"fmt"
	"slices"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing"
	"putby/pricing/exact"
)

// Card lays out what to know in the shop: below which price of a package buying
// it in bulk pays; see [figures.Card], whose errors it returns. The ledger must be
// joined through the query's AsOf.
func Card(g *ledger.Ledger, q figures.CardQuery, names Names) (Told[ShopCard], error) {
	result, err := figures.Card(g, q)
	if err != nil {
		return Told[ShopCard]{}, err
	}
	c := &card{reporting: reportingOn(g), CardResult: result, names: names}
	d := newDoc(g, "What to pay in the shop")
	d.Words = c.words()
	d.Fields = []Field{
		{"as_of", "", DateOf(c.Day)},
		field("rows", titleOf(len(c.Rows), "Foods that are dried as they are"), c.table(c.Rows)),
		field("made_into", titleOf(len(c.Made), "Foods that are made into what is dried"), c.table(c.Made)),
		{NotesKey, "", List{}},
	}
	d.Notes, d.Cautions = c.notes()
	return Told[ShopCard]{d, ShopCard{c.Day, c.foods}}, nil
}

// A ShopCard is a card for a page.
type ShopCard struct {
	Day   exact.Date // local, included
	Foods []CardFood
}

// A CardFood is a package of a food: what does not exist is null.
type CardFood struct {
	Name, Size       Value
	Below, PerUnit   Value    // null: not even as a gift
	Why              []string // there is no price
	Buy, Most, Shelf Value
	Offer, OfferDate Value // the last one, per unit
	Paid             Value // the lowest of the year, per unit
}

// A card is being laid out.
type card struct {
	reporting
	*figures.CardResult
	names Names
	foods []CardFood // that are laid out
}

func (c *card) words() []string {
	if len(c.Rows)+len(c.Made) == 0 {
		return []string{fmt.Sprintf("On %s there is nothing to say: no food that was dried has a shelf price and a package that was bought or asked for.", c.day(c.Day))}
	}
	return []string{
		c.answer() + c.machines(),
		"Up to the price shown a package is worth buying in bulk to dry; above it no number of them saves. It rests on the shelf prices, runs, packing and use that are recorded by then, with nothing eaten fresh and no limit of the shop's; what rests on an estimate of the electricity has a ~.",
	}
}

// answer says how many packages have a price up to which they pay, and names one.
func (c *card) answer() string {
	rows := slices.Concat(c.Rows, c.Made)
	pays := slices.DeleteFunc(slices.Clone(rows), func(r figures.CardRow) bool { return !r.Below.Given() })
	if len(pays) == 0 {
		words := fmt.Sprintf("On %s no package is worth buying in bulk to dry, at any price", c.day(c.Day))
		if slices.ContainsFunc(rows, usedUp) {
			words += ", as long as no more is used than now"
		}
		return words + "."
	}
	r := &pays[0]
	below := guess(r.Facts, MoneyOf(r.Below.Or(exact.Money{})), r.Best)
	name, size := c.title(r.Bought), c.quantity(r.Size)
	if len(rows) == 1 {
		return fmt.Sprintf("%s, %s: worth buying to dry up to %s (on %s).", name, size, c.sum(below), c.day(c.Day))
	}
	return fmt.Sprintf("%d of %s %s worth buying in bulk to dry, if cheap enough (on %s): such as %s up to %s for %s.",
		len(pays), counted(len(rows), "package"), verb(len(pays), "is", "are"), c.day(c.Day), name, c.sum(below), size)
}

// usedUp reports whether more would pay if more of it were used.
func usedUp(r figures.CardRow) bool {
	return r.Little || r.Most == 0 && slices.Contains(r.Limits, pricing.UseLimit)
}

// machines says which machine each food is taken to go into, that of its last run,
// where there are several.
func (c *card) machines() (words string) {
	for m := range c.g.Machines {
		var foods []string
		for _, r := range slices.Concat(c.Rows, c.Made) {
			if food := c.title(r.Dried); r.Dryer.Machine == m && !slices.Contains(foods, food) {
				foods = append(foods, food)
			}
		}
		if in := c.where("in", m); in != "" && foods != nil {
			words += " " + sentenceCase(in[1:]) + ": " + Listed(foods) + "."
		}
	}
	return words
}

func (c *card) table(rows []figures.CardRow) *Table {
	t := &Table{Columns: []Column{
		{Key: "item", Title: "food", Wrap: true}, {Key: "unit"}, {Key: "size", Title: "package"},
		{Key: "below", Title: "pays up to"}, {Key: "below_per_unit"}, {Title: "per unit", Rank: 2},
		{Key: "packages", Title: "buy"}, {Key: "most", Title: "at most", Rank: 3}, {Key: "shelf_per_unit"},
		{Key: "lowest_paid_per_unit"}, {Key: "buy_at_lowest"}, {Key: "saving_at_lowest"},
		{Key: "last_offer_per_unit"}, {Title: "last offer", Rank: 1}, {Key: "last_offer_date", Title: "of", Rank: 1}, {Key: "last_offer_shop"},
		{Title: "lowest paid", Rank: 4}, {Key: "as"}, {Key: NotesKey},
	}}
	for i := range rows {
		f := CardFood{Why: notBelow(&rows[i])}
		t.Rows = append(t.Rows, Row{Cells: c.cells(&rows[i], &f), Notes: f.Why})
		c.foods = append(c.foods, f)
	}
	return t
}

// cells are a package's; what a page reads of them is in f.
func (c *card) cells(r *figures.CardRow, f *CardFood) []Value {
	// Two foods where a batch lies between: prices paid and offers are per unit bought, the shelf's
	// and what it pays up to per unit dried.
	bought, dried := &c.g.Foods[r.Bought], &c.g.Foods[r.Dried]
	each, atLowest, saving, shop, as := None, None, None, None, None
	if m, ok := r.Below.Get(); ok {
		f.Below = guess(r.Facts, MoneyOf(m), r.Best)
		f.PerUnit = guess(r.Facts, PriceOf(r.PerUnit.Or(exact.Ratio{}), dried.Basis), r.Best)
		each = TextOf(f.PerUnit.ShownWithUnit(c.currency, c.show))
	}
	if p, ok := r.Lowest.Get(); ok {
		best := r.AtLowest.Or(pricing.Row{})
		f.Paid, atLowest = PriceOf(p.PerUnit, bought.Basis), CountOf(best.Packages)
		saving = guess(r.Facts, MoneyQuotient(best.Saving), best)
	}
	if p, ok := r.Offer.Get(); ok {
		f.Offer, f.OfferDate, shop = PriceOf(p.PerUnit, bought.Basis), DateOf(p.Date), TextOf(p.Shop)
	}
	f.Name, f.Size = foodValue(bought), nameValue(r.Size.String(), c.quantity(r.Size))
	if r.Bought != r.Dried {
		f.Name, as = nameValue(bought.ID, bought.Title()+", as "+dried.Title()), TextOf(dried.ID)
	}
	f.Buy, f.Most, f.Shelf = CountOf(r.Packages), CountOf(r.Most), PriceOf(r.Sale.Shelf, dried.Basis)
	return []Value{
		f.Name, UnitOf(dried.Basis), f.Size, f.Below, f.PerUnit, each, f.Buy, f.Most, f.Shelf, f.Paid, atLowest, saving,
		f.Offer, c.packagePrice(r, r.Offer), f.OfferDate, shop, c.packagePrice(r, r.Lowest), as,
	}
}

// notBelow says why no price is named.
func notBelow(r *figures.CardRow) []string {
	switch {
	case r.Most == 0:
		return []string{"none now: " + noRoom(r.Limits, "")}
	case !r.Below.Given() && r.Little:
		return []string{"so little more would be used before best-by that a run of it does not pay"}
	case !r.Below.Given():
		return []string{"drying does not pay even if the packages were free"}
	}
	return nil
}

// packagePrice is what a package would cost at a price per edible unit.
func (c *card) packagePrice(r *figures.CardRow, price exact.Opt[pricing.Price]) Value {
	return optional(price, func(p pricing.Price) Value { return MoneyQuotient(r.PackageAt(p.PerUnit)) })
}

// notes say what the card leaves out and rests on, and what to heed.
func (c *card) notes() (notes noteList, care []Remark) {
	for _, l := range c.Left {
		notes.addf("%s is left out: %s", c.title(l.Food), leftWhy(c.g, l.Err))
	}
	on := map[int]bool{}
	var facts []*figures.Facts
	for _, rows := range [][]figures.CardRow{c.Rows, c.Made} {
		for i := range rows {
			on[rows[i].Bought], on[rows[i].Dried] = true, true
			facts = append(facts, rows[i].Facts)
		}
	}
	notes.add(notesOnAll(c.reporting, facts, c.names)...)
	all := func(food int) bool { return on[food] }
	return append(notes, refuses(c.g, all)...), careOfAll(c.g, all, all)
}

// leftWhy says in a few words why a food is left out.
func leftWhy(g *ledger.Ledger, err error) string {
	var wrong *figures.FactError
	switch {
	case !errors.As(err, &wrong):
		return err.Error()
	case wrong.Missing == nil:
		return WhyNot(g, &figures.WorthQuery{}, wrong, nil)
	}
	return Listed(worded(wrong.Missing, func(m figures.Missing) string { return Lacks(g, m) })) + " is not known"
}
