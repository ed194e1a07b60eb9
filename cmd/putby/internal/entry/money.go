package entry

import (
	"slices"
	"strings"
	"unicode"

	"putby/ledger"
	"putby/pricing/exact"
)

// sum writes an amount of money without the sign of a currency; what is in
// hundredths, as 99¢ is, it writes in the whole.
func sum(text string) string {
	if cents, ok := strings.CutSuffix(strings.TrimSpace(text), "¢"); ok {
		n, err := exact.ParseNumber(Number(strings.TrimSpace(cents)))
		if err != nil {
			return text
		}
		return n.Mul(exact.New(1, 2)).Fixed(2)
	}
	minus := strings.HasPrefix(text, "-")
	plain := strings.TrimFunc(strings.TrimPrefix(text, "-"), func(r rune) bool { return isCurrencySign(r) || unicode.IsSpace(r) })
	if minus {
		plain = "-" + plain
	}
	return Number(plain)
}

// isCurrencySign reports whether r stands for whole units of a currency.
func isCurrencySign(r rune) bool { return unicode.Is(unicode.Sc, r) && r != '¢' }

// moneyMarks are what people write beside a sum in letters: the currency's code,
// and its sign in the household's locale, such as kr.
func moneyMarks(s *ledger.Settings) []string {
	return []string{s.Currency.Code(), s.Locale.Sign(s.Currency)}
}

// withoutMark takes one of such marks off either end.
func withoutMark(text string, marks []string) string {
	digits, below := strings.CutPrefix(text, "-")
	for _, mark := range marks {
		if n := len(digits) - len(mark); n > 0 && mark != "" {
			if strings.EqualFold(digits[n:], mark) {
				digits = strings.TrimSpace(digits[:n])
			} else if strings.EqualFold(digits[:len(mark)], mark) {
				digits = strings.TrimSpace(digits[len(mark):])
			}
		}
	}
	if below {
		return "-" + digits
	}
	return digits
}

// isNumber reports whether records would take a text as a number.
func isNumber(s string) bool {
	_, err := exact.ParseNumber(s)
	return err == nil
}

// number is the number that a text which was checked stands for, 0 for none.
func number(text string) exact.Number {
	n, _ := exact.ParseNumber(text)
	return n
}

// amountIn reads an amount of money at the front of words: 3.99, $3,99, 3.99€,
// EUR 3.99, $ 3.99. It returns how many words it takes, 0 where there is none.
func (x *ItemNames) amountIn(words []string) (text string, n int) {
	for n = min(2, len(words)); n > 0; n-- {
		if n == 2 && !x.isSign(words[0]) && !x.isSign(words[1]) {
			continue
		}
		if text = sum(withoutMark(strings.Join(words[:n], " "), x.marks)); isNumber(text) {
			return text, n
		}
	}
	return "", 0
}

// isSign reports whether a word is the sign of a currency, or what is written
// beside sums of the ledger's.
func (x *ItemNames) isSign(word string) bool {
	if slices.ContainsFunc(x.marks, func(m string) bool { return strings.EqualFold(m, word) }) {
		return true
	}
	for _, r := range word {
		if !isCurrencySign(r) && r != '¢' {
			return false
		}
	}
	return word != ""
}
