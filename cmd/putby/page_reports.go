package main

import (
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// pageReports makes the reports of a page from the ledger as it is now, as they
// stand on the day of --as-of.
func (a *app) pageReports(q figures.Query, asOf string) (page.Reports, error) {
	s, err := a.stand(asOf)
	if err != nil {
		return page.Reports{}, err
	}
	q.AsOf = s.day
	return page.ReportsAt(func(through exact.Date) (*ledger.Ledger, error) {
		return s.join(ledger.Options{Through: through, PricesThrough: s.day})
	}, q)
}
