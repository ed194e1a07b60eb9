package intake

import (
	"cmp"
	"iter"

	"putby/ledger"
	"putby/pricing/exact"
)

// prices turns shelf prices into rows. A price is the same as another when
// everything but the note is; the ledger's own later change of one counts.
func (w *writer) prices(drafts iter.Seq[*draft]) {
	// By all that a price means, and by what it is the price of: there the last in the file counts.
	exactly, place := map[string]*ledger.ShelfRow{}, map[string]*ledger.ShelfRow{}
	for i := range w.rec.Shelf {
		r := &w.rec.Shelf[i]
		cells := shelfCells(r)
		exactly[keyOf(cells)] = r
		place[keyOf(cells[:shelfPlace])] = r
	}
	seen := map[string]int{}
	for d := range drafts {
		if !w.settlePriced(d) {
			continue
		}
		c, ok := w.check(d, ledger.ShelfFile, d.cells)
		if !ok {
			continue
		}
		record := c.rec.Shelf[0]
		if w.ahead("date", record.Date, d) {
			continue
		}
		cells := shelfCells(&record)
		key := keyOf(cells)
		twin, have := seen[key], cmp.Or(exactly[key], place[keyOf(cells[:shelfPlace])])
		switch {
		case exactly[key] == nil && twin > 0:
			w.p.There = append(w.p.There, There{Line: d.row.Line, File: ledger.ShelfFile, At: twin, Twin: true})
			continue
		case have != nil:
			w.compare(d, ledger.ShelfFile, have.Line, shelfCells(have), cells)
		default:
			w.add(ledger.ShelfFile, d.row.Line, d.cells, &c.rec)
		}
		seen[key] = d.row.Line
	}
}

// settlePriced settles shop, item and size of a price; an item must be a food.
func (w *writer) settlePriced(d *draft) bool {
	text := d.get("item")
	if w.skips(text) {
		w.p.Left++
		return false
	}
	if shop := w.shops.find(d.get("shop")); shop != nil {
		d.set("shop", shop.Item)
	}
	item, size, ok := w.food(d, "item")
	if !ok {
		return false
	}
	d.set("item", item)
	if d.get("size") == "" {
		d.set("size", size)
	}
	return true
}

// food resolves the food that a cell names.
func (w *writer) food(d *draft, column string) (item, size string, ok bool) {
	text := d.get(column)
	kind := ledger.FoodLine.String()
	item, _, size, ok = w.resolve(text, kind)
	if _, known := w.book.find(item, kind); text != "" && (!ok || !known) {
		w.lacks(d, column, exact.Quote(text)+" is no food that the ledger knows", ledger.NameMeaning, exact.Quote(text))
		return "", "", false
	}
	return item, size, true
}

// shelfPlace is how many of the cells of a price say what it is the price of.
const shelfPlace = 7

// shelfCells are what a shelf price means.
func shelfCells(r *ledger.ShelfRow) []meaning {
	return []meaning{
		verbatim("date", r.Date.String()),
		{"shop", ledger.Fold(r.Shop), r.Shop},
		verbatim("item", r.Item),
		{"size", sizeKey(r.Size), r.Size.String()},
		verbatim("terms", r.Terms.String()),
		verbatim("form", r.Form.String()),
		{"makes", sizeKey(r.Makes), r.Makes.String()},
		verbatim("price", r.Price.String()),
	}
}
