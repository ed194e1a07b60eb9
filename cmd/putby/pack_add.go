package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

const packAddLong = `Add a row of like containers. It says how many oxygen absorbers each needs
beside those used: freeze-dried food is mostly pores, so nearly the whole
container is gas. It notes packs that are together over 10 % off what was
loaded, and prints the food's caution.

Absorbers are for dry food of low oil content only: moist food sealed without
oxygen can grow botulism. Follow your food-safety authority's guidance.`

func newPackAddCommand(a *app) *cobra.Command {
	k, _ := ledger.KindOf("pack")
	o := &addOptions{}
	cmd := &cobra.Command{
		Use: "add", Short: "add a row of like containers", Long: packAddLong + "\n\n" + columnHelp(k),
		Example: `  putby pack add --run c47 --item chicken-broth --count 6 --each "1 L" --dry "72 g" \
    --with "1 jar-1l, 1 lid, 1 absorber-300"`,
		Args: arguments(),
		RunE: func(cmd *cobra.Command, _ []string) error {
			return runAdd(cmd, a, k, o, func(b *folder.Book, cells map[string]string) ([]entry.Row, error) {
				return nil, a.advise(b, k, cells)
			})
		},
	}
	o.add(cmd, k)
	return cmd
}

// advise prints what to know of a pack before it is saved. A pack with faults
// gets no advice: the saving says what is wrong.
func (a *app) advise(b *folder.Book, k ledger.Kind, cells map[string]string) error {
	rec, faults := b.Records()
	if len(faults) > 0 {
		return nil
	}
	more, faults := rec.With(k, cells)
	if len(faults) > 0 {
		return nil
	}
	g, faults := ledger.Join(more, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
	if len(faults) > 0 {
		return nil
	}
	for _, line := range reports.PackAdvice(g, len(more.Packs)-1) {
		fmt.Fprintln(a.stdout, printable(line))
	}
	return nil
}
