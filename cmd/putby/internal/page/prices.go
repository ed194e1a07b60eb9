package page

import (
	"slices"
	"strconv"
	"strings"

	"putby/cmd/putby/internal/render"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing"
	"putby/pricing/exact"
)

// prices is the part about what shops have asked over time, food by food, all
// on one stretch of time.
func prices(r Reports) (s section, err error) {
	s = section{ID: "prices", Title: "Prices over time", Wide: "two",
		Said: "What changed in the last year. The line is the regular shelf price per edible unit, the lowest of the day, which holds until the next one that was seen.",
		Key:  []keyEntry{{"regular", "regular", true}, {"offer", "on offer", true}, {"paid", "paid", true}}}
	first, last := exact.LastDate, r.Ledger.AsOf
	since := last.AddMonths(-12)
	for _, told := range r.Prices {
		if known := told.Figures.Shown.Prices(); len(known) > 0 {
			first, last = min(first, known[0].Date), max(last, known[len(known)-1].Date)
		}
	}
	first = max(first, since) // no chart begins more than a year back
	var same []string
	for i, told := range r.Prices {
		h := told.Figures
		food := &r.Ledger.Foods[h.Food]
		if price, once := unchanged(h.Shown.Prices(), since); once {
			same = append(same, render.Clean(food.Title())+" "+tellerOf(told.Doc).with(report.PriceOf(price, food.Basis)))
			continue
		} else if len(h.Shown.Prices()) == 0 {
			continue
		}
		f := figure{ID: "price-" + strconv.Itoa(i+1), Title: pricesTitle(told.Doc, food), Lead: yearWords(told, food.Basis)}
		points := func(kind pricing.Kind) []pricePoint {
			return newest(pricePoints(h.LowestOf(kind), food.Basis, pointWords[kind]), first)
		}
		t := tellerOf(told.Doc)
		f.drawHistory(t, points(pricing.AskedRegular),
			[]dots{{"offer", points(pricing.AskedOffer)}, {"paid", points(pricing.Paid)}}, first, last)
		f.About = "A line of steps from " + t.day(first) + " to " + t.day(last) + "."
		s.Figures = append(s.Figures, f)
	}
	if same != nil {
		s.Said += " Of these the price was the same all the time: " + strings.Join(same, ", ") + "."
	}
	if len(s.Figures) > 0 {
		s.Tables, err = tables(yearOf(r), "offers", "foods")
	}
	return s, err
}

// yearOf sums up the prices of each food over the last year.
func yearOf(r Reports) report.Doc {
	d := r.Prices[0].Doc
	// For people alone, so its columns have no keys.
	t := &report.Table{Columns: []report.Column{{Title: "food"}, {Title: "prices"}, {Title: "lowest"}, {Title: "median"}, {Title: "highest"}, {Title: "per"}, {Title: "times on offer"}}}
	for _, told := range r.Prices {
		h := told.Figures
		if h.Year.Count == 0 {
			continue
		}
		food := &r.Ledger.Foods[h.Food]
		per := func(price exact.Ratio) report.Value { return report.PriceOf(price, food.Basis) }
		t.Rows = append(t.Rows, report.Row{Cells: []report.Value{report.TextOf(food.Title()), report.CountOf(h.Year.Count),
			per(h.Year.Lowest), per(h.Year.Median), per(h.Year.Highest), report.UnitOf(food.Basis), report.CountOf(h.Times)}})
	}
	d.Fields = []report.Field{{Key: "foods", Title: "Prices of the last year", Node: t}}
	return d
}

// yearWords says what a price was like in the last year.
func yearWords(told report.Told[*figures.OffersResult], unit exact.Unit) string {
	h, t := told.Figures, tellerOf(told.Doc)
	if h.Year.Count == 0 {
		return ""
	}
	per := func(price exact.Ratio) string { return t.short(report.PriceOf(price, unit)) }
	return "Lowest of the year " + per(h.Year.Lowest) + ", median " + per(h.Year.Median)
}

// unchanged reports whether all prices since a day are one, and which.
func unchanged(prices []pricing.Price, since exact.Date) (price exact.Ratio, one bool) {
	for _, p := range prices {
		switch {
		case p.Date < since:
		case !one:
			price, one = p.PerUnit, true
		case p.PerUnit.Cmp(price) != 0:
			return price, false
		}
	}
	return price, one
}

// mostPoints is how many prices of a kind a chart has room for.
const mostPoints = 150

// newest leaves of prices in order of time those that a chart shows: from a day on,
// with the last one before it, which holds then.
func newest(points []pricePoint, first exact.Date) []pricePoint {
	from := 0
	for from < len(points) && points[from].date < first {
		from++
	}
	if from > 0 && points[from-1].label == pointWords[pricing.AskedRegular] {
		from--
		points[from].date = first
	}
	points = points[max(from, len(points)-mostPoints):]
	if len(points) == 0 || points[0].label != pointWords[pricing.AskedRegular] {
		return points
	}
	return slices.CompactFunc(points, func(a, b pricePoint) bool { return a.price.Ratio().Cmp(b.price.Ratio()) == 0 }) // it holds
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

func pricePoints(list []pricing.Price, unit exact.Unit, label string) (points []pricePoint) {
	for _, p := range list {
		points = append(points, pricePoint{p.Date, report.PriceOf(p.PerUnit, unit), label})
	}
	return points
}
