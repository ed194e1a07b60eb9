package entry

import (
	"fmt"
	"slices"
	"strings"

	"putby/ledger/intake"
	"putby/pricing"
	"putby/pricing/exact"
)

// A lineTerms is what stands behind the item of a line: the price and all that goes
// with it, in any order.
type lineTerms struct {
	at    int    // where it begins
	line  Line   // what it says
	each  bool   // the price is said to be that of one
	parts uint16 // which parts it has
	why   string // what is wrong with it
}

// The parts of a tail, each of which there is once at most.
const (
	pricePart = 1 << iota
	sizePart
	lessPart
	offerPart
	taxPart
	limitPart
	regularPart
	countPart
)

func (t *lineTerms) priced() bool { return t.parts&pricePart != 0 || t.line.bundled() }

// tails are the tails that words may have, each behind one word at least: that
// which begins first before the others, and last the empty one.
func (x *ItemNames) tails(words []string) []lineTerms {
	var list []lineTerms
	for at := 1; at <= len(words); at++ {
		if t, ok := x.rest(words[at:], lineTerms{at: at}); ok {
			list = append(list, t)
		}
	}
	return list
}

// rest reads the words of a tail, in the first way in which all of them can be
// read and that says a price, or else in the first.
func (x *ItemNames) rest(words []string, t lineTerms) (found lineTerms, ok bool) {
	if len(words) == 0 {
		return t, true
	}
	for _, read := range partReaders() {
		part, n := t, 0
		if n = read(x, words, &part); n == 0 {
			continue
		}
		if whole, fits := x.rest(words[n:], part); fits && (!ok || whole.priced()) {
			if found, ok = whole, true; found.priced() {
				return found, true
			}
		}
	}
	return found, ok
}

// partReaders read one part of a tail each: they return how many words it has, 0
// where the words begin otherwise. Those that ask for words beside a number ("2 for
// 5.00", "x 3", "2.49/kg", "454 g") come before the one that takes any number. Where
// what follows cannot be read, [ItemNames.rest] tries the next reader.
func partReaders() []func(x *ItemNames, words []string, t *lineTerms) int {
	return []func(x *ItemNames, words []string, t *lineTerms) int{
		(*ItemNames).offerPart, (*ItemNames).countPart, (*ItemNames).pricePart, (*ItemNames).sizePart, (*ItemNames).barePrice, (*ItemNames).termsPart,
	}
}

// take notes a part; it reports false where the tail has it already.
func (t *lineTerms) take(part uint16) bool {
	had := t.parts&part != 0
	t.parts |= part
	return !had
}

// pricePart reads a price that says what it is of: "at 1.99", "1.99 each",
// "2.49/kg", "for 5.97", "in all 5.97".
func (x *ItemNames) pricePart(words []string, t *lineTerms) int {
	if !t.take(pricePart) {
		return 0
	}
	switch rest := words[1:]; {
	case words[0] == "at" || words[0] == "@":
		t.each = true
		if n := x.unitPrice(rest, t); n > 0 {
			return 1 + n
		}
		return after(1, x.amount(rest, &t.line.Price))
	case words[0] == "for":
		t.line.Whole = true
		return after(1, x.amount(rest, &t.line.Price))
	case words[0] == "in" && len(rest) > 0 && rest[0] == "all":
		t.line.Whole = true
		return after(2, x.amount(rest[1:], &t.line.Price))
	}
	// Before the plain amount: "2.49 per kg" begins like 2.49 alone.
	if n := x.unitPrice(words, t); n > 0 {
		return n
	}
	n := x.amount(words, &t.line.Price)
	switch rest := words[n:]; {
	case n == 0 || len(rest) == 0:
	case rest[0] == "each" || rest[0] == "apiece" || rest[0] == "ea" && strings.Contains(t.line.Price, "."):
		t.each = true
		return n + 1
	case len(rest) > 1 && rest[0] == "in" && rest[1] == "all":
		t.line.Whole = true
		return n + 2
	}
	return 0
}

// after is the number of words of a part with some in front, 0 without n.
func after(front, n int) int {
	if n == 0 {
		return 0
	}
	return front + n
}

// unitPrice reads a price by weight or measure: "2.49/kg", "2.49 per kg", "2.49 a
// kg".
func (x *ItemNames) unitPrice(words []string, t *lineTerms) int {
	for i, w := range words[:min(3, len(words))] {
		if before, unit, ok := strings.Cut(w, "/"); ok {
			price := words[:i:i]
			if before != "" {
				price = append(price, before)
			}
			if x.amount(price, &t.line.Price) != len(price) || !t.per(unit) {
				return 0
			}
			return i + 1
		}
	}
	n := x.amount(words, &t.line.Price)
	if rest := words[n:]; n > 0 && len(rest) > 1 && (rest[0] == "per" || rest[0] == "a") && t.per(rest[1]) {
		return n + 2
	}
	return 0
}

// per takes the unit that a price is for.
func (t *lineTerms) per(word string) bool {
	unit, ok := intake.UnitWord(word)
	if ok {
		t.line.Per = unit.String()
	}
	return ok
}

// amount reads an amount of money.
func (x *ItemNames) amount(words []string, into *string) int {
	text, n := x.amountIn(words)
	if n > 0 {
		*into = text
	}
	return n
}

// barePrice reads a price and no more.
func (x *ItemNames) barePrice(words []string, t *lineTerms) int {
	if !t.take(pricePart) {
		return 0
	}
	return x.amount(words, &t.line.Price)
}

