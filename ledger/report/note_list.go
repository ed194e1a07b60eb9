package report

import (
	"fmt"
	"slices"
)

// noteList are notes about a report, each once, in the order in which they came
// up.
type noteList []string

func (d *noteList) add(notes ...string) {
	for _, n := range notes {
		if !slices.Contains(*d, n) {
			*d = append(*d, n)
		}
	}
}

func (d *noteList) addf(format string, args ...any) { d.add(fmt.Sprintf(format, args...)) }
