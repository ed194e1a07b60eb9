package intake

import (
	"fmt"
	"strings"

	"putby/pricing/exact"
)

// valueScales are the digits after the point of each unit that are kept: all
// powers become nanowatts, all running totals 0.000000001 kWh.
var valueScales = map[exact.Unit]int{exact.W: 9, exact.KW: 12, exact.Wh: 6, exact.KWh: 9}

// A valueParser reads the values of a log.
type valueParser struct {
	unit    exact.Unit
	comma   bool  // a decimal comma is read too
	rounded int64 // values that had finer digits
}

// largestValue is 10^18: a gigawatt in nanowatts, or 10^9 kWh.
const largestValue = 1_000_000_000_000_000_000

// parse reads a value in the last place of its unit's scale, or says what is
// wrong with it.
func (p *valueParser) parse(s string) (n int64, problem string) {
	text := strings.Trim(s, " \t")
	digits, places, whole := strings.TrimPrefix(text, "-"), -1, 0
	keep := valueScales[p.unit]
	var next byte // the first digit that is not kept
	rest := false // any after it other than 0
	for i := 0; i < len(digits); i++ {
		c := digits[i]
		switch {
		case (c == '.' || c == ',' && p.comma) && places < 0 && whole > 0:
			places = 0
			continue
		case !isDigit(c):
			return 0, p.badValue(text, c)
		case places < 0:
			whole++
		}
		switch {
		case places == keep:
			rest = rest || next != 0 && c != '0'
			if next == 0 {
				next = c
			}
			continue
		case n > largestValue/10:
			return 0, exact.Quote(text) + " is too large"
		case places >= 0:
			places++
		}
		n = n*10 + int64(c-'0')
	}
	if whole == 0 || places == 0 {
		return 0, exact.Quote(text) + " is not a number"
	}
	return p.scaled(text, n, max(places, 0), keep, next, rest)
}

// scaled brings the digits read to the places kept, and rounds.
func (p *valueParser) scaled(text string, n int64, places, keep int, next byte, rest bool) (int64, string) {
	for ; places < keep; places++ {
		if n > largestValue/10 {
			return 0, exact.Quote(text) + " is too large"
		}
		n *= 10
	}
	if next > '0' || rest {
		p.rounded++
		if next > '5' || next == '5' && (rest || n&1 == 1) {
			n++
		}
	}
	switch {
	case n > largestValue:
		return 0, exact.Quote(text) + " is too large"
	case strings.HasPrefix(text, "-") && n != 0:
		return 0, exact.Quote(text) + " is below 0"
	}
	return n, ""
}

func (p *valueParser) badValue(text string, c byte) string {
	switch {
	case c == ',' && !p.comma:
		return exact.Quote(text) + " has a comma, which here parts columns: write the point as '.'"
	case c == 'e' || c == 'E':
		return exact.Quote(text) + " has an exponent or is no number: write the digits out"
	}
	return fmt.Sprintf("%s is not a number in %v", exact.Quote(text), p.unit)
}
