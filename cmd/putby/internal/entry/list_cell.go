package entry

import (
	"strings"

	"putby/ledger"
)

// namedList writes a list of amounts and things as records do, where the things are
// called by their names: 2 kg Leeks, 1 Wide jar.
func namedList(rec *ledger.Records, c *ledger.Column, text string) string {
	names := titled(rec, c.Known(rec))
	var list []string
	for _, part := range listParts(text) {
		rest, amount := takeAmount(strings.Fields(part))
		if id, ok := ledger.Meant(strings.Join(rest, " "), names); ok && amount != "" {
			part = amount + " " + id
		}
		list = append(list, part)
	}
	return strings.Join(list, ", ")
}

// listParts parts a list at its lines and commas, but not at the comma of a number.
func listParts(text string) (list []string) {
	begin := 0
	add := func(end int) {
		if part := strings.TrimSpace(text[begin:end]); part != "" {
			list = append(list, part)
		}
		begin = end + 1
	}
	for i, r := range text {
		digit := func(at int) bool { return at >= 0 && at < len(text) && text[at] >= '0' && text[at] <= '9' }
		if r == '\n' || r == ',' && !(digit(i-1) && digit(i+1)) {
			add(i)
		}
	}
	add(len(text))
	return list
}
