package entry

import (
	"fmt"
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/intake"
	"putby/pricing"
	"putby/pricing/exact"
)

func quote(s string) string { return exact.Quote(s) }

// A Line is a line of a receipt as it was typed; what was left out is "".
type Line struct {
	Kind  ledger.ReceiptKind
	Count string
	Size  string
	Item  string
	Price string // of one package; the amount of a receipt-wide kind
	Per   string // the unit that a price by weight or measure is for; its amount is Size
	Less  string // off the whole line
	Offer string
	Tax   string // on the whole line
	On    string // lines that a receipt-wide amount is for
	Note  string
}

// The words after which a part of a line begins. A note goes on to the end.
var lineWords = []string{"at", "less", "offer", "tax", "note"}

const asInLine = "write it as 2 x 500 g strawberries at 1.99"

// ParseLine reads a line of a kind. What was not typed is left out, and
// [Line.Lacks] names it; what was typed must make sense. An error is a
// [*TextError].
func ParseLine(kind ledger.ReceiptKind, text string) (Line, error) {
	l := Line{Kind: kind}
	var why string
	if kind.Bought() {
		why = l.readBought(text)
	} else {
		why = l.readAmount(text)
	}
	if why != "" {
		return Line{}, &TextError{text, why}
	}
	return l, nil
}

// readBought reads a thing bought, and returns what is wrong.
func (l *Line) readBought(text string) string {
	head, tail := cutWords(strings.Fields(text))
	l.Price, l.Per, _ = strings.Cut(tail["at"], "/")
	l.Less, l.Offer, l.Tax, l.Note = tail["less"], tail["offer"], tail["tax"], tail["note"]
	l.Price, l.Less, l.Tax = sum(l.Price), sum(l.Less), sum(l.Tax)
	if unit, ok := intake.UnitWord(l.Per); ok {
		l.Per = unit.String()
	}
	head = l.takeCount(head)
	head = l.takeSize(head)
	if l.Count == "" && l.Size == "" && l.Named() && len(head) > 1 && isNumber(head[0]) {
		l.Count, head = head[0], head[1:]
	}
	l.Item = strings.Join(head, " ")
	if l.Item == "" {
		return "it names no item: " + asInLine
	}
	return l.checkNumbers()
}

// Named reports whether the line's item is a food, a supply or a machine of the
// ledger, by its identifier or as people call it.
func (l *Line) Named() bool {
	return l.Kind == ledger.FoodLine || l.Kind == ledger.SupplyLine || l.Kind == ledger.MachineLine
}

// checkNumbers returns what is wrong with the amounts.
func (l *Line) checkNumbers() string {
	for _, amount := range []struct{ what, text string }{{"count", l.Count}, {"price", l.Price}, {"amount after less", l.Less}, {"tax", l.Tax}} {
		if amount.text != "" && !isNumber(amount.text) {
			return fmt.Sprintf("the %s %s is not a number such as 1.99", amount.what, quote(amount.text))
		}
	}
	if l.Offer != "" {
		if _, err := pricing.ParseOffer(l.Offer); err != nil {
			return err.Error()
		}
	}
	if l.Per != "" {
		return l.checkPer()
	}
	return ""
}

// checkPer returns what is wrong with a price by weight or measure.
func (l *Line) checkPer() string {
	unit, err := exact.ParseUnit(l.Per)
	switch {
	case err != nil:
		return err.Error()
	case l.Count != "":
		return "a price per " + l.Per + " is for an amount, such as 1.234 kg pears at 2.49/kg: leave the count out"
	case l.Size == "":
		return "a price per " + l.Per + " needs the amount bought, such as 1.234 kg pears at 2.49/kg"
	}
	if _, err := exact.MustQuantity(l.Size).In(unit); err != nil {
		return fmt.Sprintf("%s is not sold by the %s", l.Size, l.Per)
	}
	return ""
}

// cutWords splits a line at its words.
func cutWords(words []string) (head []string, tail map[string]string) {
	tail = map[string]string{}
	at := slices.IndexFunc(words, isLineWord)
	if at < 0 {
		return words, tail
	}
	head, words = words[:at], words[at:]
	for len(words) > 0 {
		end := 1
		for end < len(words) && (words[0] == "note" || !isLineWord(words[end])) {
			end++
		}
		tail[words[0]] = strings.Join(words[1:end], " ")
		words = words[end:]
	}
	return head, tail
}

func isLineWord(w string) bool { return slices.Contains(lineWords, w) }

func isNumber(s string) bool {
	_, err := exact.ParseNumber(s)
	return err == nil
}

// takeCount reads "2 x" or "2x".
func (l *Line) takeCount(words []string) []string {
	if len(words) >= 2 && (words[1] == "x" || words[1] == "×") {
		l.Count = words[0]
		return words[2:]
	}
	if len(words) > 0 {
		for _, times := range []string{"x", "×"} {
			if n, ok := strings.CutSuffix(words[0], times); ok && isNumber(n) {
				l.Count = n
				return words[1:]
			}
		}
	}
	return words
}

// takeSize reads "500 g" or "500g".
func (l *Line) takeSize(words []string) []string {
	for n := 1; n <= 2 && n < len(words); n++ {
		size := Amount(strings.Join(words[:n], " "))
		if _, err := exact.ParseQuantity(size); err == nil {
			l.Size = size
			return words[n:]
		}
	}
	return words
}

