package report

import (
	"cmp"
	"fmt"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/figures"
	"putby/pricing"
	"putby/pricing/exact"
)

// Offers lays out the history of what shops ask and what was paid for a food; see
// [figures.Offers], whose errors it returns.
func Offers(g *ledger.Ledger, q figures.OffersQuery) (Doc, error) {
	return laid(g, q, figures.Offers, OffersDoc)
}

// OffersDoc lays out the history of a food's prices.
func OffersDoc(g *ledger.Ledger, q figures.OffersQuery, r *figures.OffersResult) Doc {
	o := &offers{reportingOn(g), q, r, g.Foods[r.Food].Basis}
	d := newDoc(g, o.heading())
	d.Words, d.Share = o.words(), offersShare(g, r)
	prices := o.prices()
	d.Fields = []Field{
		{"item", "", foodValue(&g.Foods[r.Food])}, {"unit", "", UnitOf(o.unit)}, {"form", "", TextOf(q.Form.String())}, {"as_of", "", DateOf(r.Day)},
		{"lowest_30_days", o.lowestTitle(), o.lowest()},
		{"year", "The year up to " + o.day(r.Day), o.year()},
		{"rhythm", "On offer", o.rhythm()},
		{"as_good", "As cheap as when it last was on offer", o.asGood()},
		{"prices", "", prices}, // the first table is that of CSV
		{"regular", "Regular shelf price, the lowest of each day", o.series(pricing.AskedRegular)},
		{"offered", "On offer, the lowest of each day", o.series(pricing.AskedOffer)},
		{"paid", "Paid, the lowest of each day", o.series(pricing.Paid)},
		{"", "Every price that is known", prices},
		{"shops", "By shop", o.shops()},
		{"spells", "Times on offer", o.spells()},
		{NotesKey, "", List{}},
	}
	if q.Form == pricing.Fresh {
		d.Notes = refuses(g, func(f int) bool { return f == r.Food })
	}
	return d
}

// offers is a history being laid out.
type offers struct {
	reporting
	q figures.OffersQuery
	*figures.OffersResult
	unit exact.Unit
}

func (o *offers) heading() string {
	title := "Prices of " + o.title(o.Food)
	if o.q.Form == pricing.Preserved {
		title += ", preserved, with water added"
	}
	if o.q.Shop != "" {
		title += " at " + o.q.Shop
	}
	return title
}

// words sum the history up.
func (o *offers) words() []string {
	low, ok := o.Lowest.Get()
	if !ok {
		return []string{"No price is recorded in the year up to " + o.day(o.Day) + "."}
	}
	words := []string{fmt.Sprintf("The year's lowest price is %s, %s at %s on %s; its median is %s.",
		o.price(low.PerUnit, o.unit), low.Kind, shopName(low.Shop), o.day(low.Date), o.price(o.Year.Median, o.unit))}
	switch {
	case o.Times > 0:
		words = append(words, o.timesWords())
	case o.Untold:
		words = append(words, "Whether it was on offer nobody can tell: no regular price is recorded to hold what was paid to ("+o.say(advice.AddPrice)+").")
	default:
		words = append(words, "It was never seen on offer in the year.")
	}
	if p, ok := o.Pace.Get(); ok {
		words = append(words, o.paceWords(p)...)
	}
	return words
}

// timesWords say how often it was on offer, and how far apart.
func (o *offers) timesWords() string {
	line := "It was on offer once in the year"
	if o.Times > 1 {
		line = fmt.Sprintf("It was on offer %d times in the year", o.Times)
	}
	if r, ok := o.Rhythm.Get(); ok {
		days, _ := r.Median.Round(0, exact.HalfAway).Int64()
		line += ", " + counted(int(days), "day") + " apart at the median"
	}
	return line + "."
}

func shopName(s string) string { return cmp.Or(s, "a shop") }

