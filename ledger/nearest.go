package ledger

import (
	"iter"
	"maps"
	"slices"
	"strings"
)

// Nearest returns the one of names that somebody who wrote id most likely
// meant: a slip of the pen away, or begun or ended alike. Of several the first
// in alphabetical order; "" when none is near.
func Nearest(id string, names []string) string {
	names = slices.Sorted(slices.Values(names))
	best, least := "", 1+len(id)/3 // of one or two letters any other is as near
	for _, name := range names {
		if d := slips(strings.ToLower(id), strings.ToLower(name), least); d < least {
			best, least = name, d
		}
	}
	if best != "" || len(id) < 3 {
		return best
	}
	for _, name := range names {
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

// nearest guesses which identifier that a file tells of was meant, and says how many
// the file tells of.
func (x *index) nearest(file, id string) (near string, all int) {
	x.mu.Lock()
	x.guesses++
	enough := x.guesses > mostGuesses
	x.mu.Unlock()
	names, all := x.namesIn(file)
	if enough || all > mostNames {
		return "", all
	}
	return Nearest(id, slices.Collect(names)), all
}

// namesIn gives the identifiers that a file tells of, and how many they are. It looks
// at no other file's, which may still be on their way.
func (x *index) namesIn(file string) (iter.Seq[string], int) {
	var f *finder
	switch file {
	case FoodsFile:
		f = &x.foods
	case SuppliesFile:
		f = &x.supplies
	case MachinesFile:
		f = &x.machines
	case RunsFile:
		f = &x.runs
	case PacksFile:
		f = &x.packs
	case ReceiptsFile:
		f = &x.receipts
	default:
		return maps.Keys(x.tariffs), len(x.tariffs)
	}
	return f.names(), f.len()
}
