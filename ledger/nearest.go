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
	x.mu.Lock()
	x.guesses++
	enough := x.guesses > mostGuesses
	x.mu.Unlock()
	if n, _ := x.countIn(inFile); enough || n > mostNames {
		return ""
	}
	return Nearest(id, slices.Collect(x.namesIn(inFile)))
}

// namesIn gives the identifiers that a file tells of. It looks at no other
// file's, which may still be on their way.
func (x *index) namesIn(file string) iter.Seq[string] {
	if file == TariffsFile {
		return maps.Keys(x.tariffs)
	}
	if f := x.finderOf(file); f != nil {
		return f.names()
	}
	return func(func(string) bool) {}
}

// countIn is how many identifiers [index.namesIn] gives, where that is known.
func (x *index) countIn(file string) (n int, known bool) {
	if f := x.finderOf(file); f != nil {
		return f.len(), true
	}
	return 0, false
}

// finderOf returns what finds the records of a file; nil where nothing does.
func (x *index) finderOf(file string) *finder {
	switch file {
	case FoodsFile:
		return &x.foods
	case SuppliesFile:
		return &x.supplies
	case MachinesFile:
		return &x.machines
	case RunsFile:
		return &x.runs
	case PacksFile:
		return &x.packs
	case ReceiptsFile:
		return &x.receipts
	}
	return nil
}