// lowest is the reference price of Directive 98/6/EC, article 6a.
func (o *offers) lowest() Object {
	perUnit, shop, date, presumed := None, None, None, None
	if ref, ok := o.Reference.Get(); ok {
		perUnit, shop, date, presumed = PriceOf(ref.PerUnit, o.unit), TextOf(ref.Shop), DateOf(ref.Date), YesNoOf(ref.Presumed)
	}
	return Object{{"per_unit", "price", perUnit}, {"shop", "at", shop}, {"date", "on", date},
		{"presumed", "", presumed}}
}

// lowestTitle says whether the reference price is of its days.
func (o *offers) lowestTitle() string {
	if ref, ok := o.Reference.Get(); ok && ref.Presumed {
		return "Last known price (none in the last 30 days)"
	}
	return "Lowest of the last 30 days"
}

// year are the quantiles of the year, of type 7.
func (o *offers) year() Object {
	price := func(key, title string, r exact.Ratio) Field {
		return Field{key, title, onlyIf(o.Year.Count > 0, PriceOf(r, o.unit))}
	}
	return Object{{"prices", "prices known", CountOf(o.Year.Count)},
		price("lowest", "lowest", o.Year.Lowest), price("lower_quartile", "lower quartile", o.Year.LowerQuartile), price("median", "median", o.Year.Median),
		price("upper_quartile", "upper quartile", o.Year.UpperQuartile), price("highest", "highest", o.Year.Highest)}
}

// rhythm is how often the food is on offer, and how far apart.
func (o *offers) rhythm() Object {
	median, shortest, longest := None, None, None
	if r, ok := o.Rhythm.Get(); ok {
		median, shortest, longest = QuotientOf(r.Median, 1), CountOf(r.Shortest), CountOf(r.Longest)
	}
	return Object{{"times", "times in the year", CountOf(o.Times)}, {"median_days", "days apart, median", median},
		{"shortest_days", "days apart, shortest", shortest}, {"longest_days", "days apart, longest", longest}}
}

// prices lists every price, oldest first.
func (o *offers) prices() *Table {
	t := &Table{Columns: []Column{{Key: "date", Title: "date"}, {Key: "shop", Title: "shop"},
		{Key: "kind", Title: "kind"}, {Key: "per_unit", Title: "per unit"}}, Empty: "None in that time."}
	for _, p := range o.Shown.Prices() {
		t.add(DateOf(p.Date), TextOf(p.Shop), TextOf(p.Kind.String()), PriceOf(p.PerUnit, o.unit))
	}
	return t
}

// shops sums up shop by shop.
func (o *offers) shops() *Table {
	t := &Table{Columns: []Column{{Key: "shop", Title: "shop"}, {Key: "prices", Title: "prices", Rank: 3},
		{Key: "lowest", Title: "lowest"}, {Key: "median", Title: "median"}, {Key: "highest", Title: "highest", Rank: 2},
		{Key: "latest", Title: "latest"}, {Key: "latest_date", Title: "of", Rank: 1}, {Key: "times_on_offer", Title: "times on offer", Rank: 1}}}
	for _, s := range o.Shops {
		t.add(TextOf(s.Shop), CountOf(s.Count), PriceOf(s.Lowest, o.unit), PriceOf(s.Median, o.unit), PriceOf(s.Highest, o.unit),
			PriceOf(s.Latest.PerUnit, o.unit), DateOf(s.Latest.Date), CountOf(s.Times))
	}
	return t
}

// spells lists the times on offer.
func (o *offers) spells() *Table {
	t := &Table{Columns: []Column{{Key: "shop", Title: "shop"}, {Key: "from", Title: "first seen"},
		{Key: "to", Title: "last seen"}, {Key: "lowest", Title: "lowest"}}}
	for _, s := range o.Spells {
		t.add(TextOf(s.Shop), DateOf(s.From), DateOf(s.To), PriceOf(s.Lowest, o.unit))
	}
	return t
}

// series is the lowest price of one kind on each day that has one.
func (o *offers) series(kind pricing.Kind) *Series {
	s := &Series{Steps: kind == pricing.AskedRegular}
	for _, p := range o.LowestOf(kind) {
		s.Points = append(s.Points, Point{p.Date, PriceOf(p.PerUnit, o.unit)})
	}
	return s
}
