package main

import (
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/figures"
	reports "putby/ledger/report"
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
	return reportsOf(g, whole, q)
}

func reportsOf(g, whole *ledger.Ledger, q figures.Query) (r page.Reports, err error) {
	r.AsOf = g.AsOf
	if r.Month, err = reports.Month(g, figures.MonthQuery{Query: q}); err != nil {
		return r, err
	}
	r.Month.Notes = append(reports.LeftOut(g), r.Month.Notes...) // of the whole page
	if r.Compare, err = reports.Compare(whole, figures.CompareQuery{Query: q}); err != nil {
		return r, err
	}
	if r.OnHand, err = reports.OnHand(g, figures.OnHandQuery{Query: q}); err != nil {
		return r, err
	}
	if r.Payback, err = reports.Payback(g, figures.PaybackQuery{Query: q}); err != nil {
		return r, err
	}
	for i := range g.Foods {
		if q.Item != "" && q.Item != g.Foods[i].ID {
			continue
		}
		of := q
		of.Item = g.Foods[i].ID
		d, err := reports.Offers(g, reports.OffersQuery{Query: of})
		if err != nil {
			return r, err
		}
		r.Prices = append(r.Prices, d)
	}
	return r, nil
}
