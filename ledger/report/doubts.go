package report

import (
	"fmt"
	"slices"
)

// doubts are notes about a report, each once, in the order in which they came
// up.
type doubts []string

func (d *doubts) add(notes ...string) {
	for _, n := range notes {
		if !slices.Contains(*d, n) {
			*d = append(*d, n)
		}
	}
}

func (d *doubts) addf(format string, args ...any) { d.add(fmt.Sprintf(format, args...)) }
