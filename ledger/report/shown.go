package report

import (
	"cmp"
	"strings"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// How people are shown figures; machines get all digits.
const (
	missing = "-" // a figure that does not exist
	about   = "~" // before an estimate
)

// Shown returns v as people are shown it, without its unit unless it is to
// have it ([Value.WithUnit]): figures rounded
// half away from zero by the rule of their [Kind], in the units of s; "-" for
// a figure that does not exist, "~" before an estimate. Words are returned as
// they are: whoever prints them must make them harmless.
func (v Value) Shown(c exact.Currency, s Show) string {
	text := v.shown(c, s)
	if v.estimate && !v.IsNull() {
		text = about + text
	}
	if v.withUnit {
		text += " " + s.In(v.unit).String()
	}
	return text
}

func (v Value) shown(c exact.Currency, s Show) string {
	switch minor := v.minorIn(c); v.kind {
	case Null:
		return cmp.Or(v.name, missing)
	case Date:
		return shownDate(v.text, s)
	case Moment:
		text := v.text
		if v.estimate && len(text) > len("2025-03-01T18:00:") { // of which nobody knows the second
			text = text[:len("2025-03-01T18:00:")] + "00" + text[len("2025-03-01T18:00:00"):]
		}
		return clock(text, s) + v.name
	case Money:
		return s.Locale.Amount(v.number.Round(minor, exact.HalfAway).Fixed(minor))
	case Posted:
		return s.Locale.Amount(v.number.Fixed(v.placesIn(c)))
	case MoneyShare:
		return s.Locale.Amount(v.ratio.Round(minor, exact.HalfAway).Fixed(minor))
	case UnitPrice:
		places := pricing.DisplayPlaces(minor)
		return s.Locale.Amount(v.ratio.Times(s.In(v.unit).Factor()).Round(places, exact.HalfAway).Fixed(places))
	case Amount:
		return s.Number(v.number.Over(s.In(v.unit).Factor()).Round(ledger.ShownPlaces, exact.HalfAway))
	case Quotient:
		return s.Locale.Number(v.ratio.Round(v.Decimals(), exact.HalfAway).Fixed(v.Decimals()))
	case Plain, Count:
		return s.Number(v.number)
	case UnitName:
		return s.In(v.unit).String()
	}
	return cmp.Or(v.name, v.text)
}

// ShownWithUnit returns v as a phrase, for where no column says its unit: "4
// L", "1.2000 per L". Money has no unit here: a report names its currency once.
func (v Value) ShownWithUnit(c exact.Currency, s Show) string {
	if u := v.ShownUnit(s); u != "" {
		return v.Shown(c, s) + " " + u
	}
	return v.Shown(c, s)
}

// Digits returns the figure with all its digits in the unit in which people are
// shown it. One that does not end there is rounded half to even at
// [exact.QuantityPlaces].
func (v Value) Digits(c exact.Currency, s Show) string {
	in := s.In(v.unit)
	switch {
	case in == v.unit:
	case v.kind == UnitPrice:
		return s.Locale.Amount(v.ratio.Times(in.Factor()).Round(exact.QuantityPlaces, exact.HalfEven).Fixed(exact.QuantityPlaces))
	case v.kind == Amount:
		return s.Number(v.number.Over(in.Factor()).Round(exact.QuantityPlaces, exact.HalfEven))
	}
	switch v.kind {
	case Money, Posted, MoneyShare, UnitPrice:
		return s.Locale.Amount(v.Exact(c))
	}
	return s.Locale.Number(v.Exact(c))
}

// ShownUnit returns what stands behind v in a phrase, or nothing.
func (v Value) ShownUnit(s Show) string {
	switch {
	case v.kind == Amount && !v.withUnit:
		return s.In(v.unit).String()
	case v.kind == UnitPrice:
		return "per " + s.In(v.unit).String()
	}
	return ""
}

// shownDate is a date or a month as people are shown it.
func shownDate(iso string, s Show) string {
	if d, err := exact.ParseDate(iso); err == nil {
		return s.Date(d)
	}
	if d, err := exact.ParseDate(iso + "-01"); err == nil {
		return s.Locale.Month(d)
	}
	return iso
}

// clock turns 2025-03-01T18:00:00+01:00 into 2025-03-01 18:00, with the date as
// people are shown it.
func clock(moment string, s Show) string {
	if len(moment) < len("2025-03-01T18:00:00") {
		return moment
	}
	return strings.TrimSuffix(shownDate(moment[:10], s)+" "+moment[11:19], ":00")
}

// IsNumber reports whether v is a figure: something to align by its point and
// never to cut or to rewrite.
func (v Value) IsNumber() bool {
	switch v.kind {
	case Money, Posted, MoneyShare, UnitPrice, Amount, Quotient, Plain, Count, Span:
		return true
	}
	return false
}
