package main

import (
	"time"

	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/question"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

// pageReports makes the reports of a page from the ledger as it is now, as they
// stand on the day of --as-of, and the moment of it.
func (a *app) pageReports(q figures.Query, asOf string) (r page.Reports, now time.Time, err error) {
	s, err := a.stand(asOf)
	if err != nil {
		return r, now, err
	}
	q.AsOf = s.day
	r, err = page.ReportsAt(func(through exact.Date) (*ledger.Ledger, error) {
		return s.join(ledger.Options{Through: through, PricesThrough: s.day})
	}, q)
	if r.Ledger != nil {
		err = question.Wrong(r.Ledger, err)
	}
	if err == nil && q.Item == "" {
		var card reports.Told[reports.ShopCard]
		card, err = question.Card(r.Ledger, figures.CardQuery{AsOf: s.day, Now: s.begins})
		r.Card = &card
	}
	return r, s.at.Now, err
}
