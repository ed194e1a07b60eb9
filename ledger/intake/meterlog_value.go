package intake

import (
	"fmt"
	"strconv"
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

// parse reads a value in the last place of its unit's scale, rounded half to even,
// or says what is wrong with it.
func (p *valueParser) parse(s string) (n int64, problem string) {
	text := strings.Trim(s, " \t")
	whole, negative := strings.CutPrefix(text, "-")
	fraction, point := "", strings.IndexByte(whole, '.')
	if point < 0 && p.comma {
		point = strings.IndexByte(whole, ',')
	}
	if point >= 0 {
		whole, fraction = whole[:point], whole[point+1:]
	}
	for _, digits := range [...]string{whole, fraction} {
		if at := strings.IndexFunc(digits, func(r rune) bool { return r < '0' || r > '9' }); at >= 0 {
			return 0, p.badValue(text, digits[at])
		}
	}
	if whole == "" || point >= 0 && fraction == "" {
		return 0, exact.Quote(text) + " is not a number"
	}
	// Scaled and rounded by its digits, so that nothing depends on how fine they are.
	keep := valueScales[p.unit]
	kept := fraction[:min(len(fraction), keep)]
	n, err := strconv.ParseInt(whole+kept+"000000000000"[:keep-len(kept)], 10, 64)
	if finer := fraction[len(kept):]; strings.Trim(finer, "0") != "" {
		p.rounded++
		half := finer[0] == '5' && strings.Trim(finer[1:], "0") == ""
		if finer[0] >= '5' && (!half || n&1 == 1) {
			n++
		}
	}
	switch {
	case err != nil || n > largestValue:
		return 0, exact.Quote(text) + " is too large"
	case negative && n != 0:
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
