package entry

import (
	"strconv"
	"strings"
)

// NextID returns an identifier that is not in use, in the manner of the last
// one: c47 is followed by c48, R-099 by R-100. Where there is none to follow
// it is first.
func NextID(ids []string, first string) string {
	used := make(map[string]bool, len(ids))
	for _, id := range ids {
		used[id] = true
	}
	stem, digits := "", ""
	for i := len(ids) - 1; i >= 0 && digits == ""; i-- {
		at := len(strings.TrimRight(ids[i], "0123456789"))
		stem, digits = ids[i][:at], ids[i][at:]
	}
	if digits == "" || len(digits) > 15 {
		stem, digits = first, "0"
	}
	n, _ := strconv.Atoi(digits)
	for {
		n++
		next := strconv.Itoa(n)
		if pad := len(digits) - len(next); pad > 0 {
			next = strings.Repeat("0", pad) + next
		}
		if id := stem + next; !used[id] {
			return id
		}
	}
}
