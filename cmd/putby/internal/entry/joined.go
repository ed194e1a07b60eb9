package entry

import (
	"putby/ledger"
	"putby/pricing/exact"
)

// Joined joins a ledger's records with rows that are about to be added, to say
// what a person should know of them. It reports false where anything is wrong:
// the saving says what.
func Joined(rec *ledger.Records, rows []Row) (*ledger.Ledger, bool) {
	for _, row := range rows {
		more, faults := rec.With(row.Kind, row.Cells)
		if len(faults) > 0 {
			return nil, false
		}
		rec = more
	}
	g, faults := ledger.Join(rec, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
	return g, len(faults) == 0
}
