package render

import (
	"strings"

	"putby/ledger/report"
	"putby/pricing/exact"
)

// Decimals of figures for people (design, section 2).
const (
	priceExtra  = 2 // of a unit price, beyond the currency's minor digits
	amountMost  = 3 // of an amount, at most
	missing     = "-"
	aboutPrefix = "~"
)

// A shower writes values as people are shown them: rounded half away from
// zero, in the units that the ledger shows.
type shower struct {
	currency exact.Currency
	show     report.Show
}

func showerOf(d report.Doc) shower { return shower{d.Currency, d.Show} }

// text returns v without its unit, clean of what a terminal would act on.
func (s shower) text(v report.Value) string {
	if v.IsEstimate() && !v.IsNull() {
		return aboutPrefix + s.plain(v)
	}
	return s.plain(v)
}

func (s shower) plain(v report.Value) string {
	minor := s.currency.Minor()
	switch v.Kind() {
	case report.Null:
		return missing
	case report.Text:
		return clean(v.Text())
	case report.Moment:
		return localMoment(v.Text())
	case report.Money:
		return v.Number().Round(minor, exact.HalfAway).Fixed(minor)
	case report.MoneyShare:
		return v.Ratio().Round(minor, exact.HalfAway).Fixed(minor)
	case report.UnitPrice:
		per := v.Ratio().Times(s.show.In(v.Unit()).Factor())
		return per.Round(minor+priceExtra, exact.HalfAway).Fixed(minor + priceExtra)
	case report.Amount:
		of := v.Number().Over(s.show.In(v.Unit()).Factor())
		return of.Round(amountMost, exact.HalfAway).String()
	case report.Quotient:
		return v.Ratio().Round(v.Decimals(), exact.HalfAway).Fixed(v.Decimals())
	case report.Plain, report.Count:
		return v.Number().String()
	case report.UnitName:
		return s.show.In(v.Unit()).String()
	}
	return v.Text()
}

// unit returns what stands behind v where no column says it: "L", "per L".
func (s shower) unit(v report.Value) string {
	switch v.Kind() {
	case report.Amount:
		return s.show.In(v.Unit()).String()
	case report.UnitPrice:
		return "per " + s.show.In(v.Unit()).String()
	}
	return ""
}

// withUnit returns v as a phrase: "4 L", "1.2000 per L".
func (s shower) withUnit(v report.Value) string {
	if u := s.unit(v); u != "" {
		return s.text(v) + " " + u
	}
	return s.text(v)
}

// localMoment turns 2025-03-01T18:00:00+01:00 into 2025-03-01 18:00.
func localMoment(s string) string {
	if len(s) < 19 {
		return s
	}
	return strings.TrimSuffix(s[:10]+" "+s[11:19], ":00")
}

// numeric reports whether v is a number, to be aligned right and never cut.
func numeric(v report.Value) bool {
	switch v.Kind() {
	case report.Money, report.MoneyShare, report.UnitPrice, report.Amount, report.Quotient, report.Plain, report.Count, report.Span:
		return true
	}
	return false
}

// pointed reports whether v is written in digits with a point to align by.
func pointed(v report.Value) bool { return numeric(v) && v.Kind() != report.Span }
