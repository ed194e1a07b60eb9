package exact

import (
	"errors"
	"fmt"
	"strings"
)

// The limits of a number in a record: digits before and after the point.
// They keep every record far from numbers that eat memory.
const (
	MaxWhole    = 15
	MaxFraction = 9
)

// ErrNumber is what every error of [ParseNumber] is.
var ErrNumber = errors.New("not a number")

// ParseNumber reads a number as records write it: -?digits[.digits], at most
// [MaxWhole] digits before the point and [MaxFraction] after. There is no
// exponent, no thousands separator and no sign but "-".
func ParseNumber(s string) (Number, error) {
	n, why := scanNumber(s)
	if why != "" {
		return Number{}, numberError(s, why)
	}
	return n, nil
}

// MustNumber is ParseNumber for constants; it panics on an error.
func MustNumber(s string) Number { return must(ParseNumber(s)) }

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// scanNumber reads the whole of s, or says why it cannot.
func scanNumber(s string) (n Number, why string) {
	start := 0
	if strings.HasPrefix(s, "-") {
		start = 1
	}
	point, coef := len(s), int64(0) // coef wraps on what is then refused or read again
	for i := start; i < len(s); i++ {
		switch c := s[i]; {
		case '0' <= c && c <= '9':
			coef = coef*10 + int64(c-'0')
		case c == '.' && point == len(s) && i > start:
			point = i
		default:
			return Number{}, badChar(s[i:])
		}
	}
	whole, scale := point-start, len(s)-point-1
	if why := badLength(whole, scale); why != "" {
		return Number{}, why
	}
	if whole+scale > maxScale {
		return parseBig(s), ""
	}
	return small(withSign(uint64(coef), start == 1), uint8(max(scale, 0))), ""
}

// badLength says what is wrong with that many digits before and after the
// point, if anything; scale is -1 when there is no point.
func badLength(whole, scale int) string {
	switch {
	case whole == 0:
		return "no digits"
	case scale == 0:
		return "no digits after the point"
	case whole > MaxWhole:
		return fmt.Sprintf("more than %d digits before the point", MaxWhole)
	case scale > MaxFraction:
		return fmt.Sprintf("more than %d digits after the point", MaxFraction)
	}
	return ""
}

// badChar says what is wrong with the character that rest begins with.
func badChar(rest string) string {
	switch rest[0] {
	case ',':
		return "a comma: write the point as '.', and no thousands separator"
	case 'e', 'E':
		return "an exponent: write the digits out"
	case '+':
		return "a plus sign"
	case '-':
		return "a misplaced '-'"
	case '.':
		return "a misplaced point"
	case ' ':
		return "a space: write the digits without gaps"
	}
	if strings.HasPrefix(rest, "\u2212") {
		return "a typographic minus: write it as '-'"
	}
	return "only digits and one '.' are allowed"
}

func numberError(s, why string) error {
	return fmt.Errorf("%s is %w: %s", Quote(s), ErrNumber, why)
}

// Quote returns s in double quotes for a message, shortened to 40 characters,
// with control characters escaped so that they never reach a terminal.
func Quote(s string) string {
	const most = 40
	count := 0
	for at := range s {
		if count == most {
			return fmt.Sprintf("%q", s[:at]+"…")
		}
		count++
	}
	return fmt.Sprintf("%q", s)
}
