package intake

import (
	"slices"
	"strconv"
	"strings"

	"putby/ledger"
	"putby/pricing/exact"
)

// A receiptBook is the ledger's receipts, found by identifier and by day. Lines of a
// file are matched by what they mean, in the file's order: each uses up one row of its
// receipt's pool, or else is new. So two equal lines of a file want two rows, and a
// file that is imported again adds nothing. The book holds no more of a line than its position, since there may be a million.
type receiptBook struct {
	rows   ledger.ReceiptList
	used   []bool // of each row, whether a line of this import is it
	byID   map[string]*knownReceipt
	byDay  map[string][]*knownReceipt
	taken  map[string]bool // identifiers that a new receipt may not have
	groups map[string]bool // identifiers of this import's receipts
}

// A knownReceipt is a receipt of the ledger.
type knownReceipt struct {
	book  *receiptBook
	date  exact.Date      // of the receipt's first row
	shop  string          // as ledger.Fold writes it
	lines []int32         // positions of its rows
	more  map[string]bool // numbers given to lines that this import adds; nil: none
}

func newReceiptBook(rec *ledger.Records) *receiptBook {
	b := &receiptBook{
		rows: rec.Receipts, used: make([]bool, rec.Receipts.Len()),
		byID: map[string]*knownReceipt{}, byDay: map[string][]*knownReceipt{}, taken: map[string]bool{}, groups: map[string]bool{},
	}
	var shops memo[string]
	for i, r := range rec.Receipts.All() {
		k := b.byID[r.Receipt]
		if k == nil {
			k = &knownReceipt{book: b, date: r.Date, shop: shops.of(r.Shop, func() string { return ledger.Fold(r.Shop) })}
			b.byID[r.Receipt] = k
			day := dayKey(r.Date, k.shop)
			b.byDay[day] = append(b.byDay[day], k)
		}
		k.lines = append(k.lines, int32(i))
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
	return dayKey(date, ledger.Fold(g.shop))
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
	base = base[:min(len(base), maxID-4)] // with room for a number such as -123
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
func (b *receiptBook) pool(g *receiptGroup) (target *knownReceipt, pool map[string][]int32, clash bool) {
	target = b.byID[g.id]
	switch {
	case b.taken[g.id]:
		return nil, nil, true
	case !g.own:
		return target, poolOf(b.byDay[g.key()]...), false
	case target == nil:
		return nil, nil, false
	}
	// A date or a shop alone may have been amended since; with both another it is another receipt.
	date, err := exact.ParseDate(g.date)
	sameDay, sameShop := err == nil && date == target.date, ledger.Fold(g.shop) == target.shop
	return target, poolOf(target), !sameDay && !sameShop
}

// poolOf gathers lines by what they mean.
func poolOf(receipts ...*knownReceipt) map[string][]int32 {
	pool := map[string][]int32{}
	for _, k := range receipts {
		for _, i := range k.lines {
			r := k.book.rows.At(int(i))
			key := keyOf(receiptCells(&r))
			pool[key] = append(pool[key], i)
		}
	}
	return pool
}

// take uses up a row of a pool that means the same as r.
func (b *receiptBook) take(pool map[string][]int32, r *ledger.ReceiptRow) *ledger.ReceiptRow {
	if len(pool) == 0 {
		return nil
	}
	for _, i := range pool[keyOf(receiptCells(r))] {
		if !b.used[i] {
			b.used[i] = true
			known := b.rows.At(int(i))
			return &known
		}
	}
	return nil
}

// numbered returns the position of the row of a number, or -1.
func (k *knownReceipt) numbered(number string) int32 {
	if i := slices.IndexFunc(k.lines, func(at int32) bool { return k.book.rows.At(int(at)).Number == number }); i >= 0 {
		return k.lines[i]
	}
	return -1
}

// free returns the number if no line has it, else the next one that is free,
// and keeps it for that line.
func (k *knownReceipt) free(number string) string {
	for n := len(k.lines) + 1; k.numbered(number) >= 0 || k.more[number]; n++ {
		number = strconv.Itoa(n)
	}
	if k.more == nil {
		k.more = map[string]bool{}
	}
	k.more[number] = true
	return number
}

// A meaning is what a cell means: equal for equal cells however they are
// written.
type meaning struct{ column, key, text string }

// verbatim is the meaning of a cell that records write in one way alone.
func verbatim(column, text string) meaning { return meaning{column, text, text} }

// receiptCells are what a line of a receipt means. Its note, its number and
// the receipt's identifier mean nothing.
func receiptCells(r *ledger.ReceiptRow) []meaning {
	return []meaning{
		verbatim("date", r.Date.String()),
		{"shop", ledger.Fold(r.Shop), r.Shop},
		verbatim("kind", r.Kind.String()),
		{"item", ledger.Fold(r.Item), r.Item},
		verbatim("count", r.Count.String()),
		{"size", sizeKey(r.Size), r.Size.String()},
		verbatim("price", r.Price.String()),
		verbatim("discount", r.Discount().String()),
		verbatim("tax", r.Tax().String()),
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
