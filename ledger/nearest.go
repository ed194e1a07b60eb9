package ledger

import (
	"maps"
	"slices"
	"strings"
)

// Nearest returns the one of names that somebody who wrote id most likely
// meant: a slip of the pen away, or begun or ended alike. Of several the first
// in alphabetical order; "" when none is near.
func Nearest(id string, names []string) string {
	best, least := "", 1+len(id)/3 // of one or two letters any other is as near
	for _, name := range slices.Sorted(slices.Values(names)) {
		if d := slips(strings.ToLower(id), strings.ToLower(name), least); d < least {
			best, least = name, d
		}
	}
	if best != "" || len(id) < 3 {
		return best
	}
	for _, name := range slices.Sorted(slices.Values(names)) {
		if n := strings.ToLower(name); strings.HasPrefix(n, strings.ToLower(id)) || strings.HasSuffix(n, strings.ToLower(id)) {
			return name
		}
	}
	return ""
}

// slips counts the letters to add, drop, change or swap with their neighbour
// to make b of a (the restricted Damerau-Levenshtein distance), up to most.
func slips(a, b string, most int) int {
	if len(a)-len(b) >= most || len(b)-len(a) >= most {
		return most
	}
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := last[j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			row[j] = min(change, last[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return min(last[len(b)], most)
}

// Looking for near names is for people, who read a few faults of a ledger of
// common size.
const (
	mostGuesses = 20
	mostNames   = 10000
)

// nearest guesses which identifier that a file tells of was meant.
func (x *index) nearest(inFile, id string) string {
	m := x.namesIn(inFile)
	x.mu.Lock()
	x.guesses++
	enough := x.guesses > mostGuesses
	x.mu.Unlock()
	if enough || len(m) > mostNames {
		return ""
	}
	names := slices.Collect(maps.Keys(m))
	if inFile == TariffsFile {
		names = slices.Collect(maps.Keys(x.tariffs))
	}
	return Nearest(id, names)
}

// namesIn returns the identifiers that a file tells of. It looks at no other
// file's, which may still be on their way.
func (x *index) namesIn(file string) map[string]int32 {
	switch file {
	case FoodsFile:
		return x.foods
	case SuppliesFile:
		return x.supplies
	case MachinesFile:
		return x.machines
	case RunsFile:
		return x.runs
	case PacksFile:
		return x.packs
	case ReceiptsFile:
		return x.receipts
	}
	return nil
}
