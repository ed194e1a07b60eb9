package ledger

import (
	"errors"
	"fmt"

	"putby/pricing"
	"putby/pricing/exact"
	"putby/pricing/locale"
)

// This file works out what each line of a receipt cost in all, and holds the sum against
// the printed total. It makes no lots: the lines become those one by one, in buy.go.

// SpendNotes are what to know of what the receipt row at a position cost.
func (g *Ledger) SpendNotes(row int) []Note { return g.spendNotes[int32(row)] }

// postReceipts works out what each line of each receipt cost.
func (g *joiner) postReceipts() {
	g.Spends, g.spendNotes = make([]exact.Money, g.Receipts.Len()), map[int32][]Note{}
	p := &posting{g: g}
	for i := range g.x.receipts.len() {
		p.receipt(g.x.linesOf.of(i))
	}
}

// receipt posts the rows of one receipt.
func (p *posting) receipt(rows []int32) {
	g, first := p.g, p.g.Receipts.At(int(rows[0]))
	*p = posting{
		g: g, id: first.Receipt, first: rows[0], rows: p.rows[:0], lines: p.lines[:0], costs: p.costs[:0],
		wideRow: p.wideRow[:0], wide: p.wide[:0], at: emptied(p.at), named: p.named,
	}
	for _, i := range rows {
		r := g.Receipts.At(int(i))
		g.checkHead(&first, &r)
		if !g.checkMinor(&r) {
			p.bad = true
		}
		p.add(i, &r)
	}
	p.post()
}

// checkHead holds a line to the date and shop of its receipt's first line.
func (g *joiner) checkHead(first, r *ReceiptRow) {
	if g.x.unread.record(place{ReceiptsFile, first.Line}) {
		return
	}
	at := place{ReceiptsFile, r.Line}
	if r.Date != first.Date {
		g.x.fail(at, DateColumn, "the lines of one receipt share its date and shop", "receipt %s is of %s in line %d", r.Receipt, g.shownDay(first.Date), first.Line)
	}
	if r.Shop != first.Shop {
		g.x.fail(at, "shop", "the lines of one receipt share its date and shop", "receipt %s is of %s in line %d", r.Receipt, exact.Quote(first.Shop), first.Line)
	}
}

// checkMinor refuses amounts finer than a shop can print.
func (g *joiner) checkMinor(r *ReceiptRow) bool {
	ok := true
	check := func(field string, m exact.Money) {
		if minor := g.Settings.Currency.Minor(); m.Number().Places() > minor {
			ok = false
			if !g.x.unread.about(SettingsFile, "currency") {
				g.x.fail(place{ReceiptsFile, r.Line}, field, "write it as the receipt prints it", "%s: %v has more than the %d decimals of %s", field, m, minor, g.Settings.Currency.Code())
			}
		}
	}
	if !r.Kind.Bought() {
		check("price", r.Price)
	}
	check("discount", r.Discount())
	check("tax", r.Tax())
	return ok
}

// posting is one receipt being posted. Its memory serves the next one too.
type posting struct {
	g       *joiner
	id      string
	first   int32                // row
	rows    []int32              // of lines
	lines   []pricing.Line       // things bought
	costs   []exact.Money        // of lines
	at      map[string]int       // of lines, by their numbers; -1: an amount
	wideRow []int32              // of wide
	wide    []pricing.Adjustment // receipt-wide amounts
	named   []int32              // of lines: the last of wide that names it, from 1, so that it need not be cleared between two
	deposit exact.Money          // of all its deposit lines; below 0: bottles went back
	total   int32                // row of the printed total
	hasSum  bool
	bad     bool
}

func (p *posting) add(i int32, r *ReceiptRow) {
	minor := p.g.Settings.Currency.Minor()
	if r.Number != "" {
		if _, doubled := p.at[r.Number]; doubled {
			p.g.x.fail(place{ReceiptsFile, r.Line}, LineColumn, "number the lines of a receipt 1, 2, 3 ...", "receipt %s has a line %s already", r.Receipt, r.Number)
		}
		at := len(p.lines)
		if !r.Kind.Bought() {
			at = -1
		}
		p.at[r.Number] = at
	}
	switch {
	case r.Kind.Bought():
		p.rows = append(p.rows, i)
		p.lines = append(p.lines, r.line())
	case r.Kind.Wide():
		p.wideRow = append(p.wideRow, i)
		p.wide = append(p.wide, pricing.Adjustment{Amount: r.Printed(minor)})
	// Money out, so it is in the printed total; no cost, so it is in no line.
	case r.Kind == DepositLine:
		p.g.Spends[i] = r.Printed(minor)
		p.deposit = p.deposit.Add(p.g.Spends[i])
	case p.hasSum:
		p.g.x.fail(place{ReceiptsFile, r.Line}, "kind", "keep one of them", "receipt %s has a total already", r.Receipt)
	default:
		p.total, p.hasSum = i, true
	}
}

// line is a line of something bought.
func (r *ReceiptRow) line() pricing.Line {
	return pricing.Line{Count: r.Count, Price: r.Price.Number(), Discount: r.Discount(), Tax: r.Tax()}
}

