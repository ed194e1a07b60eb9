package report

import (
	"fmt"
	"slices"

	"putby/ledger"
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

// aboutPrice notes where a shelf price is not simply that of its day.
func (d *doubts) aboutPrice(food *ledger.Food, p ledger.ShelfPrice, later bool) {
	switch {
	case p.Batch != "":
		d.addf("no shop's price of %s is known: it is valued at what its latest batch took, at the shelf prices of that", food.Title())
	case later:
		d.addf("%s is valued at a shelf price of a later day, %v, where none is earlier", food.Title(), p.Ask.Date)
	}
}
