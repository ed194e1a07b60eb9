package entry

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// A Receipt is a receipt being typed in.
type Receipt struct {
	id, date, shop string
	currency       exact.Currency
	rows           []map[string]string
	kinds          []ledger.ReceiptKind
}

// NewReceipt begins a receipt.
func NewReceipt(id, date, shop string, c exact.Currency) *Receipt {
	return &Receipt{id: id, date: date, shop: shop, currency: c}
}

// Lines returns how many lines there are.
func (r *Receipt) Lines() int { return len(r.rows) }

// Add adds a line of a kind, as [ParseBought] or [ParseAmount] read it. A line
// that cannot be read is a [*LineError], and is not added.
func (r *Receipt) Add(kind ledger.ReceiptKind, text string) error {
	parse := func() (map[string]string, error) { return ParseAmount(kind, text) }
	if kind.Bought() {
		parse = func() (map[string]string, error) { return ParseBought(kind, text, r.currency.Minor()) }
	}
	cells, err := parse()
	if err != nil {
		return err
	}
	cells["receipt"], cells["date"], cells["shop"] = r.id, r.date, r.shop
	cells["line"] = strconv.Itoa(len(r.rows) + 1)
	r.rows, r.kinds = append(r.rows, cells), append(r.kinds, kind)
	return nil
}

// AddWords adds a line that begins with the word of its kind.
func (r *Receipt) AddWords(text string) error {
	word, rest, _ := strings.Cut(strings.TrimSpace(text), " ")
	for _, kind := range ledger.ReceiptKinds() {
		if kind.String() == word {
			return r.Add(kind, rest)
		}
	}
	return &LineError{text, "it begins with food, supply, machine, service, other, discount, tax, charge, deposit or total"}
}

// errOffer says when an offer may stand by itself.
var errOffer = errors.New("an offer by itself is for a receipt with one thing bought: write it into the line, as in \"3 x 500 g pears at 1.99 offer 3 for 5.00\"")

// Offer puts an offer on the one thing bought.
func (r *Receipt) Offer(text string) error {
	at := -1
	for i, kind := range r.kinds {
		if kind.Bought() {
			if at >= 0 {
				return errOffer
			}
			at = i
		}
	}
	if at < 0 {
		return errOffer
	}
	return ApplyOffer(r.rows[at], text, r.currency.Minor())
}

// Total is what the receipt comes to so far, deposits included.
func (r *Receipt) Total() (exact.Money, error) {
	var lines []pricing.Line
	var wide []pricing.Adjustment
	var deposits exact.Money
	at := map[string]int{}
	for i, cells := range r.rows {
		n, err := numbers(cells)
		if err != nil {
			return exact.Money{}, fmt.Errorf("line %d: %w", i+1, err)
		}
		switch kind := r.kinds[i]; {
		case kind.Bought():
			at[cells["line"]] = len(lines)
			lines = append(lines, pricing.Line{Count: n["count"], Price: n["price"], Discount: exact.MoneyOf(n["discount"]), Tax: exact.MoneyOf(n["tax"])})
		case kind.Wide():
			amount := exact.MoneyOf(n["price"])
			if kind == ledger.DiscountLine {
				amount = amount.Neg()
			}
			adjustment := pricing.Adjustment{Amount: amount}
			for on := range strings.SplitSeq(cells["on"], ",") {
				if line, ok := at[on]; ok {
					adjustment.On = append(adjustment.On, line)
				}
			}
			wide = append(wide, adjustment)
		case kind == ledger.DepositLine:
			deposits = deposits.Add(exact.MoneyOf(n["price"]))
		}
	}
	costs, err := pricing.Post(lines, wide, r.currency.Minor())
	sum := deposits
	for _, c := range costs {
		sum = sum.Add(c)
	}
	return sum, err
}

// numbers reads the numeric cells of a line; a blank count is 1.
func numbers(cells map[string]string) (map[string]exact.Number, error) {
	n := map[string]exact.Number{"count": exact.Int(1)}
	for _, column := range []string{"count", "price", "discount", "tax"} {
		if cells[column] == "" {
			continue
		}
		v, err := exact.ParseNumber(cells[column])
		if err != nil {
			return nil, err
		}
		n[column] = v
	}
	return n, nil
}

// Rows returns the rows to add.
func (r *Receipt) Rows() []Row {
	k, _ := ledger.KindOf("receipt")
	rows := make([]Row, len(r.rows))
	for i, cells := range r.rows {
		rows[i] = Row{k, cells}
	}
	return rows
}
