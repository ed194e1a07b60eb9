package report

import (
	"fmt"

	"putby/ledger"
)

// LoadAdvice says of a run, which is among the ledger's records, by which limit
// its loads are more than the machine takes.
func LoadAdvice(g *ledger.Ledger, run int) (words []string) {
	say := phrasingOf(&g.Settings)
	m, _ := g.FindMachine(g.Records.Runs[run].Machine)
	for _, over := range g.Overloads(run) {
		loaded, most := over.Loaded.Base(), over.Most.Base()
		words = append(words, fmt.Sprintf("The load is %s, and %s takes %s at most (its %s): check the amount.",
			say.amount(loaded.Number(), loaded.Unit()), g.Machines[m].Title(), say.amount(most.Number(), most.Unit()), over.Column))
	}
	return words
}
