package intake

import (
	"strconv"
	"strings"

	"putby/ledger"
	"putby/pricing/exact"
)

// A receiptBook is the ledger's receipts, found by identifier and by day.
type receiptBook struct {
	byID   map[string]*knownReceipt
	byDay  map[string][]*knownReceipt
	taken  map[string]bool // identifiers that a new receipt may not have
	groups map[string]bool // identifiers of this import's receipts
}

// A knownReceipt is a receipt of the ledger.
type knownReceipt struct {
	id    string
	date  exact.Date
	shop  string // folded
	lines []*knownLine
	more  map[string]bool // numbers given to lines that this import adds
}

type knownLine struct {
	record *ledger.ReceiptRow
	used   bool // whether a line of this import is it
}

func newReceiptBook(rec *ledger.Records) *receiptBook {
	b := &receiptBook{map[string]*knownReceipt{}, map[string][]*knownReceipt{}, map[string]bool{}, map[string]bool{}}
	for i := range rec.Receipts {
		r := &rec.Receipts[i]
		k := b.byID[r.Receipt]
		if k == nil {
			k = &knownReceipt{id: r.Receipt, date: r.Date, shop: folded(r.Shop), more: map[string]bool{}}
			b.byID[r.Receipt] = k
			b.byDay[dayKey(r.Date, k.shop)] = append(b.byDay[dayKey(r.Date, k.shop)], k)
		}
		k.lines = append(k.lines, &knownLine{record: r})
	}
	for _, batch := range rec.Batches {
		b.taken[batch.ID] = true
	}
	return b
}

func dayKey(date exact.Date, foldedShop string) string { return date.String() + " " + foldedShop }

// key is where the ledger would have a receipt of the group's day and shop. A
// date that is none finds nothing; the ledger's check says so.
func (g *receiptGroup) key() string {
	date, err := exact.ParseDate(g.date)
	if err != nil {
		return ""
	}
	return dayKey(date, folded(g.shop))
}

// name gives a group an identifier: its own, or one made of date and shop, with
// a number behind it where another receipt has that.
func (b *receiptBook) name(g *receiptGroup) {
	if g.own {
		b.groups[g.id] = true
		return
	}
	base := g.date
	if shop := slug(g.shop); shop != "" {
		base += "-" + shop
	}
	base = base[:min(len(base), maxID-4)]
	g.id = base
	for n := 2; b.isTaken(g); n++ {
		g.id = base + "-" + strconv.Itoa(n)
	}
	b.groups[g.id] = true
}

// isTaken reports whether another receipt has the group's identifier. One of
// the same day and shop is the same receipt.
func (b *receiptBook) isTaken(g *receiptGroup) bool {
	k := b.byID[g.id]
	return b.taken[g.id] || b.groups[g.id] || k != nil && dayKey(k.date, k.shop) != g.key()
}

// pool returns the receipt of the ledger that new lines of a group belong to,
// if there is one, and the lines that the group's may be: where the file
// numbers its receipts those of that number, else all of the day and shop. A
// clash is a receipt of that identifier which is another.
func (b *receiptBook) pool(g *receiptGroup) (target *knownReceipt, pool map[string][]*knownLine, clash bool) {
	target = b.byID[g.id]
	switch {
	case b.taken[g.id]:
		return nil, nil, true
	case !g.own:
		return target, poolOf(b.byDay[g.key()]...), false
	case target == nil:
		return nil, nil, false
	}
	date, err := exact.ParseDate(g.date)
	sameDay, sameShop := err == nil && date == target.date, folded(g.shop) == target.shop
	return target, poolOf(target), !sameDay && !sameShop
}

// poolOf gathers lines by what they mean.
func poolOf(receipts ...*knownReceipt) map[string][]*knownLine {
	pool := map[string][]*knownLine{}
	for _, k := range receipts {
		for _, l := range k.lines {
			key := keyOf(receiptCells(l.record))
			pool[key] = append(pool[key], l)
		}
	}
	return pool
}

// take uses up a line that means the same as r.
func take(pool map[string][]*knownLine, r *ledger.ReceiptRow) *knownLine {
	if len(pool) == 0 {
		return nil
	}
	for _, l := range pool[keyOf(receiptCells(r))] {
		if !l.used {
			l.used = true
			return l
		}
	}
	return nil
}

// numbered returns the line of a number.
func (k *knownReceipt) numbered(number string) *knownLine {
	for _, l := range k.lines {
		if l.record.Number == number {
			return l
		}
	}
	return nil
}

// free returns the number if no line has it, else the next one that is free,
// and keeps it for that line.
func (k *knownReceipt) free(number string) string {
	for n := len(k.lines) + 1; k.numbered(number) != nil || k.more[number]; n++ {
		number = strconv.Itoa(n)
	}
	k.more[number] = true
	return number
}

// A meaning is what a cell means: equal for equal cells however they are
// written.
type meaning struct{ column, key, text string }

// receiptCells are what a line of a receipt means. Its note, its number and
// the receipt's identifier mean nothing.
func receiptCells(r *ledger.ReceiptRow) []meaning {
	return []meaning{
		{"date", r.Date.String(), r.Date.String()},
		{"shop", folded(r.Shop), r.Shop},
		{"kind", r.Kind.String(), r.Kind.String()},
		{"item", folded(r.Item), r.Item},
		{"count", r.Count.String(), r.Count.String()},
		{"size", sizeKey(r.Size), r.Size.String()},
		{"price", r.Price.String(), r.Price.String()},
		{"discount", r.Discount().String(), r.Discount().String()},
		{"tax", r.Tax().String(), r.Tax().String()},
	}
}

// keyOf joins what cells mean.
func keyOf(cells []meaning) string {
	var b strings.Builder
	for _, c := range cells {
		b.WriteString(c.key)
		b.WriteByte(0)
	}
	return b.String()
}

// difference returns the first column in which two records differ, of the
// columns that the second gives.
func difference(has, gives []meaning) (column, a, b string) {
	for i, c := range gives {
		if c.key != has[i].key {
			return c.column, has[i].text, c.text
		}
	}
	return "", "", ""
}

// sizeKey writes a quantity in its base unit; a number alone counts pieces.
func sizeKey(q exact.Quantity) string {
	if !q.Given() {
		if q.Sign() == 0 {
			return ""
		}
		return q.Number().String() + " " + exact.Ea.String()
	}
	return q.Base().String()
}
