package intake

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"putby/pricing/exact"
)

// A Decimal is the sign that stands before the decimals of a number.
type Decimal uint8

// The decimal signs. The other of the two, an apostrophe or a space may then
// part thousands.
const (
	AnyDecimal Decimal = iota // to be found out
	Point
	Comma
)

var decimalWords = [...]string{"", "point", "comma"}

// DecimalWords are the words of the decimal signs.
func DecimalWords() []string { return decimalWords[1:] }

// String returns the sign's word, or nothing for [AnyDecimal].
func (d Decimal) String() string { return decimalWords[d] }

// ParseDecimal reads point or comma. Nothing is [AnyDecimal].
func ParseDecimal(word string) (Decimal, error) {
	return parseWord[Decimal](decimalWords[:], word, "no decimal sign; write point or comma")
}

// sign returns the character.
func (d Decimal) sign() byte {
	if d == Comma {
		return ','
	}
	return '.'
}

// moneyWords are signs of currencies that are letters; ISO 4217 codes and
// characters that Unicode calls currency signs are known without.
var moneyWords = []string{"kr", "Kr", "Fr", "fr", "zł", "Kč", "Ft", "lei", "R", "US", "A", "C", "NZ"}

// A foreign number taken apart: its digits and separators, and its sign.
type bareNumber struct {
	body     string // digits, '.', ',', '\'' and ' ' for any space
	negative bool
}

var errNotNumber = errors.New("is not a number")

// bare takes currency, blanks and sign off a number. Parentheses around it, or
// a minus behind, make it negative, as bookkeepers write.
func bare(s string) (bareNumber, error) {
	s = strings.Map(plainRune, strings.TrimSpace(s))
	n := bareNumber{}
	if inner, ok := strings.CutPrefix(s, "("); ok && strings.HasSuffix(inner, ")") {
		s, n.negative = strings.TrimSuffix(inner, ")"), true
	}
	// Sign and currency stand on either side and in any order: each round takes one of them off.
	for more := true; more && s != ""; {
		s, more = cutCurrency(strings.Trim(s, " "))
		switch {
		case strings.HasPrefix(s, "+"):
			s, more = s[1:], true
		case strings.HasPrefix(s, "-") && !n.negative:
			s, n.negative, more = s[1:], true, true
		case strings.HasSuffix(s, ",-"), strings.HasSuffix(s, ".-"): // "12,-": no cents
			s, more = s[:len(s)-2], true
		case strings.HasSuffix(s, "-") && !n.negative:
			s, n.negative, more = s[:len(s)-1], true, true
		}
	}
	n.body = s
	digits := 0
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case c >= '0' && c <= '9':
			digits++
		case c != '.' && c != ',' && c != '\'' && c != ' ':
			return n, errNotNumber
		}
	}
	if digits == 0 {
		return n, errNotNumber
	}
	return n, nil
}

// plainRune writes the many spaces, dashes and apostrophes as one each.
func plainRune(r rune) rune {
	switch {
	case unicode.IsSpace(r):
		return ' '
	case r == '\u2212' || r == '\u2012' || r == '\u2013':
		return '-'
	case r == '’' || r == '‘' || r == '´' || r == '`':
		return '\''
	}
	return r
}

// cutCurrency takes one currency sign or code off either end.
func cutCurrency(s string) (string, bool) {
	rest, cut := cutFront(s)
	if !cut {
		rest, cut = cutBack(s)
	}
	return strings.Trim(rest, " "), cut
}

func cutFront(s string) (string, bool) {
	word := s[:len(s)-len(strings.TrimLeftFunc(s, unicode.IsLetter))]
	if isCurrency(word) {
		return strings.TrimPrefix(s[len(word):], "."), true
	}
	rest := strings.TrimLeftFunc(s, isCurrencySign)
	return rest, len(rest) < len(s)
}

func cutBack(s string) (string, bool) {
	dotless := strings.TrimSuffix(s, ".")
	word := dotless[len(strings.TrimRightFunc(dotless, unicode.IsLetter)):]
	if isCurrency(word) {
		return strings.TrimSuffix(dotless, word), true
	}
	rest := strings.TrimRightFunc(s, isCurrencySign)
	return rest, len(rest) < len(s)
}

func isCurrencySign(r rune) bool { return unicode.Is(unicode.Sc, r) }

func isCurrency(word string) bool {
	if word == "" {
		return false
	}
	_, err := exact.ParseCurrency(strings.ToUpper(word))
	return err == nil || slices.Contains(moneyWords, word)
}

// plain writes the number as records do, if it is one under the decimal sign.
func (n bareNumber) plain(d Decimal) (string, bool) {
	whole, fraction, _ := strings.Cut(n.body, string(d.sign()))
	digits, ok := ungroup(whole, d)
	if !ok || strings.Trim(fraction, "0123456789") != "" || digits == "" && fraction == "" {
		return "", false
	}
	digits = cmp.Or(digits, "0")
	if fraction != "" {
		digits += "." + fraction
	}
	if n.negative {
		digits = "-" + digits
	}
	return digits, true
}

// ungroup takes the separators of thousands out of whole digits: one kind of
// them, groups of three, or as in India of two before the last three.
func ungroup(whole string, d Decimal) (string, bool) {
	at := strings.IndexAny(whole, ".,' ")
	if at < 0 {
		return whole, true
	}
	mark := whole[at : at+1]
	groups := strings.Split(whole, mark)
	if mark[0] == d.sign() || len(groups[0]) < 1 || len(groups[0]) > 3 || groups[0] == "0" {
		return "", false
	}
	last := len(groups) - 1
	for i, g := range groups {
		if strings.Trim(g, "0123456789") != "" {
			return "", false
		}
		if i > 0 && len(g) != 3 && (i == last || len(g) != 2 || len(groups[0]) > 2) {
			return "", false
		}
	}
	return strings.Join(groups, ""), true
}

// readNumber reads a foreign number into the notation of records.
func readNumber(s string, d Decimal) (string, error) {
	n, err := bare(s)
	if err != nil {
		return "", fmt.Errorf("%s %w", exact.Quote(s), err)
	}
	if d == AnyDecimal { // nothing in the whole file depends on it
		d = Point
	}
	plain, ok := n.plain(d)
	if !ok {
		return "", fmt.Errorf("%s is not a number with a decimal %s", exact.Quote(s), d)
	}
	if _, err := exact.ParseNumber(plain); err != nil {
		return "", err
	}
	return plain, nil
}
