package entry

import (
	"slices"
	"strings"
	"unicode"

	"putby/ledger"
	"putby/pricing/exact"
	"putby/pricing/locale"
)

// inDigits are runs of what numbers are written with.
var inDigits = pattern(`\d[\d.,'’\x{00a0}\x{202f}]*`)

// Native writes numbers and dates that are typed as a locale writes them as
// records do: 1.234,50 as 1234.50 and 28.02.2025 as 2025-02-28 in de-DE. Words
// stay, and so do numbers of lines after on. What can be read in two ways is read
// as records have it, so that Native of what it returned is the same; whoever
// takes it from a person asks [TwoWays] first.
func Native(l locale.Locale, text string) string {
	return eachFigure(l, text, func(digits string) string {
		if n, ok, err := l.ReadNumber(digits); ok && err == nil {
			return n
		}
		return digits
	})
}

// TwoWays says which number in a text that a person typed can be read in two
// ways, such as 1.500 in de-DE; nil where there is none. The error is of
// [locale.ErrTwoWays].
func TwoWays(l locale.Locale, text string) (two error) {
	eachFigure(l, text, func(digits string) string {
		if _, _, err := l.ReadNumber(digits); err != nil {
			two = err
		}
		return digits
	})
	return two
}

// asTyped writes words that [Native] reads with the figures as people of the locale
// type them.
func asTyped(l locale.Locale, text string) string {
	if l.IsPlain() {
		return text
	}
	words := strings.Split(text, " ")
	for i, word := range words {
		if !beginsWithLetter(word) && (i == 0 || !namesRecord(words[i-1])) {
			words[i] = pointed().ReplaceAllStringFunc(word, l.Typed)
		}
	}
	return strings.Join(words, " ")
}

// pointed is a number with decimals as records have it.
var pointed = pattern(`\d+\.\d+`)

// Figures reports whether the cells of a column hold figures, rather than names
// and other words that may be written with digits.
func Figures(c *ledger.Column) bool {
	switch c.Cell {
	case ledger.TextCell, ledger.NameCell, ledger.WordCell, ledger.ListCell:
		return false
	}
	return true
}

// eachFigure writes anew the dates of a text and what as makes of its numbers.
func eachFigure(l locale.Locale, text string, as func(string) string) string {
	if l.IsPlain() || !strings.ContainsAny(text, "0123456789") {
		return text
	}
	if d, ok := l.ReadDate(text); ok {
		return d.String()
	}
	words := strings.Split(text, " ")
	for i, word := range words {
		if d, ok := l.ReadDate(word); ok {
			words[i] = d.String()
			continue
		}
		if i > 0 && namesLines(text, words[i-1]) && strings.Trim(word, "0123456789,") == "" || i > 0 && namesRecord(words[i-1]) {
			continue
		}
		if !beginsWithLetter(word) || isSum(word) { // else it is a name
			words[i] = inDigits().ReplaceAllStringFunc(word, func(run string) string {
				digits := strings.TrimRight(run, ".,'’")
				return as(digits) + run[len(digits):]
			})
		}
	}
	return strings.Join(words, " ")
}

// namesLines reports whether a word of a text is followed by the numbers of
// lines: "coupon 2.00 on 2,3", "discount 1.00 for 4". Behind "3 x soap for" is a
// price.
func namesLines(text, word string) bool {
	switch strings.ToLower(word) {
	case "on":
		return true
	case "for":
		text = strings.ToLower(text)
		return slices.ContainsFunc(amountWords, func(a amountWord) bool { return strings.HasPrefix(text, a.words+" ") })
	}
	return false
}

// namesRecord reports whether a word is followed by the name of a record: 5 kg
// apples from 12.345.
func namesRecord(word string) bool {
	return slices.Contains([]string{"from", "pack", "run", "receipt"}, strings.ToLower(word))
}

// isSum reports whether a word is the code of a currency and a number: CAD1.500.
func isSum(word string) bool {
	if len(word) < 4 || word[3] < '0' || word[3] > '9' {
		return false
	}
	_, err := exact.ParseCurrency(strings.ToUpper(word[:3]))
	return err == nil && inDigits().FindString(word[3:]) == word[3:]
}

func beginsWithLetter(word string) bool {
	for _, r := range word {
		return unicode.IsLetter(r)
	}
	return false
}

// nativeCell is Native for a cell of one number, in which spaces may stand between
// thousands.
func nativeCell(l locale.Locale, text string) string {
	first := strings.IndexAny(text, "0123456789")
	if l.IsPlain() || first < 0 {
		return text
	}
	before := strings.Replace(text[:first], "\u2212", "-", 1)
	text, first = before+text[first:], len(before)
	last := strings.LastIndexAny(text, "0123456789")
	if n, ok, err := l.ReadNumber(text[first : last+1]); ok && err == nil {
		return text[:first] + n + text[last+1:]
	}
	return Native(l, text)
}
