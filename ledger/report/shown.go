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
	case Moment:
		return clock(v.text)
	case Money:
		return v.number.Round(minor, exact.HalfAway).Fixed(minor)
	case Posted:
		return v.number.Fixed(v.placesIn(c))
	case MoneyShare:
		return v.ratio.Round(minor, exact.HalfAway).Fixed(minor)
	case UnitPrice:
		places := pricing.DisplayPlaces(minor)
		return v.ratio.Times(s.In(v.unit).Factor()).Round(places, exact.HalfAway).Fixed(places)
	case Amount:
		return v.number.Over(s.In(v.unit).Factor()).Round(ledger.ShownPlaces, exact.HalfAway).String()
	case Quotient:
		return v.ratio.Round(v.Decimals(), exact.HalfAway).Fixed(v.Decimals())
	case Plain, Count:
		return v.number.String()
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
		return v.ratio.Times(in.Factor()).Round(exact.QuantityPlaces, exact.HalfEven).Fixed(exact.QuantityPlaces)
	case v.kind == Amount:
		return v.number.Over(in.Factor()).Round(exact.QuantityPlaces, exact.HalfEven).String()
	}
	return v.Exact(c)
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

// clock turns 2025-03-01T18:00:00+01:00 into 2025-03-01 18:00.
func clock(s string) string {
	if len(s) < len("2025-03-01T18:00:00") {
		return s
	}
	return strings.TrimSuffix(s[:10]+" "+s[11:19], ":00")
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
