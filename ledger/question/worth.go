package question

import (
	"errors"
	"time"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// A WorthQuery is the question whether a sale is worth buying in bulk, and how
// people are shown the answer. [WorthQuery.Set] reads it from words, as flags and
// cells have them.
type WorthQuery struct {
	report.WorthQuery
	StartText string                 // local time of the first cycle, or with an offset; read where the zone is known
	Budget    exact.Opt[exact.Money] // for the food of all offers of a plan together
}

// NewWorthQuery returns a question about a food of which nothing else is given.
func NewWorthQuery(item string) WorthQuery {
	var q WorthQuery
	q.Item, q.AsOf, q.Names = item, exact.NoDate, Flag
	return q
}

// in reads what depends on the zone.
func (q WorthQuery) in(zone *time.Location) (report.WorthQuery, error) {
	if q.StartText == "" {
		return q.WorthQuery, nil
	}
	t, err := exact.ParseMoment(q.StartText, zone)
	if err != nil {
		return q.WorthQuery, OptionFault("start", "write it as \"2025-02-28 18:30\", or with an offset", "%v", err)
	}
	q.Start = exact.Some(t)
	return q.WorthQuery, nil
}

// Worth answers whether a sale is worth it; see [report.Worth]. Its error is a
// [*figures.UnknownError] for a food that is not recorded, a fault of [ErrOption] for a wrong
// option, or a [*MissingError] that names all facts that are missing.
func Worth(g *ledger.Ledger, q WorthQuery) (report.Told[report.Verdict], error) {
	typed, err := q.in(g.Settings.Zone)
	if err != nil {
		return report.Told[report.Verdict]{}, err
	}
	d, err := report.Worth(g, typed)
	return d, factWords(g, &typed.WorthQuery, err)
}

// Card answers what to pay in the shop; see [report.Card]. Its errors are those of
// [Worth].
func Card(g *ledger.Ledger, q figures.CardQuery) (report.Told[report.ShopCard], error) {
	d, err := report.Card(g, q, Flag)
	if errors.As(err, new(*figures.UnknownError)) {
		return d, Wrong(g, err)
	}
	err = factWords(g, &figures.WorthQuery{Item: q.Item, As: q.As, Size: q.Size}, err)
	if missing := (*MissingError)(nil); errors.As(err, &missing) {
		for i := range missing.Facts {
			if f := &missing.Facts[i]; f.Record != "" {
				f.Give = nil // which is an option of worth alone
			}
		}
	}
	return d, err
}

// Plan answers which of several offers to buy; see [report.Plan]. Its error is that
// of the first offer that has one: as of [Worth].
func Plan(g *ledger.Ledger, offers []WorthQuery) (report.Doc, error) {
	d, wrong, err := plan(g, offers)
	for i := range offers {
		if wrong[i] != nil {
			return d, ofOffer(report.ItemTitle(g, offers[i].Item), wrong[i])
		}
	}
	return d, err
}

// plan answers about several offers, of which the first says what holds for all.
// What is wrong with an offer is by its position.
func plan(g *ledger.Ledger, offers []WorthQuery) (d report.Doc, wrong map[int]error, err error) {
	wrong = map[int]error{}
	queries := make([]figures.WorthQuery, len(offers))
	// Every offer's moment first: what is wrong with any goes before what figures say.
	for i, o := range offers {
		q, err := o.in(g.Settings.Zone)
		if queries[i] = q.WorthQuery; err != nil {
			wrong[i] = err
		}
	}
	if len(wrong) > 0 {
		return d, wrong, nil
	}
	d, err = report.Plan(g, queries, offers[0].Budget, offers[0].Names)
	var each figures.OfferErrors
	if !errors.As(err, &each) {
		return d, nil, factWords(g, &queries[0], err)
	}
	for i, err := range each {
		wrong[i] = factWords(g, &queries[i], err)
	}
	return d, wrong, nil
}

// ofOffer names the food of an offer, among several, in what its answer lacks.
func ofOffer(title string, err error) error {
	if missing := (*MissingError)(nil); errors.As(err, &missing) {
		for i := range missing.Facts {
			missing.Facts[i].What = title + ": " + missing.Facts[i].What
		}
	}
	return err
}
