package main

import (
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/figures"
)

// pageReports makes the reports of a page from the ledger as it is now, as they
// stand on the day of --as-of.
func (a *app) pageReports(q figures.Query, asOf string) (page.Reports, error) {
	s, err := a.stand(asOf)
	if err != nil {
		return page.Reports{}, err
	}
	q.AsOf = s.day
	// Most reports are about what there is on a day; that of foods is about
	// whole runs, whose later packs count.
	g, err := s.byDay(ledger.Options{})
	if err != nil {
		return page.Reports{}, err
	}
	whole := g
	if len(g.LeftOut()) > 0 {
		if whole, err = s.wholeRuns(ledger.Options{}); err != nil {
			return page.Reports{}, err
		}
	}
	return page.ReportsOf(g, whole, q)
}
