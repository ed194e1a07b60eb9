package energy

import (
	"errors"
	"strings"
)

var errEmptyPart = errors.New("there is nothing between two commas")

// parseSet reads a list of names and ranges of names out of a cycle of n, such
// as the months of the year; a range may run past its end.
func parseSet(s string, place func(string) (int, error), n int) (uint16, error) {
	if strings.TrimSpace(s) == "" {
		return 0, nil
	}
	var set uint16
	for _, part := range strings.Split(s, ",") {
		part = strings.TrimSpace(part)
		if part == "" {
			return 0, errEmptyPart
		}
		from, to, isRange := strings.Cut(part, "-")
		first, err := place(strings.TrimSpace(from))
		if err != nil {
			return 0, err
		}
		last := first
		if isRange {
			if last, err = place(strings.TrimSpace(to)); err != nil {
				return 0, err
			}
		}
		// Round the cycle, so that nov-feb runs on past December; place is below n, so last is met.
		for i := first; ; i = (i + 1) % n {
			set |= 1 << i
			if i == last {
				break
			}
		}
	}
	return set, nil
}

// formatSet writes a set as parseSet reads it, three or more in a row (past
// the end too) as a range.
func formatSet(set uint16, n int, name func(int) string) string {
	full := uint16(1)<<n - 1
	switch set {
	case 0:
		return ""
	case full:
		return name(0) + "-" + name(n-1)
	}
	has := func(i int) bool { return set>>((i+n)%n)&1 == 1 }
	var parts []string
	for i := range n {
		// A row begins where the one before is not in the set; the full set, dealt with above, has none.
		if !has(i) || has(i-1) {
			continue
		}
		length := 1
		for has(i + length) {
			length++
		}
		last := name((i + length - 1) % n)
		switch length {
		case 1:
			parts = append(parts, last)
		case 2:
			parts = append(parts, name(i), last)
		default:
			parts = append(parts, name(i)+"-"+last)
		}
	}
	return strings.Join(parts, ",")
}
