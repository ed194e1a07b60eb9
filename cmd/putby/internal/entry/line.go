package entry

import (
	"fmt"
	"slices"
	"strings"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// A Row is a record to be added: cells by column.
type Row struct {
	Kind  ledger.Kind
	Cells map[string]string
}

// A LineError says why a line of a receipt cannot be read.
type LineError struct{ Text, Why string }

// Error quotes the line.
func (e *LineError) Error() string { return exact.Quote(e.Text) + ": " + e.Why }

// The words after which a part of a line begins.
var lineWords = []string{"at", "less", "offer", "tax"}

// ParseBought reads a thing bought into cells of receipts.csv. Kind is food,
// supply, machine, service or other; minor is the currency's minor digits. An
// error is a [*LineError].
func ParseBought(kind ledger.ReceiptKind, text string, minor int) (map[string]string, error) {
	fail := func(format string, args ...any) (map[string]string, error) {
		return nil, &LineError{text, fmt.Sprintf(format, args...)}
	}
	head, tail := cutWords(strings.Fields(text))
	cells := map[string]string{"kind": kind.String()}
	head = takeCount(head, cells)
	head = takeSize(head, cells)
	cells["item"] = strings.Join(head, " ")
	named := kind == ledger.FoodLine || kind == ledger.SupplyLine || kind == ledger.MachineLine
	switch {
	case cells["item"] == "":
		return fail("it names no item: write it as 2 x 500 g strawberries at 1.99")
	case named && len(head) > 1:
		return fail("%s is not one identifier: write it as 2 x 500 g strawberries at 1.99", exact.Quote(cells["item"]))
	case tail["at"] == "":
		return fail("it has no price: end it with at and the price of one, such as at 1.99")
	}
	cells["price"] = tail["at"]
	for _, column := range []struct{ word, column string }{{"less", "discount"}, {"tax", "tax"}} {
		if tail[column.word] != "" {
			cells[column.column] = tail[column.word]
		}
	}
	if tail["offer"] != "" {
		if err := ApplyOffer(cells, tail["offer"], minor); err != nil {
			return fail("%v", err)
		}
	}
	return cells, nil
}

// cutWords splits a line at its words.
func cutWords(words []string) (head []string, tail map[string]string) {
	tail = map[string]string{}
	at := slices.IndexFunc(words, func(w string) bool { return slices.Contains(lineWords, w) })
	if at < 0 {
		return words, tail
	}
	head, words = words[:at], words[at:]
	for len(words) > 0 {
		end := 1
		for end < len(words) && !slices.Contains(lineWords, words[end]) {
			end++
		}
		tail[words[0]] = strings.Join(words[1:end], " ")
		words = words[end:]
	}
	return head, tail
}

// takeCount reads "COUNT x".
func takeCount(words []string, cells map[string]string) []string {
	if len(words) >= 2 && (words[1] == "x" || words[1] == "×") {
		cells["count"] = words[0]
		return words[2:]
	}
	return words
}

// takeSize reads "500 g" or "500g".
func takeSize(words []string, cells map[string]string) []string {
	for n := 1; n <= 2 && n < len(words); n++ {
		size := strings.Join(words[:n], " ")
		if _, err := exact.ParseQuantity(size); err == nil {
			cells["size"] = size
			return words[n:]
		}
	}
	return words
}

// ApplyOffer turns an offer into the discount of a line that [ParseBought] has
// read, on top of one that it has.
func ApplyOffer(cells map[string]string, text string, minor int) error {
	offer, err := pricing.ParseOffer(text)
	if err != nil {
		return err
	}
	count := exact.Int(1)
	if cells["count"] != "" {
		if count, err = exact.ParseNumber(cells["count"]); err != nil {
			return err
		}
	}
	price, err := exact.ParseNumber(cells["price"])
	if err != nil {
		return err
	}
	discount, err := offer.Discount(count, price, minor)
	if err != nil {
		return err
	}
	if cells["discount"] != "" {
		before, err := exact.ParseNumber(cells["discount"])
		if err != nil {
			return err
		}
		discount = discount.Add(exact.MoneyOf(before))
	}
	cells["discount"] = discount.Fixed(minor)
	note := "offer " + offer.String()
	if cells["note"] != "" {
		note = cells["note"] + "; " + note
	}
	cells["note"] = note
	return nil
}

// ParseAmount reads a receipt-wide amount into cells of receipts.csv.
func ParseAmount(kind ledger.ReceiptKind, text string) (map[string]string, error) {
	amount, on, named := strings.Cut(text, " on ")
	cells := map[string]string{"kind": kind.String(), "price": strings.TrimSpace(amount)}
	if named {
		cells["on"] = strings.ReplaceAll(on, " ", "")
	}
	if _, err := exact.ParseNumber(cells["price"]); err != nil {
		return nil, &LineError{text, err.Error()}
	}
	return cells, nil
}
