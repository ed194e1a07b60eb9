package entry

import (
	"fmt"
	"slices"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/report"
	"putby/pricing"
)

// FollowShelf has the shelf prices that lines of receipts told of go with the lines
// that the draft changes, or takes out: such a row of shelf.csv is of the same day and
// shop, and has the same thing, size and regular price. It stays where another line
// tells of it too.
func (d *Draft) FollowShelf(rec *ledger.Records) {
	f := following{rec: rec, draft: d, lines: map[int]bool{}, rows: map[int]bool{}}
	var receipts []Set
	for _, s := range d.Sets {
		if s.Kind.Name == "receipt" && s.Line > 0 && s.Was != nil {
			f.lines[s.Line] = true
			receipts = append(receipts, s)
		}
		if s.Kind.Name == "price" {
			f.rows[s.Line] = true // it is said by itself
		}
	}
	for _, s := range receipts {
		f.line(s)
	}
}

// A following is shelf prices that go with lines of receipts.
type following struct {
	rec   *ledger.Records
	draft *Draft
	lines map[int]bool // of receipts.csv, that are changed
	rows  map[int]bool // of shelf.csv, that are changed already
}

// line has the price follow that a line told of.
func (f *following) line(s Set) {
	was, ok := f.receiptRow(s, s.Was)
	if ok && was.Kind != ledger.FoodLine {
		f.nowFood(s)
	}
	if !ok || !toldOfShelf(&was) {
		return
	}
	list := f.shelf(&was)
	now, ok := f.receiptRow(s, s.now())
	stays := ok && !s.Gone && toldOfShelf(&now)
	if len(list) == 0 || stays && asksAsMuch(&was, &now) || f.toldElsewhere(&was) {
		return
	}
	if len(list) > 1 {
		f.note("shelf.csv has %s of that day more than once, and still has: %s takes one out.", f.words(list[0]), f.rec.Settings.Say(advice.Do(advice.Remove, "price", list[0].Item, "last")))
		return
	}
	row := list[0]
	f.rows[row.Line] = true
	price := Set{Kind: ledger.MustKind("price"), Line: row.Line, Gone: !stays || len(f.shelf(&now)) > 0}
	if !price.Gone {
		next := *row
		next.Date, next.Shop, next.Item, next.Size, next.Price = now.Date, now.Shop, now.Item, now.Size, now.Price
		price.Gone = f.nowLower(row, &next)
		f.say(row, &next, price.Gone)
	} else {
		f.note("No longer noted as what the shelf asks: %s.", f.words(row))
	}
	if !price.Gone { // nor has the new price come under the regular one
		price.Cells = map[string]string{}
		for _, column := range []string{"date", "shop", "item", "size", "price"} {
			if text, changed := s.Cells[column]; changed {
				price.Cells[column] = text
			}
		}
	}
	f.draft.Sets = append(f.draft.Sets, price)
}

// nowFood says of a line that comes to be food that its price is not noted as what the
// shelf asks, and how it is: nobody has said whether it was regular.
func (f *following) nowFood(s Set) {
	now, ok := f.receiptRow(s, s.now())
	if !ok || s.Gone || !toldOfShelf(&now) || len(f.shelf(&now)) > 0 {
		return
	}
	f.note("Not noted as what the shelf asks. If it was the regular price: %s",
		f.rec.Settings.Say(advice.Do(advice.AddPrice).With("date", now.Date.String()).With("shop", now.Shop).With("item", now.Item).With("size", now.Size.String()).With("price", now.Price.String())))
}

// say tells of a price that goes with its line, or that does not, since it is now
// taken as an offer's.
func (f *following) say(was, now *ledger.ShelfRow, lower bool) {
	switch {
	case lower:
		f.note("No longer noted as what the shelf asks: %s. The new price is under the regular one, so it is taken as an offer's; %s notes it all the same.", f.words(was), f.rec.Settings.Say(advice.Do(advice.AddPrice)))
	case was.Price.Equal(now.Price) && was.Size.Base() == now.Size.Base():
		f.note("Noted as what the shelf asks, and changed there too: %s.", f.words(now))
	default:
		f.note("Noted as what the shelf asks: now %s (before: %s).", f.words(now), f.words(was))
	}
}

func (f *following) note(format string, args ...any) {
	f.draft.Notes = report.Once(f.draft.Notes, fmt.Sprintf(format, args...))
}

// words is a price in a sentence.
func (f *following) words(s *ledger.ShelfRow) string {
	return titleOf(f.rec, s.Item) + ", " + pricedAs(f.rec, s)
}

// receiptRow reads a line of a receipt from its cells.
func (f *following) receiptRow(s Set, cells map[string]string) (ledger.ReceiptRow, bool) {
	one := &ledger.Records{Settings: f.rec.Settings}
	if !readInto(one, s.Kind, s.Line, cells) {
		return ledger.ReceiptRow{}, false
	}
	return one.Receipts.At(0), true
}

// toldOfShelf reports whether a line may have told of a shelf price, as
// [Receipt.ShelfPrices] has it.
func toldOfShelf(r *ledger.ReceiptRow) bool {
	return r.Kind == ledger.FoodLine && r.Discount().Sign() == 0 && r.Price.Sign() > 0
}

// asksAsMuch reports whether two lines tell of the same price.
func asksAsMuch(a, b *ledger.ReceiptRow) bool {
	return a.Date == b.Date && anyCase(a.Shop) == anyCase(b.Shop) && a.Item == b.Item && a.Size.Base() == b.Size.Base() && a.Price.Equal(b.Price)
}

// shelf are the prices of shelf.csv that a line may have told of, without those that
// go with another already.
func (f *following) shelf(r *ledger.ReceiptRow) (list []*ledger.ShelfRow) {
	for i := range f.rec.Shelf {
		s := &f.rec.Shelf[i]
		if s.Date == r.Date && anyCase(s.Shop) == anyCase(r.Shop) && s.Item == r.Item && s.Size.Base() == r.Size.Base() && s.Price.Equal(r.Price) &&
			s.Terms == pricing.Regular && s.Form == pricing.Fresh && !f.rows[s.Line] {
			list = append(list, s)
		}
	}
	return list
}

// toldElsewhere reports whether a line that stays as it is tells of the same price.
func (f *following) toldElsewhere(r *ledger.ReceiptRow) bool {
	return f.rec.Receipts.Index(func(o *ledger.ReceiptRow) bool { return !f.lines[o.Line] && toldOfShelf(o) && asksAsMuch(r, o) }) >= 0
}

// nowLower reports whether a price that is changed has come to be lower than the
// regular one that is known without it.
func (f *following) nowLower(was, now *ledger.ShelfRow) bool {
	if was.Price.Equal(now.Price) && was.Size.Base() == now.Size.Base() {
		return false
	}
	rest := *f.rec
	rest.Shelf = slices.DeleteFunc(slices.Clone(rest.Shelf), func(s ledger.ShelfRow) bool { return s.Line == was.Line })
	usual, ok := regular(&rest, now, now.Date)
	return ok && lower(f.rec, now, usual)
}
