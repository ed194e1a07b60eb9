package entry

import (
	"fmt"
	"slices"
	"strings"

	"putby/ledger"
)

// An amountWord is a word by which receipts name an amount that is no thing
// bought.
type amountWord struct {
	words string
	kind  ledger.ReceiptKind
	back  bool // money that the shop gives back
	alone bool // it means that only where nothing but the amount stands behind it
}

// amountWords are all of them, of which the first that fits counts.
var amountWords = []amountWord{
	{"bottle deposit", ledger.DepositLine, false, false},
	{"bottle return", ledger.DepositLine, true, false},
	{"bottles back", ledger.DepositLine, true, false},
	{"deposit back", ledger.DepositLine, true, false},
	{"deposit return", ledger.DepositLine, true, false},
	{"deposit", ledger.DepositLine, false, false},
	{"discount", ledger.DiscountLine, false, false},
	{"coupon", ledger.DiscountLine, false, false},
	{"voucher", ledger.DiscountLine, false, false},
	{"rebate", ledger.DiscountLine, false, false},
	{"sales tax", ledger.TaxLine, false, false},
	{"tax", ledger.TaxLine, false, false},
	{"vat", ledger.TaxLine, false, true},
	{"gst", ledger.TaxLine, false, true},
	{"hst", ledger.TaxLine, false, true},
	{"service charge", ledger.ChargeLine, false, true},
	{"delivery charge", ledger.ChargeLine, false, true},
	{"delivery", ledger.ChargeLine, false, true},
	{"charge", ledger.ChargeLine, false, false},
	{"total", ledger.TotalLine, false, false},
}

// amountLine finds the word that a line of an amount begins with.
func (x *ItemNames) amountLine(words []string) (a amountWord, rest []string, ok bool) {
	for _, a := range amountWords {
		n := len(strings.Fields(a.words))
		if n > len(words) || !strings.EqualFold(strings.Join(words[:n], " "), a.words) {
			continue
		}
		rest := words[n:]
		var amount string
		if a.alone && x.amount(rest, &amount) != len(rest) {
			continue
		}
		return a, rest, true
	}
	return a, nil, false
}

// readAmount reads an amount for the whole receipt, or for some of its lines.
func (x *ItemNames) readAmount(a amountWord, text string, words []string, note string) (Line, error) {
	l := Line{Kind: a.kind, Note: note}
	if a.kind == ledger.DepositLine && len(words) > 0 {
		l.Count, words = cutCount(words) // 8 x 0.25
	}
	n := x.amount(words, &l.Price)
	rest := words[n:]
	named := len(rest) > 0 && rest[0] == "on"
	if named {
		l.On = strings.Join(rest[1:], " ")
	} else if at := len(words) - 1; n == 0 && a.kind == ledger.DiscountLine && at > 0 && x.amount(words[at:], &l.Price) == 1 {
		l.On = strings.Join(words[:at], " ") // coupon strawberries 1.00
	}
	l.On = onLines(l.On)
	if why := l.checkAmount(words, rest, named); why != "" {
		return Line{}, typed(text, why)
	}
	// A deposit is negative when bottles go back: in its count where it has one, else in its amount.
	switch minus := strings.HasPrefix(l.Price, "-"); {
	case a.kind == ledger.DiscountLine: // as many tills print it
		l.Price = strings.TrimPrefix(l.Price, "-")
	case a.back && l.Count != "" && !minus:
		l.Count = "-" + strings.TrimPrefix(l.Count, "-")
	case a.back && !minus:
		l.Price = "-" + l.Price
	}
	return l, nil
}

// onLines writes numbers of lines as records do; all else it leaves.
func onLines(text string) string {
	text = strings.TrimPrefix(text, "for ")
	if plain := strings.ReplaceAll(text, " ", ""); strings.Trim(plain, "0123456789,") == "" {
		return plain
	}
	return text
}

// checkAmount returns what is wrong with an amount that words say.
func (l *Line) checkAmount(words, rest []string, named bool) string {
	switch {
	case len(words) == 0:
		return "it has no amount: write it as 2.00"
	case l.Count != "" && !isNumber(l.Count):
		return fmt.Sprintf("the count %s is not a number such as 8", quote(l.Count))
	case l.Price == "" && slices.ContainsFunc(words, func(w string) bool { return strings.HasSuffix(w, "%") }):
		return "write the amount that came off, as the receipt prints it; 10% off one thing stands in its line, as in strawberries 3.99 10% off"
	case l.Price == "" || len(rest) > 0 && !named && l.On == "":
		return fmt.Sprintf("the amount %s is not a number such as 2.00", quote(strings.Join(words, " ")))
	case named && l.On == "":
		return "after on stand the lines it is for, such as 1,2, or what was bought"
	case l.On != "" && !l.Kind.Wide():
		return fmt.Sprintf("a %v is for no line: leave out on %s", l.Kind, l.On)
	}
	return ""
}
