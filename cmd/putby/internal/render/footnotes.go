package render

import (
	"slices"
	"strconv"
	"strings"
)

// footnotes numbers the notes of a report's rows: the same words have the same
// number wherever they stand.
type footnotes struct{ list []string }

// marks returns the numbers of a row's notes, such as "1,3".
func (f *footnotes) marks(notes []string) string {
	numbers := make([]int, 0, len(notes))
	for _, note := range notes {
		note = Clean(note)
		i := slices.Index(f.list, note)
		if i < 0 {
			i = len(f.list)
			f.list = append(f.list, note)
		}
		numbers = append(numbers, i+1)
	}
	slices.Sort(numbers)
	words := make([]string, 0, len(numbers))
	for _, n := range slices.Compact(numbers) {
		words = append(words, strconv.Itoa(n))
	}
	return strings.Join(words, ",")
}
