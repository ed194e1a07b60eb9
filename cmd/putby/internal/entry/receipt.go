package entry

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
	"putby/pricing/locale"
)

// A Receipt is a receipt being typed in.
type Receipt struct {
	ID, Date, Shop string
	Currency       exact.Currency
	Locale         locale.Locale     // in which people are told of it
	Lines          []Line            // numbered from 1
	More           map[string]string // the cells of every line that are [NotInLines]
}

// Amount writes a sum of it as people are shown it, without the currency.
func (r *Receipt) Amount(m exact.Money) string { return r.Locale.Amount(m.Fixed(r.Currency.Minor())) }

// Typed is a line of it as people type it.
func (r *Receipt) Typed(l *Line) string { return asTyped(r.Locale, l.String()) }

// errOffer says when an offer may stand by itself.
var errOffer = errors.New("an offer by itself is for a receipt with one thing bought: write it into the line, as in \"3 x 500 g pears at 1.99 offer 3 for 5.00\"")

// Offer puts an offer on the one thing bought.
func (r *Receipt) Offer(text string) error {
	if _, err := pricing.ParseOffer(text); err != nil {
		return err
	}
	var bought []*Line
	for i := range r.Lines {
		if r.Lines[i].Kind.Bought() {
			bought = append(bought, &r.Lines[i])
		}
	}
	if len(bought) != 1 || bought[0].Offer != "" {
		return errOffer
	}
	bought[0].Offer = text
	return nil
}

// A Sum is what a receipt comes to so far.
type Sum struct {
	Lines   []exact.Money          // each line as the till prints it; a discount is negative, a total 0
	Total   exact.Money            // of all, deposits included
	Printed exact.Opt[exact.Money] // the printed total, if a line has it
}

// Sum adds the receipt up. An error says which line cannot be; the sum is that
// of all lines even then.
func (r *Receipt) Sum() (Sum, error) {
	s := Sum{Lines: make([]exact.Money, len(r.Lines))}
	p := posting{at: map[string]int{}}
	for i := range r.Lines {
		l := &r.Lines[i]
		if err := p.add(i+1, l, r.Currency.Minor()); err != nil {
			return s, err
		}
		s.Lines[i] = p.amount
		s.Total = s.Total.Add(p.amount)
		if l.Kind == ledger.TotalLine {
			s.Printed = exact.Some(exact.MoneyOf(number(l.Price)))
		}
	}
	return s, p.post(r.Currency.Minor())
}

// A posting is a receipt on its way to pricing.
type posting struct {
	bought []pricing.Line
	wide   []pricing.Adjustment
	on     []string       // of wide, as typed
	at     map[string]int // number of a line to its place in bought
	number [2][]int       // numbers of the lines in bought and in wide
	amount exact.Money    // of the line added last
}

// add adds a line by its number.
func (p *posting) add(n int, l *Line, minor int) error {
	p.amount = exact.MoneyOf(number(l.Price))
	switch {
	case l.Kind.Bought():
		discount, err := l.discount(minor)
		if err != nil {
			return fmt.Errorf("line %d: %w", n, err)
		}
		line := pricing.Line{Count: l.count(), Price: number(l.each(minor)), Discount: discount, Tax: exact.MoneyOf(number(l.Tax))}
		p.amount = line.Base(minor).Add(line.Tax)
		p.at[strconv.Itoa(n)] = len(p.bought)
		p.bought, p.number[0] = append(p.bought, line), append(p.number[0], n)
	case l.Kind == ledger.TotalLine:
		p.amount = exact.Money{}
	case l.Kind == ledger.DepositLine:
		p.amount = p.amount.Times(l.count()).Round(minor, exact.HalfAway)
	case l.Kind.Wide():
		if l.Kind == ledger.DiscountLine {
			p.amount = p.amount.Neg()
		}
		p.wide, p.on = append(p.wide, pricing.Adjustment{Amount: p.amount}), append(p.on, l.On)
		p.number[1] = append(p.number[1], n)
	}
	return nil
}

// post sees to it that every receipt-wide amount has lines to go on. What each
// line bears of it is the ledger's business; here only the sum counts.
func (p *posting) post(minor int) error {
	for i, on := range p.on {
		if on == "" {
			continue
		}
		for name := range strings.SplitSeq(on, ",") {
			line, ok := p.at[name]
			if !ok {
				return fmt.Errorf("line %d: %s is no line of a thing bought", p.number[1][i], quote(name))
			}
			p.wide[i].On = append(p.wide[i].On, line)
		}
	}
	_, err := pricing.Post(p.bought, p.wide, minor)
	at := (*pricing.PostError)(nil)
	if !errors.As(err, &at) {
		return err
	}
	if at.Line >= 0 {
		return fmt.Errorf("line %d: %w", p.number[0][at.Line], at.Err)
	}
	return fmt.Errorf("line %d: %w", p.number[1][at.Adjustment], at.Err)
}

// DropTotal takes the printed total out.
func (r *Receipt) DropTotal() {
	r.Lines = slices.DeleteFunc(r.Lines, func(l Line) bool { return l.Kind == ledger.TotalLine })
}

// Rows returns the rows to add.
func (r *Receipt) Rows() ([]Row, error) {
	k := ledger.MustKind("receipt")
	rows := make([]Row, len(r.Lines))
	for i := range r.Lines {
		cells, err := r.Lines[i].Cells(r.Currency.Minor())
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", i+1, err)
		}
		cells["receipt"], cells["date"], cells["shop"], cells["line"] = r.ID, r.Date, r.Shop, strconv.Itoa(i+1)
		addNotInLines(cells, r.More)
		rows[i] = Row{k, cells}
	}
	return rows, nil
}

// inLines are the columns that a receipt and its lines say in words.
var inLines = []string{"receipt", "date", "shop", "line", "kind", "item", "count", "size", "price", "discount", "tax", "on", "note"}

// NotInLines names the columns of receipts for which lines have no words.
func NotInLines() []string {
	return slices.DeleteFunc(ledger.MustKind("receipt").Header(), func(c string) bool { return slices.Contains(inLines, c) })
}

// addNotInLines puts what is said of columns that lines do not say among a line's cells.
func addNotInLines(cells, more map[string]string) {
	for _, column := range NotInLines() {
		if more[column] != "" {
			cells[column] = more[column]
		}
	}
}

// ParseKind finds the kind of line that a word names.
func ParseKind(word string) (ledger.ReceiptKind, bool) {
	for _, kind := range ledger.ReceiptKinds() {
		if kind.String() == word {
			return kind, true
		}
	}
	return 0, false
}

// kindWord splits a line that begins with the word of its kind.
func kindWord(text string) (kind ledger.ReceiptKind, rest string, ok bool) {
	word, rest, found := strings.Cut(strings.TrimSpace(text), " ")
	if kind, ok = ParseKind(word); ok && found {
		return kind, strings.TrimSpace(rest), true
	}
	return 0, text, false
}
