package page

import (
	"strconv"

	"putby/cmd/putby/internal/render"
	"putby/ledger"
	"putby/ledger/report"
	"putby/pricing"
	"putby/pricing/exact"
)

// prices is the part about what shops have asked over time, food by food, all
// on one stretch of time.
func prices(r Reports) (s section, err error) {
	s = section{ID: "prices", Title: "Prices over time", Wide: "two",
		Said: "The line is the regular shelf price per edible unit, the lowest of the day, which holds until the next one that was seen.",
		Key:  []keyEntry{{"regular", "regular", true}, {"offer", "on offer", true}, {"paid", "paid", true}}}
	first, last := exact.LastDate, r.Ledger.AsOf
	for _, told := range r.Prices {
		if known := told.Figures.Shown.Prices(); len(known) > 0 {
			first, last = min(first, known[0].Date), max(last, known[len(known)-1].Date)
		}
	}
	for i, told := range r.Prices {
		h := told.Figures
		if len(h.Shown.Prices()) == 0 {
			continue
		}
		food := &r.Ledger.Foods[h.Food]
		f := figure{ID: "price-" + strconv.Itoa(i+1), Title: pricesTitle(told.Doc, food), Lead: firstOf(told.Words)}
		points := func(kind pricing.Kind) []pricePoint { return pricePoints(h.LowestOf(kind), food.Basis) }
		f.drawHistory(tellerOf(told.Doc), points(pricing.AskedRegular),
			[]dots{{"offer", points(pricing.AskedOffer)}, {"paid", points(pricing.Paid)}}, first, last)
		f.About = "A line of steps from " + first.String() + " to " + last.String() + ". " + f.Lead
		if f.Table, err = tables(told.Doc, "prices"); err != nil {
			return s, err
		}
		s.Figures = append(s.Figures, f)
	}
	return s, nil
}

// pricesTitle names a price history by its food and unit.
func pricesTitle(d report.Doc, food *ledger.Food) string {
	return render.Clean(food.Title()) + ", " + d.Currency.Code() + " per " + d.Show.In(food.Basis).String()
}

func firstOf(list []string) string {
	if len(list) == 0 {
		return ""
	}
	return render.Clean(list[0])
}

// pointWords name the kinds of prices in tips.
var pointWords = map[pricing.Kind]string{pricing.AskedRegular: "regular", pricing.AskedOffer: "offered", pricing.Paid: "paid"}

func pricePoints(list []pricing.Price, unit exact.Unit) (points []pricePoint) {
	for _, p := range list {
		points = append(points, pricePoint{p.Date, report.PriceOf(p.PerUnit, unit), pointWords[p.Kind]})
	}
	return points
}
