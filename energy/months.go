package energy

import (
	"errors"
	"fmt"
	"strconv"

	"putby/pricing/exact"
)

// A MonthSet is a set of calendar months: bit m stands for month m, January
// being 1. The zero value stands for every month, as a blank cell does.
type MonthSet uint16

// ErrMonths is what every error of [ParseMonths] is.
var ErrMonths = errors.New("not a list of months")

// ParseMonths reads months as a tariff writes them: numbers from 1 to 12,
// ranges such as 5-10 (11-4 runs through the new year), and lists of both,
// 1,7. Blank is every month.
func ParseMonths(s string) (MonthSet, error) {
	set, err := parseSet(s, monthNumber, 12)
	if err != nil {
		return 0, fmt.Errorf("%s is %w: %w", exact.Quote(s), ErrMonths, err)
	}
	return MonthSet(set << 1), nil
}

// monthNumber returns the place of a month in the year, from 0.
func monthNumber(s string) (int, error) {
	n, err := strconv.Atoi(s)
	if err != nil || n < 1 || n > 12 || len(s) > 2 || s[0] == '+' {
		return 0, errors.New("write months as numbers from 1 to 12, such as 5-10 or 1,7")
	}
	return n - 1, nil
}

// Has reports whether the month m, 1 to 12, is in the set.
func (s MonthSet) Has(m int) bool { return s == 0 || s>>m&1 == 1 }

// String writes the set as [ParseMonths] reads it.
func (s MonthSet) String() string {
	return formatSet(uint16(s>>1), 12, func(i int) string { return strconv.Itoa(i + 1) })
}
