package intake

import (
	"iter"
	"slices"
	"strconv"
	"strings"

	"putby/ledger"
	"putby/pricing/exact"
)

// kindsKnown are the kinds whose item is something the ledger knows.
var kindsKnown = []string{ledger.FoodLine.String(), ledger.SupplyLine.String(), ledger.MachineLine.String()}

// A receiptGroup is the lines of one receipt of the foreign file.
type receiptGroup struct {
	id      string // the receipt's own, or the one made for it
	own     bool   // whether the file gives it
	foreign string // as the file writes it
	date    string
	shop    string
	rows    []int32 // positions in the table
}

// receipts turns lines of receipts into rows. It keeps which rows are of which
// receipt, and reads them again receipt by receipt.
func (w *writer) receipts(b *binding, drafts iter.Seq[*draft]) {
	groups := w.groups(drafts)
	known := newReceiptBook(w.rec)
	// Identifiers that the file gives come first, so that none made up takes one of them.
	for _, own := range []bool{true, false} {
		for _, g := range groups {
			if g.own == own {
				known.name(g)
			}
		}
	}
	again, look := w.again(), b.t.look()
	for _, g := range groups {
		lines := make([]*draft, len(g.rows))
		for i, at := range g.rows {
			lines[i] = again.readRow(b, int(at), look.row(int(at)))
			again.completeLine(lines[i])
			lines[i].set("date", g.date)
			lines[i].set("shop", g.shop)
		}
		w.receipt(g, lines, known)
	}
}

// again is the writer for rows that are read a second time: what there is to
// remark of them has been said.
func (w *writer) again() *writer {
	mute := *w
	mute.p, mute.unknown = &Plan{Target: w.p.Target, Map: w.p.Map}, map[string]int{}
	return &mute
}

// groups gathers the rows of each receipt, those of the first row first.
func (w *writer) groups(drafts iter.Seq[*draft]) (groups []*receiptGroup) {
	byKey := map[string]*receiptGroup{}
	for d := range drafts {
		if w.skips(d.get("item")) {
			w.p.Left++
			continue
		}
		if !w.completeLine(d) {
			continue
		}
		g := w.groupOf(d, byKey)
		if g == nil {
			continue
		}
		if len(g.rows) == 0 {
			groups = append(groups, g)
		}
		g.rows = append(g.rows, int32(d.at))
	}
	return groups
}

// groupOf finds the receipt of a line: by its number, else by date and shop.
func (w *writer) groupOf(d *draft, byKey map[string]*receiptGroup) *receiptGroup {
	id, date, shop := d.get("receipt"), d.get("date"), d.get("shop")
	key := "id " + id
	if id == "" {
		key = "day " + date + " " + w.fold(shop)
	}
	g := byKey[key]
	if g == nil {
		if date == "" {
			w.bad(d, "date", "the row has no date", "")
			return nil
		}
		g = &receiptGroup{id: id, own: id != "", foreign: d.id, date: date, shop: shop}
		byKey[key] = g
	}
	// Some tills print date and shop on a receipt's first line alone.
	switch {
	case d.id != g.foreign:
		w.bad(d, "receipt", exact.Quote(d.id)+" and "+exact.Quote(g.foreign)+" become the same identifier, "+id, "")
		return nil
	case date != "" && date != g.date:
		w.bad(d, "date", "the receipt "+id+" is of "+g.date+" and of "+date, "")
		return nil
	case shop != "" && w.fold(shop) != w.fold(g.shop):
		w.bad(d, "shop", "the receipt "+id+" is from "+exact.Quote(g.shop)+" and from "+exact.Quote(shop),
			"let the map join shop and number: Shop + Number")
		return nil
	}
	return g
}

// fold is [ledger.Fold] for what is said over and over.
func (w *writer) fold(text string) string {
	return w.folds.of(text, func() string { return ledger.Fold(text) })
}

// completeLine settles shop, kind, item, size, count and price of a line.
func (w *writer) completeLine(d *draft) bool {
	before := len(w.p.Bad)
	if shop := w.shops.find(d.get("shop")); shop != nil {
		d.set("shop", shop.Item)
	}
	w.settleKind(d)
	w.settleSize(d)
	w.settlePrice(d)
	return len(w.p.Bad) == before
}

// settleKind finds what a line is: what the file says, else what the names
// say, else what the ledger knows by that name, else the map's value, else
// other.
func (w *writer) settleKind(d *draft) {
	text, given := d.get("item"), d.kind
	item, kind, size, ok := w.resolve(text, given)
	switch {
	case given != "":
		d.set("kind", given)
	case ok && kind != "":
		d.set("kind", kind)
	case d.get("kind") == "":
		d.set("kind", ledger.OtherLine.String())
	}
	switch {
	case ok && text != "":
		d.set("item", item)
	case slices.Contains(kindsKnown, d.get("kind")) && text != "":
		w.lacks(d, "item", exact.Quote(text)+" is no "+d.get("kind")+" that the ledger knows", ledger.NameMeaning, exact.Quote(text))
	case d.get("kind") == ledger.OtherLine.String() && given == "" && text != "":
		w.noteUnknown(d, text)
	}
	if size != "" && d.get("size") == "" {
		d.set("size", size)
	}
}

