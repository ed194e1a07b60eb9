package locale

import (
	"cmp"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"putby/pricing/exact"
)

// A Locale is how a place writes. Locales compare with ==; the zero value writes
// all as records do.
type Locale struct{ *facts }

// Plain writes all as records do.
var Plain Locale

// Tags are the tags of all locales, in order.
func Tags() []string {
	tags := make([]string, len(table))
	for i := range table {
		tags[i] = table[i].tag
	}
	return tags
}

// Named returns the locale of a tag, in any case and with - or _ between its
// parts; an empty one is [Plain]. ok is false where it is not in the table.
func Named(tag string) (l Locale, ok bool) {
	tag = strings.ReplaceAll(tag, "_", "-")
	for i := range table {
		if strings.EqualFold(table[i].tag, tag) {
			return Locale{&table[i]}, true
		}
	}
	return Plain, tag == ""
}

// Parse is Named with an error that says which locales there are.
func Parse(tag string) (Locale, error) {
	l, ok := Named(tag)
	if !ok {
		return l, fmt.Errorf("%s is not a locale that is known here: write one of %s", exact.Quote(tag), strings.Join(Tags(), ", "))
	}
	return l, nil
}

// Must is Named for constants; it panics on a tag that is not in the table.
func Must(tag string) Locale {
	l, ok := Named(tag)
	if !ok {
		panic(fmt.Sprintf("locale: no %s", tag))
	}
	return l
}

// IsPlain reports whether l writes all as records do.
func (l Locale) IsPlain() bool { return l.facts == nil }

// String returns the tag, or nothing.
func (l Locale) String() string {
	if l.IsPlain() {
		return ""
	}
	return l.tag
}

// Number writes plain digits such as 1234.50 with the place's own signs; every
// digit stays. Text that is no plain number is returned as it is.
func (l Locale) Number(plain string) string {
	if l.IsPlain() {
		return plain
	}
	return l.written(plain, l.point, l.group)
}

// Amount writes a sum of money without its currency, where that was said.
func (l Locale) Amount(plain string) string {
	if l.IsPlain() {
		return plain
	}
	return l.written(plain, cmp.Or(l.moneyPoint, l.point), cmp.Or(l.moneyGroup, l.group))
}

// Money writes a sum with its currency: $12.50, 12,50 €; a currency that is not
// the place's own by its code. A mark in front, such as that of an estimate,
// stays in front.
func (l Locale) Money(plain string, c exact.Currency) string {
	if l.IsPlain() {
		return plain + " " + c.Code()
	}
	mark := plain[:len(plain)-len(strings.TrimLeft(plain, "~"))]
	digits, below := strings.CutPrefix(plain[len(mark):], "-")
	if !isPlain(digits) {
		return plain + " " + c.Code()
	}
	pattern := l.money
	if below && l.owed != "" {
		pattern = strings.Replace(l.owed, "-", l.minusSign(), 1)
	} else if below {
		pattern = l.minusSign() + pattern
	}
	sign := l.Sign(c)
	if end, _ := utf8.DecodeLastRuneInString(sign); unicode.IsLetter(end) {
		pattern = strings.Replace(pattern, "¤#", "¤ #", 1) // CLDR's currencySpacing
	}
	pattern = strings.ReplaceAll(pattern, " ", nbsp)
	return mark + strings.NewReplacer("¤", sign, "#", l.Amount(digits)).Replace(pattern)
}

// Sign is what stands beside a sum of a currency: its sign where it is the place's
// own, else its code.
func (l Locale) Sign(c exact.Currency) string {
	if !l.IsPlain() && c.Code() == l.currency {
		return l.sign
	}
	return c.Code()
}

// Point is where the decimals of what was written begin, their sign included; the
// length of the text where it has none.
func (l Locale) Point(written string) int {
	at := -1
	if l.IsPlain() {
		at = strings.IndexByte(written, '.')
	} else if at = strings.Index(written, l.point); at < 0 && l.moneyPoint != "" {
		at = strings.Index(written, l.moneyPoint)
	}
	if at < 0 {
		return len(written)
	}
	return at
}

// Percent writes a number of percents with their sign.
func (l Locale) Percent(plain string) string {
	if l.IsPlain() {
		return plain + " %"
	}
	pattern := strings.ReplaceAll(l.percent, " ", nbsp)
	return strings.Replace(pattern, "#", l.Number(plain), 1)
}

// Typed writes a number as a person types it, so that [Locale.ReadNumber] reads
// the same number: with the place's sign before the decimals and no other.
func (l Locale) Typed(plain string) string {
	if l.IsPlain() || !isPlain(strings.TrimPrefix(plain, "-")) {
		return plain
	}
	return strings.Replace(plain, ".", l.point, 1)
}

func (l Locale) minusSign() string {
	return cmp.Or(l.minus, "-")
}

// written writes plain digits with signs between them.
func (l Locale) written(plain, point, group string) string {
	digits, below := strings.CutPrefix(plain, "-")
	if !isPlain(digits) {
		return plain
	}
	whole, decimals, pointed := strings.Cut(digits, ".")
	later, least := cmp.Or(l.later, 3), cmp.Or(l.least, 1)
	var out strings.Builder
	if below {
		out.WriteString(l.minusSign())
	}
	for i := range len(whole) {
		if left := len(whole) - i; i > 0 && len(whole) >= 3+least && (left == 3 || left > 3 && (left-3)%later == 0) {
			out.WriteString(group)
		}
		out.WriteByte(whole[i])
	}
	if pointed {
		out.WriteString(point + decimals)
	}
	return out.String()
}

// isPlain reports whether s is digits, with a point between them or without.
func isPlain(s string) bool {
	whole, decimals, pointed := strings.Cut(s, ".")
	return whole != "" && strings.Trim(whole, "0123456789") == "" && (!pointed || decimals != "" && strings.Trim(decimals, "0123456789") == "")
}
