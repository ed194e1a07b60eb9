package exact

import (
	"errors"
	"fmt"
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
	coef, scale, whole := int64(0), 0, 0
	digits := s
	if len(s) > 0 && s[0] == '-' {
		digits = s[1:]
	}
	point, overflow := -1, false
	for i := 0; i < len(digits); i++ {
		c := digits[i]
		if c == '.' && point < 0 && i > 0 {
			point = i
			continue
		}
		if c < '0' || c > '9' {
			return Number{}, numberError(s, badChar(c))
		}
		if point < 0 {
			whole++
		} else {
			scale++
		}
		if coef > (1<<63-1-9)/10 {
			overflow = true
		} else {
			coef = coef*10 + int64(c-'0')
		}
	}
	switch {
	case whole == 0:
		return Number{}, numberError(s, "no digits")
	case point >= 0 && scale == 0:
		return Number{}, numberError(s, "no digits after the point")
	case whole > MaxWhole:
		return Number{}, numberError(s, fmt.Sprintf("more than %d digits before the point", MaxWhole))
	case scale > MaxFraction:
		return Number{}, numberError(s, fmt.Sprintf("more than %d digits after the point", MaxFraction))
	case overflow:
		return parseBig(s), nil
	}
	if len(digits) < len(s) {
		coef = -coef
	}
	return Number{coef: coef, scale: uint8(scale)}, nil
}

// MustNumber is ParseNumber for constants; it panics on an error.
func MustNumber(s string) Number {
	n, err := ParseNumber(s)
	if err != nil {
		panic(err)
	}
	return n
}

func badChar(c byte) string {
	switch c {
	case ',':
		return "a comma: write the point as '.', and no thousands separator"
	case 'e', 'E':
		return "an exponent: write the digits out"
	case '+':
		return "a plus sign"
	case '.':
		return "a misplaced point"
	}
	return "only digits and one '.' are allowed"
}

func numberError(s, why string) error {
	return fmt.Errorf("%s is %w: %s", Quote(s), ErrNumber, why)
}

// Quote returns s in double quotes for a message, shortened when long, with
// control characters escaped so that they never reach a terminal.
func Quote(s string) string {
	const most = 40
	if r := []rune(s[:min(len(s), 4*most)]); len(r) > most {
		s = string(r[:most]) + "…"
	}
	return fmt.Sprintf("%q", s)
}