// Printed is what a till prints for a line, in a currency of so many minor digits:
// what it comes to by itself, with none of the amounts that are for several lines.
func (r *ReceiptRow) Printed(minor int) exact.Money {
	switch {
	case r.Kind.Bought():
		l := r.line()
		return l.Base(minor).Add(l.Tax)
	case r.Kind == DiscountLine:
		return r.Price.Neg()
	case r.Kind == DepositLine:
		return r.Price.Times(r.Count).Round(minor, exact.HalfAway)
	}
	return r.Price
}

// post apportions the receipt-wide amounts and holds the sum against the
// printed total. One of which lines are unread is left at that.
func (p *posting) post() {
	p.resolveOn()
	if p.bad || p.g.x.unread.about(ReceiptsFile, p.id) {
		return
	}
	costs, err := pricing.PostInto(p.costs, p.lines, p.wide, p.g.Settings.Currency.Minor())
	if err != nil {
		p.fail(err)
		return
	}
	p.costs = costs
	sum := p.deposit
	for i, c := range costs {
		p.g.Spends[p.rows[i]] = c
		sum = sum.Add(c)
	}
	if p.hasSum {
		p.checkTotal(sum)
	}
}

// checkTotal holds what a receipt adds up to against its printed total.
func (p *posting) checkTotal(sum exact.Money) {
	r := p.g.Receipts.At(int(p.total))
	off, word := sum.Sub(r.Price), "much"
	if off.Sign() < 0 {
		off, word = off.Neg(), "little"
	}
	if !off.IsZero() {
		hint := "look for a line left out, or a wrong count, price or discount"
		if rounding := RoundingHint(sum, r.Price, len(p.rows), p.g.Settings.Currency.Minor(), p.g.Settings.Locale); rounding != "" {
			hint += "; " + rounding
		}
		p.g.x.fail(place{ReceiptsFile, r.Line}, "price", hint,
			"receipt %s adds up to %s, its printed total is %s: %s too %s", r.Receipt,
			p.text(sum), p.text(r.Price), p.text(off), word)
	}
}

// RoundingHint says, of a receipt with a number of lines of things bought that
// is off its printed total by no more than their rounding, that this may be it
// and what makes up for it. A till may round each line by up to a minor unit
// some other way, and cash to the nearest five (common practice).
func RoundingHint(sum, printed exact.Money, lines, minor int, l locale.Locale) string {
	off, kind := printed.Sub(sum), ChargeLine
	if off.Sign() < 0 {
		off, kind = off.Neg(), DiscountLine
	}
	if most := exact.New(int64(max(lines, 2)), minor); most.Less(off.Number()) {
		return ""
	}
	text := l.Typed(off.Fixed(minor))
	return fmt.Sprintf("%s may be rounding, of a line or of cash: then add a %v of %s", text, kind, text)
}

func (p *posting) text(m exact.Money) string { return m.Fixed(p.g.Settings.Currency.Minor()) }

// resolveOn turns the lines that a receipt-wide amount names into positions.
func (p *posting) resolveOn() {
	p.named = append(p.named[:0], make([]int32, len(p.lines))...)
	for w, i := range p.wideRow {
		names := p.g.Receipts.At(int(i)).On()
		if w > 0 && !p.bad && sameList(names, p.g.Receipts.At(int(p.wideRow[w-1])).On()) {
			p.wide[w].On = p.wide[w-1].On
			continue
		}
		if len(names) > 0 { // nil is all lines
			p.wide[w].On = make([]int, 0, len(names))
		}
		for _, number := range names {
			at, ok := p.at[number]
			switch {
			case !ok || at < 0:
				p.failOn(i, "name lines of things bought on this receipt", "on: receipt %s has no such line %s", p.id, exact.Quote(number))
			case p.named[at] == int32(w+1):
				p.failOn(i, "name it once", "on: line %s is named twice", number)
			default:
				p.named[at] = int32(w + 1)
				p.wide[w].On = append(p.wide[w].On, at)
			}
		}
	}
}

// emptied is a map with nothing in it: the one given, but for a large one, which
// takes as long to clear as it did to fill and would be cleared for every receipt
// that follows.
func emptied(m map[string]int) map[string]int {
	if m == nil || len(m) > 1000 {
		return map[string]int{}
	}
	clear(m)
	return m
}

// failOn notes a line that a receipt-wide amount cannot be for.
func (p *posting) failOn(row int32, hint, format string, args ...any) {
	p.bad = true
	if !p.g.x.unread.about(ReceiptsFile, p.id) {
		p.g.x.fail(place{ReceiptsFile, p.g.Receipts.At(int(row)).Line}, "on", hint, format, args...)
	}
}

// fail places an error of the posting at the row that caused it.
func (p *posting) fail(err error) {
	row, field, hint := p.first, "price", "correct a count, a price or a discount"
	if at := (*pricing.PostError)(nil); errors.As(err, &at) {
		err = at.Err
		switch {
		case errors.Is(err, pricing.ErrTakenBack):
			row, field = p.wideRow[at.Adjustment], "on"
			hint = "leave that line out, or leave on blank: then all lines but those taken back bear it"
		case at.Line >= 0:
			row, field = p.rows[at.Line], "discount"
		case at.Adjustment >= 0:
			row = p.wideRow[at.Adjustment]
		}
	}
	p.g.x.fail(place{ReceiptsFile, p.g.Receipts.At(int(row)).Line}, field, hint, "receipt %s: %v", p.id, err)
}
