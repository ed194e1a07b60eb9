package report

import (
	"fmt"
	"slices"
)

// Once adds to a list what is not in it yet.
func Once[T comparable](list []T, more ...T) []T {
	for _, one := range more {
		if !slices.Contains(list, one) {
			list = append(list, one)
		}
	}
	return list
}

// noteList are notes about a report, each once, in the order in which they came
// up.
type noteList []string

func (d *noteList) add(notes ...string) { *d = Once(*d, notes...) }

func (d *noteList) addf(format string, args ...any) { d.add(fmt.Sprintf(format, args...)) }
