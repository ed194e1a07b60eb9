package main

import (
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

// pageReports makes the reports of a page from the ledger as it is now.
func (a *app) pageReports(q reports.Query) (page.Reports, error) {
	// Most reports are about what there is on a day; that of foods is about
	// whole runs, whose later packs count.
	g, err := a.load(ledger.Options{Through: q.AsOf, PricesThrough: q.AsOf})
	if err != nil {
		return page.Reports{}, err
	}
	whole := g
	if q.AsOf != exact.NoDate {
		whole, _ = ledger.Join(g.Records, ledger.Options{Through: exact.NoDate, PricesThrough: q.AsOf})
	}
	return reportsOf(g, whole, q)
}

func reportsOf(g, whole *ledger.Ledger, q reports.Query) (r page.Reports, err error) {
	r.AsOf = g.AsOf
	if r.Month, err = reports.Month(g, reports.MonthQuery{Query: q}); err != nil {
		return r, err
	}
	if r.Compare, err = reports.Compare(whole, reports.CompareQuery{Query: q}); err != nil {
		return r, err
	}
	if r.OnHand, err = reports.OnHand(g, reports.OnHandQuery{Query: q}); err != nil {
		return r, err
	}
	if r.Payback, err = reports.Payback(g, reports.PaybackQuery{Query: q}); err != nil {
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
