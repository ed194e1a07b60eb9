package entry

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// ShelfPrices are the shelf prices that a receipt tells of: what a food cost that was
// bought at a regular price. A price counts as regular unless something came off
// it, unless it is said to be an offer's, and unless it is lower per unit than the
// regular price known of that shop, or else of any: then it is likely to be an
// offer's that nobody mentioned, and would make every later saving look smaller
// than it is. Amounts for the whole receipt do not count, nor do taxes on top. One
// that is there already is not written again.
func (r *Receipt) ShelfPrices(rec *ledger.Records, at Moment) (rows []Row, notes []string) {
	reduced := r.reducedLines()
	day := at.Day(r.Date)
	for i := range r.Lines {
		l := &r.Lines[i]
		row, ok := l.seen(r.Currency.Minor())
		if !ok || reduced[i+1] {
			continue
		}
		row["date"], row["shop"] = r.Date, r.Shop
		s, ok := asShelf(rec, row)
		if !ok || has(rec, &s, rows) {
			continue
		}
		if usual, ok := regular(rec, &s, day); ok && !l.Regular && lower(rec, &s, usual) {
			notes = append(notes, fmt.Sprintf("%s is under its regular price, %s: taken as an offer's, so not as what the shelf asks. If the shelf price came down, say regular behind it.",
				titleOf(rec, l.Item), pricedAs(rec, usual)))
			continue
		}
		rows = append(rows, Row{ledger.MustKind("price"), row})
	}
	return rows, notes
}

// pricedAs is a price in a sentence: "3.99 for 500 g (Corner Shop, 2025-11-02)".
func pricedAs(rec *ledger.Records, s *ledger.ShelfRow) string {
	price := rec.Settings.Locale.Money(moneyText(rec, s.Price), rec.Settings.Currency)
	return fmt.Sprintf("%s for %s (%s)", price, rec.Settings.Show().Quantity(s.Size), placed(rec, s.Shop, s.Date))
}

// reducedLines are the numbers of the lines that a discount of the receipt names.
func (r *Receipt) reducedLines() map[int]bool {
	list := map[int]bool{}
	for i := range r.Lines {
		if l := &r.Lines[i]; l.Kind == ledger.DiscountLine {
			for name := range strings.SplitSeq(l.On, ",") {
				if n, err := strconv.Atoi(name); err == nil {
					list[n] = true
				}
			}
		}
	}
	return list
}

// seen are the cells of shelf.csv for the price that a line tells of.
func (l *Line) seen(minor int) (map[string]string, bool) {
	if l.Kind != ledger.FoodLine || l.Offer != "" || l.Reduced || number(l.Less).Sign() != 0 || number(l.Price).Sign() <= 0 {
		return nil, false
	}
	price := l.each(minor)
	if number(price).Places() > minor && !exact.MustNumber(price).Equal(number(l.Price)) {
		return nil, false // a share of the whole, of which nobody knows what one cost
	}
	_, size := l.counted()
	return map[string]string{"item": l.Item, "size": size, "price": price, "terms": pricing.Regular.String()}, true
}

// asShelf is a row of shelf.csv as the ledger reads it.
func asShelf(rec *ledger.Records, cells map[string]string) (ledger.ShelfRow, bool) {
	more, faults := rec.With(ledger.MustKind("price"), cells)
	if len(faults) > 0 {
		return ledger.ShelfRow{}, false
	}
	return more.Shelf[len(more.Shelf)-1], true
}

// has reports whether a price is there already, or among rows.
func has(rec *ledger.Records, s *ledger.ShelfRow, rows []Row) bool {
	same := func(o *ledger.ShelfRow) bool {
		return o.Date == s.Date && anyCase(o.Shop) == anyCase(s.Shop) && o.Item == s.Item && o.Size.Base() == s.Size.Base() &&
			o.Price.Equal(s.Price) && o.Terms == s.Terms && o.Form == s.Form
	}
	for i := range rec.Shelf {
		if same(&rec.Shelf[i]) {
			return true
		}
	}
	for _, row := range rows {
		if o, ok := asShelf(rec, row.Cells); ok && same(&o) {
			return true
		}
	}
	return false
}

// notedAlready refuses a price that is in shelf.csv as it stands. One with a note is
// taken, since it says something more.
func (b *Base) notedAlready(rows []Row) error {
	for _, row := range rows {
		if row.Kind.Name != "price" || row.Cells["note"] != "" {
			continue
		}
		if s, ok := asShelf(b.Records, row.Cells); ok && has(b.Records, &s, nil) {
			f := following{rec: b.Records}
			return typed("", f.words(&s)+" is noted already: nothing is saved")
		}
	}
	return nil
}

// regular is the last regular price of a food by a day: of that shop, or else of
// any.
func regular(rec *ledger.Records, s *ledger.ShelfRow, day exact.Date) (*ledger.ShelfRow, bool) {
	last := latest(slices.All(rec.Shelf), func(o *ledger.ShelfRow) (exact.Date, int) {
		return o.Date, rank(o.Item == s.Item && o.Terms == pricing.Regular && o.Form == pricing.Fresh && o.Date <= day, anyCase(o.Shop) == anyCase(s.Shop))
	})
	return last, last != nil
}

// lower reports whether a price is lower than another, per unit of the food.
func lower(rec *ledger.Records, s, than *ledger.ShelfRow) bool {
	i := slices.IndexFunc(rec.Foods, func(f ledger.Food) bool { return f.ID == s.Item })
	if i < 0 {
		return false
	}
	a, err := rec.Foods[i].InBasis(s.Size)
	b, err2 := rec.Foods[i].InBasis(than.Size)
	return err == nil && err2 == nil && a.Sign() > 0 && b.Sign() > 0 && s.Price.Per(a).Cmp(than.Price.Per(b)) < 0
}