// countPart reads how many packages there are: "12 x" before more, "x 12". It is
// whole, so that 1.99 x 12 is a price and a count.
func (x *ItemNames) countPart(words []string, t *lineTerms) int {
	if !t.take(countPart) {
		return 0
	}
	count, rest := cutCount(words)
	if count == "" && words[0] == "x" && len(words) > 1 {
		count, rest = Number(words[1]), words[2:]
	}
	if !isNumber(count) {
		return 0
	}
	if n, whole := number(count).Int64(); !whole || n < 1 {
		return 0
	}
	t.line.Count = count
	return len(words) - len(rest)
}

// sizePart reads the size of a package: "454 g", "for 2 lb".
func (x *ItemNames) sizePart(words []string, t *lineTerms) int {
	front := 0
	if words[0] == "for" {
		front = 1
	}
	n := sizeIn(words[front:])
	if n == 0 || !t.take(sizePart) {
		return 0
	}
	t.line.Size = sizeText(words[front : front+n])
	return front + n
}

// offerPart reads the shop's offer, with the word offer before it or not.
func (x *ItemNames) offerPart(words []string, t *lineTerms) int {
	front := 0
	if words[0] == "offer" {
		front = 1
	}
	if !t.take(offerPart) {
		return 0
	}
	for n := min(mostOfferWords, len(words)-front); n > 0 && beginsOffer(words[front]); n-- {
		text := offerText(words[front : front+n])
		if _, err := pricing.ParseOffer(text); err == nil {
			t.line.Offer = text
			return front + n
		}
	}
	t.line.Reduced = true
	switch {
	case front == 1, words[0] == "reduced":
		return 1
	case words[0] == "on" && len(words) > 1 && (words[1] == "offer" || words[1] == "sale"):
		return 2
	}
	return 0
}

// beginsOffer reports whether an offer may begin with a word.
func beginsOffer(word string) bool {
	return strings.ContainsAny(word, "0123456789") || slices.Contains(offerStarts, strings.ToLower(word))
}

var offerStarts = strings.Fields("buy save every half half-price one two three four five six seven eight nine ten second third fourth fifth sixth")

// mostOfferWords is how many words an offer has at most: buy 2 get 1 30% off from 6.
const mostOfferWords = 8

// offerText writes an offer's numbers as records do. An amount with the sign of a
// currency has digits after the point, so that 3 for $2 does not mean two packages.
func offerText(words []string) string {
	plain := make([]string, len(words))
	for i, w := range words {
		number, percent := strings.CutSuffix(w, "%")
		plain[i] = sum(number)
		if isNumber(plain[i]) && plain[i] != Number(number) && !strings.Contains(plain[i], ".") {
			plain[i] += ".00"
		}
		if percent {
			plain[i] += "%"
		}
	}
	return strings.Join(plain, " ")
}

// termsPart reads what else may be said: "less 0.50", "tax 0.12", "limit 12",
// "regular".
func (x *ItemNames) termsPart(words []string, t *lineTerms) int {
	switch word, rest := words[0], words[1:]; {
	case word == "regular" && t.take(regularPart):
		t.line.Regular = true
		return 1
	case word == "less" && t.take(lessPart):
		return after(1, x.amount(rest, &t.line.Less))
	case word == "tax" && t.take(taxPart):
		return after(1, x.amount(rest, &t.line.Tax))
	case word == "limit" && len(rest) > 0 && t.take(limitPart):
		if n, whole := number(rest[0]).Int64(); whole && n > 0 {
			t.line.Limit = rest[0]
			return 2
		}
	}
	return 0
}

// whyNot says why words have no price that can be read; "" where they say none.
func (x *ItemNames) whyNot(words []string) string {
	left := ""
	for i, w := range words {
		rest := words[i+1:]
		if i == 0 || len(rest) == 0 {
			continue
		}
		var into string
		n := x.amount(rest, &into)
		switch {
		case (w == "at" || w == "@") && n == 0:
			return x.whyNoPrice(rest)
		case w == "at" || w == "@":
			left = fmt.Sprintf("what stands behind the price, %s, cannot be read", quote(strings.Join(rest[n:], " ")))
		case (w == "less" || w == "tax") && n == 0:
			return fmt.Sprintf("the amount after %s, %s, is not a number such as 1.99", w, quote(rest[0]))
		case w == "offer":
			if _, err := pricing.ParseOffer(offerText(rest)); err != nil {
				return err.Error()
			}
		}
	}
	if last := words[len(words)-1]; len(words) > 1 && looksLikeNumber(last) {
		return x.whyNoPrice([]string{last})
	}
	return left
}

// whyNoPrice says what is wrong with a price.
func (x *ItemNames) whyNoPrice(words []string) string {
	price, per, found := strings.Cut(words[0], "/")
	if _, err := exact.ParseUnit(per); err != nil && found && isNumber(sum(price)) {
		return err.Error()
	}
	return fmt.Sprintf("the price %s is not a number such as 1.99", quote(words[0]))
}

// looksLikeNumber reports whether a word is likely to be meant as a number.
func looksLikeNumber(word string) bool {
	plain := strings.Trim(sum(word), "-")
	return plain != "" && isDigit(plain[0]) && strings.Trim(plain, "0123456789.,'") == "" && !isNumber(sum(word))
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }
