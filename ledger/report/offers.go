package report

import (
	"fmt"
	"slices"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing"
	"putby/pricing/exact"
)

// An OffersQuery is what the history of a food's prices is asked. Its Item is
// the food.
type OffersQuery struct {
	figures.Query
	Shop string       // only this shop; empty: all
	Form pricing.Form // fresh, or the shop's own preserved equivalent
}

// sameOffer is how many days apart an offer is seen at most and still is one:
// shops change their leaflets weekly (common practice).
const sameOffer = 7

// Offers reports the history of what shops ask and what was paid for a food,
// per edible unit; how often it is on offer, and how low. The ledger must be
// joined through the query's AsOf. Its error is an [*figures.UnknownError] for a food
// that is not recorded, or a [*QueryError].
func Offers(g *ledger.Ledger, q OffersQuery) (Doc, error) {
	q.Item, _ = ledger.Meant(q.Item, g.Records.NamedFoods())
	food, ok := g.FindFood(q.Item)
	if !ok {
		return Doc{}, &figures.UnknownError{What: "food", Name: q.Item}
	}
	if _, err := q.In(g); err != nil {
		return Doc{}, asked(g, err)
	}
	o := &offersReport{g: g, q: q, unit: g.Foods[food].Basis, history: figures.PriceHistory(g, food, q.Form)}
	if q.Shop != "" && !slices.Contains(o.history.Shops(), q.Shop) {
		return Doc{}, errorf("shop", "its shops are: "+listed(o.history.Shops()), "no price of %s at %s is recorded", q.Item, exact.Quote(q.Shop))
	}
	if q.Shop != "" {
		o.history = o.history.At(q.Shop)
	}
	o.day = g.AsOf
	if q.To != exact.NoDate {
		o.day = min(o.day, q.To)
	}
	o.shown = o.history.Between(q.From, o.day)
	return o.doc(food), nil
}

// offersReport is a history being laid out.
type offersReport struct {
	g       *ledger.Ledger
	q       OffersQuery
	unit    exact.Unit
	day     exact.Date       // up to which it goes
	history *pricing.History // all of it, or of the shop
	shown   *pricing.History // from the query's first date to the day
}

func (o *offersReport) doc(food int) Doc {
	d := newDoc(o.g, o.title(food))
	d.Words = o.words()
	prices := o.prices()
	d.Fields = []Field{
		{"item", "", itemValue(o.g, o.q.Item)}, {"unit", "", UnitOf(o.unit)}, {"form", "", TextOf(o.q.Form.String())}, {"as_of", "", DateOf(o.day)},
		{"lowest_30_days", "Lowest of the last 30 days", o.lowest()},
		{"year", "The year up to " + o.day.String(), o.year()},
		{"rhythm", "On offer", o.rhythm()},
		{"prices", "", prices}, // the first table is that of CSV
		{"regular", "Regular shelf price, the lowest of each day", o.series(pricing.AskedRegular)},
		{"offered", "On offer, the lowest of each day", o.series(pricing.AskedOffer)},
		{"paid", "Paid, the lowest of each day", o.series(pricing.Paid)},
		{"", "Every price that is known", prices},
		{"shops", "By shop", o.shops()},
		{"spells", "Times on offer", o.spells()},
		{NotesKey, "", List{}},
	}
	if o.q.Form == pricing.Fresh {
		d.Notes = refuses(o.g, func(f int) bool { return f == food })
	}
	return d
}

func (o *offersReport) title(food int) string {
	title := "Prices of " + o.g.Foods[food].Title()
	if o.q.Form == pricing.Preserved {
		title += ", preserved, as reconstituted"
	}
	if o.q.Shop != "" {
		title += " at " + o.q.Shop
	}
	return title
}

// words sum the history up.
func (o *offersReport) words() []string {
	s := phrasing{o.g.Settings.Currency, newDoc(o.g, "").Show}
	year := o.history.YearTo(o.day)
	sum, ok := year.Summary()
	if !ok {
		return []string{"No price is recorded in the year up to " + o.day.String() + "."}
	}
	low, _ := year.Lowest()
	words := []string{fmt.Sprintf("The year's lowest price is %s, %s at %s on %v; its median is %s.",
		s.price(low.PerUnit, o.unit), low.Kind, shopName(low.Shop), low.Date, s.price(sum.Median, o.unit))}
	spells := year.Spells(sameOffer)
	if len(spells) == 0 {
		return append(words, o.noOffer(year))
	}
	line := fmt.Sprintf("It was on offer %s in the year", counted(len(spells), "time"))
	if r, ok := pricing.RhythmOf(spells); ok {
		days := r.Median.Round(0, exact.HalfAway)
		line += fmt.Sprintf(", %v days apart at the median", days)
		n, _ := days.Int64()
		if next := spells[len(spells)-1].From.AddDays(int(n)); next > o.day && len(spells) > 2 {
			line += fmt.Sprintf("; at that pace the next begins about %v", next)
		}
	}
	return append(words, line+".")
}

// noOffer says that none was seen, and where nothing could tell of one.
func (o *offersReport) noOffer(year *pricing.History) string {
	if len(o.history.Of(pricing.AskedRegular).Prices()) == 0 && len(year.Of(pricing.Paid).Prices()) > 0 {
		return "Whether it was on offer nobody can tell: no regular price is recorded to hold what was paid to (putby price add)."
	}
	return "It was never seen on offer in the year."
}

