package locale

import (
	"cmp"
	"errors"
	"fmt"
	"strings"
)

// ErrTwoWays is of a number that can be read in two ways; its error says how to write
// either.
var ErrTwoWays = errors.New("can be read in two ways")

// ReadNumber returns the plain digits of a number as the place writes it, with
// separators of thousands or without: 1234.50 for 1.234,50 in de-DE. Plain
// digits are read as such: labels and receipts from elsewhere have a point. ok is
// false for what is no number of the place; the error, of [ErrTwoWays], is of
// one that has two readings. Where decimals stand behind a comma alone, 1.500 is
// such a number, even if the place parts thousands by a space: who wrote it may
// have meant 1500.
func (l Locale) ReadNumber(text string) (plain string, ok bool, err error) {
	if l.IsPlain() {
		return text, isPlain(strings.TrimPrefix(text, "-")), nil
	}
	digits := text
	sign := ""
	for _, minus := range []string{"-", l.minusSign()} {
		if rest, below := strings.CutPrefix(digits, minus); below {
			sign, digits = "-", rest
			break
		}
	}
	native, isNative := l.readWith(digits, l.point, l.group)
	// Some places write sums with other marks than numbers; either is read, a number's first.
	if l.moneyPoint != "" || l.moneyGroup != "" {
		money, isMoney := l.readWith(digits, cmp.Or(l.moneyPoint, l.point), cmp.Or(l.moneyGroup, l.group))
		if !isNative {
			native, isNative = money, isMoney
		}
	}
	records := isPlain(digits)
	// A point may part thousands for who writes decimals behind a comma, whatever the place's own mark.
	if records && !isNative && l.pointless() {
		native, isNative = l.readWith(digits, l.point, ".")
	}
	switch {
	case records && isNative && native != digits:
		return "", false, fmt.Errorf("%q %w: write %s or %s", text, ErrTwoWays, l.Typed(sign+native), l.Typed(sign+digits))
	case records:
		return sign + digits, true, nil
	}
	return sign + native, isNative, nil
}

// pointless reports whether the place writes no decimals behind a point, in sums
// neither.
func (l Locale) pointless() bool { return l.point != "." && l.moneyPoint != "." }

// readWith reads digits with a sign before the decimals, and one between
// thousands.
func (l Locale) readWith(text, point, group string) (plain string, ok bool) {
	whole, decimals, pointed := strings.Cut(text, point)
	if pointed && (decimals == "" || strings.Trim(decimals, "0123456789") != "") {
		return "", false
	}
	parts := []string{whole}
	for _, separator := range l.separators(group) {
		if strings.Contains(whole, separator) {
			parts = strings.Split(whole, separator)
			break
		}
	}
	if len(parts) > 1 && strings.HasPrefix(whole, "0") {
		return "", false // 0,500 is no thousand
	}
	for i, part := range parts {
		if part == "" || strings.Trim(part, "0123456789") != "" || !l.fits(i, len(parts), len(part)) {
			return "", false
		}
	}
	plain = strings.Join(parts, "")
	if pointed {
		plain += "." + decimals
	}
	return plain, true
}

// fits reports whether so many digits may stand in the part i of n.
func (l Locale) fits(i, n, digits int) bool {
	most := 3
	if l.later > 0 && i < n-1 {
		most = l.later
	}
	return n == 1 || digits == most || i == 0 && digits < most
}

// separators are what people type where the place has a separator: any space for
// a space that keyboards lack, ' for ’.
func (l Locale) separators(group string) []string {
	switch group {
	case nbsp, narrow:
		return []string{group, nbsp, narrow, " "}
	case "’":
		return []string{group, "'"}
	}
	return []string{group}
}
