package page

import (
	"strconv"

	"putby/cmd/putby/internal/render"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// prices is the part about what shops have asked over time, food by food, all
// on one stretch of time.
func prices(r Reports) (s section, err error) {
	s = section{ID: "prices", Title: "Prices over time", Wide: "two",
		Said: "The line is the regular shelf price per edible unit, the lowest of the day, which holds until the next one that was seen.",
		Key:  []keyEntry{{"regular", "regular", true}, {"offer", "on offer", true}, {"paid", "paid", true}}}
	first, last := exact.LastDate, exact.NoDate
	for _, d := range r.Prices {
		for _, key := range []string{"regular", "offered", "paid"} {
			for _, p := range points(d, key) {
				first, last = min(first, p.date), max(last, p.date)
			}
		}
	}
	last = max(last, r.AsOf)
	for i, d := range r.Prices {
		f := figure{ID: "price-" + strconv.Itoa(i+1), Title: foodOf(d), Lead: firstOf(d.Words)}
		regular, offers, paid := points(d, "regular"), points(d, "offered"), points(d, "paid")
		if len(regular)+len(offers)+len(paid) == 0 {
			continue
		}
		t := tellerOf(d)
		f.drawHistory(t, regular, []dots{{"offer", offers}, {"paid", paid}}, first, last)
		f.About = "A line of steps from " + first.String() + " to " + last.String() + ". " + f.Lead
		if f.Table, err = tables(d, "prices"); err != nil {
			return s, err
		}
		s.Figures = append(s.Figures, f)
	}
	return s, nil
}

// foodOf names a price history by its food and unit.
func foodOf(d report.Doc) string {
	unit := value(d, "unit")
	name := wordOf(value(d, "item"))
	return name + ", " + d.Currency.Code() + " per " + d.Show.In(unit.Unit()).String()
}

func firstOf(list []string) string {
	if len(list) == 0 {
		return ""
	}
	return render.Clean(list[0])
}

// points reads a series.
func points(d report.Doc, key string) (list []pricePoint) {
	s, ok := node(d.Fields, key).(*report.Series)
	if !ok {
		return nil
	}
	for _, p := range s.Points {
		if !p.Value.IsNull() {
			list = append(list, pricePoint{date: p.Date, price: p.Value, label: key})
		}
	}
	return list
}
