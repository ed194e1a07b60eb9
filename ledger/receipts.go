package ledger

import (
	"errors"
	"slices"

	"putby/pricing"
	"putby/pricing/exact"
)

// A Spend is what a receipt row cost, all told, or the deposit it paid. It is
// parallel to Records.Receipts.
type Spend struct {
	Cost  exact.Money // at minor digits; nothing for receipt-wide rows and totals
	Notes []string
}

// postReceipts works out what each line of each receipt cost.
func (g *Ledger) postReceipts() {
	g.Spends = make([]Spend, len(g.Receipts))
	heads := map[string]int32{}
	owner := make([]int32, len(g.Receipts))
	for i := range g.Receipts {
		id := g.Receipts[i].Receipt
		if i > 0 && id == g.Receipts[i-1].Receipt {
			owner[i] = owner[i-1]
			continue
		}
		head, seen := heads[id]
		if !seen {
			head = int32(len(heads))
			heads[id] = head
		}
		owner[i] = head
	}
	receipts := group(len(heads), len(g.Receipts), func(i int) int { return int(owner[i]) })
	for i := range len(heads) {
		g.postReceipt(receipts.of(i))
	}
	for i := range g.Batches {
		if b := &g.Batches[i]; b.ID != "" && g.x.has(heads, b.ID) {
			g.x.fail(BatchesFile, b.Line, "batch", "receipts and batches share one set of identifiers", "%s is a receipt too", b.ID)
		}
	}
	ids(g.x, BatchesFile, "batch", g.Batches, func(b *Batch) (string, int) { return b.ID, b.Line })
}

// postReceipt posts the rows of one receipt.
func (g *Ledger) postReceipt(rows []int32) {
	p := posting{g: g, at: map[string]int{}}
	first := &g.Receipts[rows[0]]
	for _, i := range rows {
		r := &g.Receipts[i]
		if r.Date != first.Date || r.Shop != first.Shop {
			g.x.fail(ReceiptsFile, r.Line, "date", "the lines of one receipt share its date and shop", "receipt %s is of %v at %s in line %d", r.Receipt, first.Date, exact.Quote(first.Shop), first.Line)
		}
		if !g.checkMinor(r) {
			p.bad = true
		}
		p.add(i, r)
	}
	p.post()
}

// checkMinor refuses amounts finer than a shop can print.
func (g *Ledger) checkMinor(r *ReceiptRow) bool {
	ok := true
	check := func(field string, m exact.Money) {
		if minor := g.Settings.Currency.Minor(); m.Number().Places() > minor {
			g.x.fail(ReceiptsFile, r.Line, field, "", "%s: %v has more than %d decimals", field, m, minor)
			ok = false
		}
	}
	if !r.Kind.Bought() {
		check("price", r.Price)
	}
	check("discount", r.Discount)
	check("tax", r.Tax)
	return ok
}

// posting is one receipt being posted.
type posting struct {
	g       *Ledger
	rows    []int32              // of lines
	lines   []pricing.Line       // things bought
	at      map[string]int       // line number to position in lines
	wideRow []int32              // of wide
	wide    []pricing.Adjustment // receipt-wide amounts
	deposit exact.Money
	total   int32 // row of the printed total
	hasSum  bool
	bad     bool
}

func (p *posting) add(i int32, r *ReceiptRow) {
	if r.Number != "" {
		if _, doubled := p.at[r.Number]; doubled {
			p.g.x.fail(ReceiptsFile, r.Line, "line", "number the lines of a receipt 1, 2, 3 ...", "receipt %s has a line %s already", r.Receipt, r.Number)
		}
		p.at[r.Number] = len(p.lines)
		if !r.Kind.Bought() {
			p.at[r.Number] = -1
		}
	}
	switch {
	case r.Kind.Bought():
		p.rows = append(p.rows, i)
		p.lines = append(p.lines, pricing.Line{Count: r.Count, Price: r.Price.Number(), Discount: r.Discount, Tax: r.Tax})
	case r.Kind.Wide():
		p.wideRow = append(p.wideRow, i)
		amount := r.Price
		if r.Kind == DiscountLine {
			amount = amount.Neg()
		}
		p.wide = append(p.wide, pricing.Adjustment{Amount: amount})
	case r.Kind == DepositLine:
		amount := r.Price.Times(r.Count).Round(p.g.Settings.Currency.Minor(), exact.HalfAway)
		p.g.Spends[i].Cost = amount
		p.deposit = p.deposit.Add(amount)
	case p.hasSum:
		p.g.x.fail(ReceiptsFile, r.Line, "kind", "keep one of them", "receipt %s has a total already", r.Receipt)
	default:
		p.total, p.hasSum = i, true
	}
}

// post apportions the receipt-wide amounts and holds the sum against the
// printed total.
func (p *posting) post() {
	p.resolveOn()
	if p.bad {
		return
	}
	costs, err := pricing.Post(p.lines, p.wide, p.g.Settings.Currency.Minor())
	if err != nil {
		p.fail(err)
		return
	}
	sum := p.deposit
	for i, c := range costs {
		p.g.Spends[p.rows[i]].Cost = c
		sum = sum.Add(c)
	}
	if !p.hasSum {
		return
	}
	r := &p.g.Receipts[p.total]
	off, word := sum.Sub(r.Price), "much"
	if off.Sign() < 0 {
		off, word = off.Neg(), "little"
	}
	if !off.IsZero() {
		p.g.x.failSum(ReceiptsFile, r.Line, "price", "look for a line left out, or a wrong count, price or discount",
			"receipt %s adds up to %s, its printed total is %s: %s too %s", r.Receipt,
			p.text(sum), p.text(r.Price), p.text(off), word)
	}
}

func (p *posting) text(m exact.Money) string { return m.Fixed(p.g.Settings.Currency.Minor()) }

// resolveOn turns the lines that a receipt-wide amount names into positions.
func (p *posting) resolveOn() {
	for w, i := range p.wideRow {
		r := &p.g.Receipts[i]
		for _, number := range r.On {
			at, ok := p.at[number]
			switch {
			case !ok || at < 0:
				p.g.x.fail(ReceiptsFile, r.Line, "on", "name lines of things bought on this receipt", "on: receipt %s has no such line %s", r.Receipt, exact.Quote(number))
				p.bad = true
			case slices.Contains(p.wide[w].On, at):
				p.g.x.fail(ReceiptsFile, r.Line, "on", "", "on: line %s is named twice", number)
				p.bad = true
			default:
				p.wide[w].On = append(p.wide[w].On, at)
			}
		}
	}
}

// fail places an error of the posting at the row that caused it.
func (p *posting) fail(err error) {
	row, field := p.total, "price"
	var at *pricing.PostError
	switch {
	case errors.As(err, &at) && at.Line >= 0:
		row, field = p.rows[at.Line], "discount"
	case errors.As(err, &at) && at.Adjustment >= 0:
		row = p.wideRow[at.Adjustment]
	}
	r := &p.g.Receipts[row]
	cause := errors.Unwrap(err)
	if cause == nil {
		cause = err
	}
	p.g.x.failSum(ReceiptsFile, r.Line, field, "", "receipt %s: %v", r.Receipt, cause)
}