// settleSize moves a count with a unit, "1.234 kg" of goods sold loose, into
// the size, and drops sizes found in the text of lines that take none.
func (w *writer) settleSize(d *draft) {
	number, unit, found := strings.Cut(d.get("count"), " ")
	if found && unit != exact.Ea.String() {
		if size := d.get("size"); size != "" {
			w.bad(d, "count", "the count "+d.get("count")+" has a unit, and there is a size, "+size, "")
			return
		}
		d.set("size", "1 "+unit)
	}
	if found {
		d.set("count", number)
	}
	size := d.get("size")
	_, unit, _ = strings.Cut(size, " ")
	switch d.get("kind") {
	case ledger.FoodLine.String():
		if size == "" {
			w.lacks(d, "size", "nothing says how much of "+d.get("item")+" a package holds", ledger.NameSize, "")
		}
	case ledger.SupplyLine.String():
		if u, err := exact.ParseUnit(unit); err == nil && u.Dimension() != exact.Count && w.p.Map.how("size").Within {
			d.set("size", "")
		}
	default:
		if w.p.Map.how("size").Within {
			d.set("size", "")
		}
	}
}

// settlePrice turns the price of a whole line into that of one package, and
// drops the sign by which files mark a discount.
func (w *writer) settlePrice(d *draft) {
	if d.get("kind") == ledger.DiscountLine.String() {
		d.set("price", strings.TrimPrefix(d.get("price"), "-"))
	}
	d.set("discount", strings.TrimPrefix(d.get("discount"), "-"))
	if !w.p.Map.how("price").Total || d.get("count") == "" || d.get("price") == "" {
		return
	}
	count, err := exact.ParseNumber(d.get("count"))
	price, err2 := exact.ParseNumber(d.get("price"))
	if err != nil || err2 != nil {
		return // the ledger's own check says why
	}
	each, ok := PriceOfOne(price, count, w.rec.Settings.Currency.Minor())
	if !ok {
		w.bad(d, "count", "a total of "+d.get("price")+" cannot be shared among "+d.get("count"), "")
		return
	}
	d.set("price", each)
}

// PriceOfOne returns the price with the fewest places which times count,
// rounded as a till does, is the total.
func PriceOfOne(total, count exact.Number, minor int) (string, bool) {
	if count.Sign() <= 0 {
		return "", false
	}
	places := max(minor, total.Places())
	for p := minor; p <= exact.MaxFraction; p++ {
		each := total.Over(count).Round(p, exact.HalfEven)
		if each.Mul(count).Round(places, exact.HalfAway).Equal(total) {
			return each.Fixed(minor), true
		}
	}
	return "", false
}

// receipt holds a receipt against the ledger and adds the lines that are new.
func (w *writer) receipt(g *receiptGroup, drafts []*draft, known *receiptBook) {
	target, pool, clash := known.pool(g)
	if clash {
		for _, d := range drafts {
			w.bad(d, "receipt", "the ledger has a receipt "+g.id+" of another day and shop",
				"let the map join shop and number: Shop + Number")
		}
		return
	}
	// Lines that are there use up their rows first: only a row that is left may be an amended one.
	var left []*lineRow
	for i, d := range drafts {
		d.set("receipt", g.id)
		if d.get("line") == "" {
			d.set("line", strconv.Itoa(i+1))
		}
		c, ok := w.check(d, ledger.ReceiptsFile, d.cells)
		if !ok {
			continue
		}
		line := &lineRow{d, c.rec.Receipts.At(0)}
		if have := known.take(pool, &line.record); have != nil {
			w.p.There = append(w.p.There, There{Line: d.row.Line, File: ledger.ReceiptsFile, At: have.Line})
			continue
		}
		if !w.ahead("date", line.record.Date, d) {
			left = append(left, line)
		}
	}
	for _, line := range left {
		w.newLine(line, target, g)
	}
}

// A lineRow is a line of a receipt, typed.
type lineRow struct {
	draft  *draft
	record ledger.ReceiptRow
}

// newLine adds a line that the ledger has not, unless the ledger has another in
// its place.
func (w *writer) newLine(line *lineRow, target *knownReceipt, g *receiptGroup) {
	d := line.draft
	if target != nil {
		known := target.book
		if at := target.numbered(line.record.Number); at >= 0 && !known.used[at] {
			if have := known.rows.At(int(at)); g.replaces(target, &have, line) {
				known.used[at] = true
				w.compare(d, ledger.ReceiptsFile, have.Line, receiptCells(&have), receiptCells(&line.record))
				return
			}
		}
		d.set("line", target.free(line.record.Number))
	}
	w.new.Receipts = ledger.ReceiptList{}.With(line.record)
	w.add(ledger.ReceiptsFile, d.row.Line, d.cells, &w.new)
}

// replaces reports whether a line of the file is the ledger's line of the same
// number with something amended. In a receipt of a number it is. A day's lines
// that the file does not number must all be there, since their places count,
// and the two have item or price in common.
func (g *receiptGroup) replaces(target *knownReceipt, have *ledger.ReceiptRow, line *lineRow) bool {
	if g.own {
		return true
	}
	sameItem := ledger.Fold(have.Item) == ledger.Fold(line.record.Item)
	return len(g.rows) >= len(target.lines) && (sameItem || have.Price.Equal(line.record.Price))
}
