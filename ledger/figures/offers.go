package figures

import (
	"slices"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// An OffersQuery asks how a food's prices went. Its Item is the food.
type OffersQuery struct {
	Query
	Shop string       // only this shop; empty: all
	Form pricing.Form // fresh, or the shop's own preserved equivalent
}

// SameOffer is how many days apart an offer is seen at most and still is one:
// shops change their leaflets weekly (common practice).
const SameOffer = 7

// An OffersResult is what shops asked and what was paid for a food, per edible
// unit.
type OffersResult struct {
	Food int        // position
	Day  exact.Date // up to which it goes

	Shown  *pricing.History // from the query's first date to the day
	Shops  []ShopPrices     // of what is shown
	Spells []pricing.Spell  // of what is shown: times on offer

	Year      pricing.Summary              // of the year up to the day
	Lowest    exact.Opt[pricing.Price]     // of that year, asked or paid
	Times     int                          // occasions on offer in that year, as the pace counts them
	Rhythm    exact.Opt[pricing.Rhythm]    // not given: fewer than two spells
	Pace      exact.Opt[OfferPace]         // of all that is known up to the day; none: never seen on offer
	Reference exact.Opt[pricing.Reference] // the lowest of the last 30 days: of a reduction that began the day after
	Untold    bool                         // no regular price is known to hold what was paid to
}

// ShopPrices sum up the prices of a shop.
type ShopPrices struct {
	Shop string
	pricing.Summary
	Times int // on offer
}

// Offers works out the history of what shops ask and what was paid for a food;
// how often it is on offer, and how low. The ledger must be joined through the
// query's AsOf. The error may also be a [*FactError].
func Offers(g *ledger.Ledger, q OffersQuery) (*OffersResult, error) {
	scope, err := q.In(g)
	if err != nil {
		return nil, err
	}
	if scope.Food < 0 {
		return nil, unknown(ledger.Foods, q.Item)
	}
	history := PriceHistory(g, scope.Food, q.Form)
	if q.Shop != "" {
		if shops := history.Shops(); !slices.Contains(shops, q.Shop) {
			return nil, &FactError{Fact: ShopFact, Fault: NoPriceAt, Food: scope.Food, Name: q.Shop, Among: shops}
		}
		history = history.At(q.Shop)
	}
	r := &OffersResult{Food: scope.Food, Day: min(orLast(q.To), g.AsOf)}
	r.Shown = history.Between(q.From, r.Day)
	r.Spells = r.Shown.Spells(SameOffer)
	for _, shop := range r.Shown.Shops() {
		at := r.Shown.At(shop)
		sum, _ := at.Summary()
		r.Shops = append(r.Shops, ShopPrices{shop, sum, len(at.Spells(SameOffer))})
	}
	// Of all that is known: the first date asked for narrows what is shown, not what is judged by.
	r.Reference = exact.OptOf(history.Reference(r.Day.AddDays(1)))
	r.addYear(history)
	return r, nil
}

// addYear sums the year up.
func (r *OffersResult) addYear(history *pricing.History) {
	year := history.YearTo(r.Day)
	r.Year, _ = year.Summary()
	r.Lowest = exact.OptOf(year.Lowest())
	spells := occasions(year.Spells(SameOffer))
	r.Times = len(spells)
	r.Untold = len(history.Of(pricing.AskedRegular).Prices()) == 0 && len(year.Of(pricing.Paid).Prices()) > 0
	r.Rhythm = exact.OptOf(pricing.RhythmOf(spells))
	r.Pace = exact.OptOf(paceOf(history.Between(exact.NoDate, r.Day)))
}

// LowestOf is the lowest price of one kind on each day shown that has one.
func (r *OffersResult) LowestOf(kind pricing.Kind) (list []pricing.Price) {
	for _, p := range r.Shown.Of(kind).Prices() {
		switch n := len(list) - 1; {
		case n < 0 || list[n].Date != p.Date:
			list = append(list, p)
		case p.PerUnit.Cmp(list[n].PerUnit) < 0:
			list[n] = p
		}
	}
	return list
}