// readAmount reads an amount for the whole receipt, or for some of its lines.
func (l *Line) readAmount(text string) string {
	text, l.Note, _ = strings.Cut(text, " note ")
	amount, on, named := strings.Cut(text, " on ")
	words := strings.Fields(amount)
	if l.Kind == ledger.DepositLine {
		words = l.takeCount(words)
	}
	l.Price, l.Note = sum(strings.Join(words, " ")), strings.TrimSpace(l.Note)
	l.On = strings.ReplaceAll(on, " ", "")
	switch {
	case l.Price == "":
		return "it has no amount: write it as 2.00"
	case l.Count != "" && !isNumber(l.Count):
		return fmt.Sprintf("the count %s is not a number such as 8", quote(l.Count))
	case !isNumber(l.Price):
		return fmt.Sprintf("the amount %s is not a number such as 2.00", quote(l.Price))
	case named && l.On == "":
		return "after on stand the lines it is for, such as 1,2"
	case named && !l.Kind.Wide():
		return fmt.Sprintf("a %v is for no line: leave out on %s", l.Kind, l.On)
	}
	return ""
}

// Lacks names what a line still needs: "size", "price".
func (l *Line) Lacks() []string {
	var list []string
	if l.Kind == ledger.FoodLine && l.Size == "" {
		list = append(list, "size")
	}
	if l.Price == "" {
		list = append(list, "price")
	}
	return list
}

// Bare reports whether a line is no more than the name of a thing, so that all
// the rest of it may be asked for.
func (l *Line) Bare() bool { return l.Kind.Bought() && l.Count == "" && l.Size == "" && l.Price == "" }

// counted returns the count and the size that the ledger records: of a price
// per kg they are the kg and 1 kg.
func (l *Line) counted() (count, size string) {
	if l.Per == "" {
		return l.Count, l.Size
	}
	unit, _ := exact.ParseUnit(l.Per)
	q, err := exact.MustQuantity(l.Size).In(unit)
	if err != nil {
		return l.Count, l.Size // [ParseLine] has refused it
	}
	return q.Number().String(), unit.Of(exact.Int(1)).String()
}

// Cells returns the line's cells of receipts.csv, its offer as a discount at
// the currency's minor digits.
func (l *Line) Cells(minor int) (map[string]string, error) {
	cells := map[string]string{"kind": l.Kind.String(), "item": l.Item, "price": l.Price, "tax": l.Tax, "on": l.On, "note": l.Note}
	cells["count"], cells["size"] = l.counted()
	discount, err := l.discount(minor)
	if err != nil {
		return nil, err
	}
	if cells["discount"] = l.Less; l.Offer != "" {
		cells["discount"] = discount.Fixed(minor)
		cells["note"] = strings.Join(slices.DeleteFunc([]string{l.Note, "offer " + l.Offer}, func(s string) bool { return s == "" }), "; ")
	}
	for column, text := range cells {
		if text == "" {
			delete(cells, column)
		}
	}
	return cells, nil
}

// discount is what is taken off the whole line: less, and the offer's.
func (l *Line) discount(minor int) (exact.Money, error) {
	less := exact.MoneyOf(number(l.Less))
	if l.Offer == "" {
		return less, nil
	}
	offer, err := pricing.ParseOffer(l.Offer)
	if err != nil {
		return less, err
	}
	off, err := offer.Discount(l.count(), number(l.Price), minor)
	return less.Add(off), err
}

// ApplyOffer turns an offer into the discount of a row of receipts.csv, on top
// of one that it has, and notes it.
func ApplyOffer(cells map[string]string, text string, minor int) error {
	l := Line{Count: cells["count"], Price: cells["price"], Less: cells["discount"], Note: cells["note"], Offer: text}
	if why := l.checkNumbers(); why != "" {
		return &TextError{text, why}
	}
	done, err := l.Cells(minor)
	if err == nil {
		cells["discount"], cells["note"] = done["discount"], done["note"]
	}
	return err
}

// count is how many packages there are.
func (l *Line) count() exact.Number {
	if count, _ := l.counted(); count != "" {
		return number(count)
	}
	return exact.Int(1)
}

// number is the number that a text which was checked stands for, 0 for none.
func number(text string) exact.Number {
	n, _ := exact.ParseNumber(text)
	return n
}

// String returns the line as it can be typed again.
func (l *Line) String() string {
	var words []string
	add := func(before, text string) {
		if text != "" {
			words = append(words, before+text)
		}
	}
	if l.Count != "" {
		words = append(words, l.Count, "x")
	}
	if !l.Kind.Bought() {
		words = append(words, l.Price)
		add("on ", l.On)
		add("note ", l.Note)
		return strings.Join(words, " ")
	}
	add("", l.Size)
	add("", l.Item)
	if l.Per != "" {
		add("at ", l.Price+"/"+l.Per)
	} else {
		add("at ", l.Price)
	}
	add("less ", l.Less)
	add("offer ", l.Offer)
	add("tax ", l.Tax)
	add("note ", l.Note)
	return strings.Join(words, " ")
}
