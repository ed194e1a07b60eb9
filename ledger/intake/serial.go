package intake

import (
	"errors"
	"strconv"
	"strings"
	"time"

	"putby/pricing/exact"
)

// Workbooks keep numbers as binary fractions and write them with up to 17
// digits, of which 15 are good: 2.99 may be stored as 2.9900000000000002. This
// file reads such numbers without a floating-point number: by their digits.

// storedDigits is how many significant digits of a stored number count.
const storedDigits = 15

// stored reads a number as workbooks store it, -1.5E-3 and the like, rounded
// to 15 significant digits, half to even. It reports false for any other text,
// and for numbers that no record could hold.
func stored(s string) (exact.Number, bool) {
	mantissa, exponent := s, 0
	if at := strings.IndexAny(s, "eE"); at >= 0 {
		n, err := strconv.Atoi(s[at+1:])
		if err != nil || n < -999 || n > 999 {
			return exact.Number{}, false
		}
		mantissa, exponent = s[:at], n
	}
	mantissa, negative := strings.CutPrefix(mantissa, "-")
	whole, fraction, point := strings.Cut(mantissa, ".")
	digits := whole + fraction
	if whole == "" || point && fraction == "" || strings.Trim(digits, "0123456789") != "" {
		return exact.Number{}, false
	}
	digits = strings.TrimLeft(digits, "0")
	if len(digits) > 18 { // more than an int64 is sure to hold
		return exact.Number{}, false
	}
	coef, places := goodDigits(mustInt(digits), len(digits), len(fraction)-exponent)
	if negative {
		coef = -coef
	}
	switch {
	case places < -exact.MaxWhole:
		return exact.Number{}, coef == 0
	case places < 0:
		return exact.New(coef, 0).Mul(exact.New(mustInt("1"+strings.Repeat("0", -places)), 0)), true
	case places > 18+storedDigits: // far below the last digit of any record
		return exact.Number{}, true
	}
	return exact.New(coef, min(places, 18)).Mul(exact.New(1, max(places-18, 0))), true
}

// goodDigits rounds coef, which has so many digits, to those that count, half
// to even. It returns how many of the digits left stand behind the point.
func goodDigits(coef int64, digits, places int) (int64, int) {
	extra := max(digits-storedDigits, 0)
	n, _ := exact.New(coef, extra).Round(0, exact.HalfEven).Int64()
	return n, places - extra
}

// mustInt reads at most 18 digits, which the caller has checked.
func mustInt(digits string) int64 {
	n, _ := scanDigits(digits)
	return n
}

// recordNumber writes a stored number as records do, rounded half to even at
// the digits that they take.
func recordNumber(n exact.Number) (string, error) {
	text := n.Round(exact.MaxFraction, exact.HalfEven).String()
	if _, err := exact.ParseNumber(text); err != nil {
		return "", err
	}
	return text, nil
}

// A serialDate is a date as a workbook counts it: days since its epoch, the
// fraction of a day being the time.
type serialDate struct {
	n        exact.Number // days and their fraction, by the clock that the sheet shows
	from1904 bool
}

var errSerial = errors.New("is no date: the number is beyond what workbooks count")

// moment returns the date and the seconds since its midnight, rounded to whole
// seconds. Workbooks that count from 1900 take that year for a leap year:
// number 60 is a 29 February that never was, and those below it count from one
// day later (ECMA-376 part 1, 18.17.4.1).
func (s serialDate) moment() (exact.Date, int, error) {
	if s.n.Sign() < 0 || exact.Int(500_000).Less(s.n) {
		return exact.NoDate, 0, errSerial
	}
	seconds, _ := s.n.Mul(exact.Int(86400)).Round(0, exact.HalfAway).Int64()
	days, rest := int(seconds/86400), int(seconds%86400)
	switch {
	case s.from1904:
		return exact.DateOf(1904, time.January, 1).AddDays(days), rest, nil
	case days == 0:
		return exact.NoDate, rest, errors.New("is a time of day without a date")
	case days == 60:
		return exact.NoDate, rest, errors.New("is 29 February 1900, a day that never was")
	case days < 60:
		return exact.DateOf(1899, time.December, 31).AddDays(days), rest, nil
	}
	return exact.DateOf(1899, time.December, 30).AddDays(days), rest, nil
}