func shopName(s string) string {
	if s == "" {
		return "a shop"
	}
	return s
}

// lowest is the reference price of Directive 98/6/EC, article 6a, for a
// reduction that began the day after: the lowest of the last 30 days.
func (o *offersReport) lowest() Object {
	perUnit, shop, date, presumed := None, None, None, None
	if ref, ok := o.history.Reference(o.day.AddDays(1)); ok {
		perUnit, shop, date, presumed = PriceOf(ref.PerUnit, o.unit), TextOf(ref.Shop), DateOf(ref.Date), YesNoOf(ref.Presumed)
	}
	return Object{{"per_unit", "price", perUnit}, {"shop", "at", shop}, {"date", "on", date},
		{"presumed", "older, as none of these days is known", presumed}}
}

// year are the quantiles of the year, of type 7.
func (o *offersReport) year() Object {
	keys := []string{"lowest", "lower_quartile", "median", "upper_quartile", "highest"}
	titles := []string{"lowest", "lower quartile", "median", "upper quartile", "highest"}
	values := make([]Value, len(keys))
	sum, ok := o.history.YearTo(o.day).Summary()
	if ok {
		for i, r := range []exact.Ratio{sum.Lowest, sum.LowerQuartile, sum.Median, sum.UpperQuartile, sum.Highest} {
			values[i] = PriceOf(r, o.unit)
		}
	}
	list := Object{{"prices", "prices known", CountOf(sum.Count)}}
	for i, key := range keys {
		list = append(list, Field{key, titles[i], values[i]})
	}
	return list
}

// rhythm is how often the food is on offer, and how far apart.
func (o *offersReport) rhythm() Object {
	spells := o.history.YearTo(o.day).Spells(sameOffer)
	list := Object{{"times", "times in the year", CountOf(len(spells))}}
	median, shortest, longest := None, None, None
	if r, ok := pricing.RhythmOf(spells); ok {
		median, shortest, longest = QuotientOf(r.Median, 1), CountOf(r.Shortest), CountOf(r.Longest)
	}
	return append(list, Field{"median_days", "days apart, median", median},
		Field{"shortest_days", "days apart, shortest", shortest}, Field{"longest_days", "days apart, longest", longest})
}

// prices lists every price, oldest first.
func (o *offersReport) prices() *Table {
	t := &Table{Columns: []Column{{Key: "date", Title: "date"}, {Key: "shop", Title: "shop"},
		{Key: "kind", Title: "kind"}, {Key: "per_unit", Title: "per unit"}}, Empty: "None in that time."}
	for _, p := range o.shown.Prices() {
		t.Rows = append(t.Rows, Row{Cells: []Value{DateOf(p.Date), TextOf(p.Shop), TextOf(p.Kind.String()), PriceOf(p.PerUnit, o.unit)}})
	}
	return t
}

// shops sums up shop by shop.
func (o *offersReport) shops() *Table {
	t := &Table{Columns: []Column{{Key: "shop", Title: "shop"}, {Key: "prices", Title: "prices", Rank: 3},
		{Key: "lowest", Title: "lowest"}, {Key: "median", Title: "median"}, {Key: "highest", Title: "highest", Rank: 2},
		{Key: "latest", Title: "latest"}, {Key: "latest_date", Title: "of", Rank: 1}, {Key: "times_on_offer", Title: "times on offer", Rank: 1}}}
	for _, shop := range o.shown.Shops() {
		at := o.shown.At(shop)
		sum, _ := at.Summary()
		t.Rows = append(t.Rows, Row{Cells: []Value{
			TextOf(shop), CountOf(sum.Count), PriceOf(sum.Lowest, o.unit), PriceOf(sum.Median, o.unit), PriceOf(sum.Highest, o.unit),
			PriceOf(sum.Latest.PerUnit, o.unit), DateOf(sum.Latest.Date), CountOf(len(at.Spells(sameOffer))),
		}})
	}
	return t
}

// spells lists the times on offer.
func (o *offersReport) spells() *Table {
	t := &Table{Columns: []Column{{Key: "shop", Title: "shop"}, {Key: "from", Title: "first seen"},
		{Key: "to", Title: "last seen"}, {Key: "lowest", Title: "lowest"}}}
	for _, s := range o.shown.Spells(sameOffer) {
		t.Rows = append(t.Rows, Row{Cells: []Value{TextOf(s.Shop), DateOf(s.From), DateOf(s.To), PriceOf(s.Lowest, o.unit)}})
	}
	return t
}

// series is the lowest price of one kind on each day that has one.
func (o *offersReport) series(kind pricing.Kind) *Series {
	s := &Series{Steps: kind == pricing.AskedRegular}
	for _, p := range o.shown.Of(kind).Prices() {
		v := PriceOf(p.PerUnit, o.unit)
		if n := len(s.Points); n > 0 && s.Points[n-1].Date == p.Date {
			if p.PerUnit.Cmp(s.Points[n-1].Value.Ratio()) < 0 {
				s.Points[n-1].Value = v
			}
			continue
		}
		s.Points = append(s.Points, Point{p.Date, v})
	}
	return s
}
