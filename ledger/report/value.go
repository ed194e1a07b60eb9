package report

import (
	"strings"
	"time"

	"putby/pricing/exact"
)

// A Kind says what a [Value] is, and so how it is shown.
type Kind uint8

// The kinds of values. A renderer that rounds must follow the rule given here;
// machine formats (JSON, CSV) never round.
const (
	Null       Kind = iota // a figure that does not exist
	Text                   // a word or a name, as a person typed it
	Date                   // a civil date or a month; ISO 8601
	Moment                 // a local date and time; ISO 8601 to the minute or second
	Money                  // an amount of money: shown at minor digits, half away from zero
	Posted                 // an amount of money as it was posted: shown with all its digits, at the ledger's places
	UnitPrice              // money per unit: shown at minor digits + 2, in the unit that tables show
	Amount                 // a quantity in its base unit: shown in the unit that tables show, up to 3 decimals
	MoneyShare             // a quotient of money: shown as Money is, its machine form has 12 decimals
	Quotient               // any other quotient: shown with the decimals it asks for
	Plain                  // an exact number that is shown with all its digits
	Count                  // a whole number of things; a JSON number
	UnitName               // a base unit's name: tables show the name of the unit they show
	Span                   // a length of time
	YesNo                  // true or false
)

// A Value is one figure, word or date of a report. Its zero value is [Null].
type Value struct {
	text     string
	name     string       // Text: what people are shown instead of an identifier; Null: instead of nothing; may be empty
	number   exact.Number // Money, Posted: major units; Amount: base units; Plain, Count; YesNo: 1 is yes
	ratio    exact.Ratio  // UnitPrice, MoneyShare, Quotient, Span
	kind     Kind
	unit     exact.Unit // Amount, UnitName; UnitPrice: the unit it is per
	decimals uint8      // Quotient: what people are shown
	estimate bool
	withUnit bool  // Amount: shown with its unit wherever it stands
	minor    uint8 // of money in a currency of its own, that currency's minor digits and 1; 0: in the report's
}

// None is a figure that does not exist.
var None Value

// TextOf returns a word.
func TextOf(s string) Value { return Value{kind: Text, text: s} }

// nameValue returns an identifier, which machine formats have, with the name that
// people are shown instead, if there is one.
func nameValue(id, name string) Value { return Value{kind: Text, text: id, name: name} }

// noneYet is a figure that does not exist, with the word that people are shown
// in its place.
func noneYet(why string) Value { return Value{name: why} }

// DateOf returns a date, or [None] for a date that was not given.
func DateOf(d exact.Date) Value {
	return onlyIf(d != exact.NoDate, Value{kind: Date, text: d.String()})
}

// monthOf returns the month of a date.
func monthOf(d exact.Date) Value {
	return Value{kind: Date, text: d.String()[:len("2025-06")]}
}

// periodOf returns a period by its key: a month as such, a year or a week as a
// word. No period is [None].
func periodOf(key string) Value {
	if day, err := exact.ParseDate(key + "-01"); err == nil {
		return monthOf(day)
	}
	return textOrNone(key)
}

// MomentOf returns a local date and time.
func MomentOf(t time.Time) Value {
	return Value{kind: Moment, text: t.Format("2006-01-02T15:04:05-07:00")}
}

// momentWithOffset returns a moment that people are shown with its offset from
// universal time.
func momentWithOffset(t time.Time) Value {
	v := MomentOf(t)
	v.name = " " + strings.TrimSuffix(t.Format("-07:00"), ":00")
	return v
}

// MoneyOf returns an amount of money.
func MoneyOf(m exact.Money) Value { return Value{kind: Money, number: m.Number()} }

// PostedOf returns an amount of money of which people, too, are shown every
// digit: where a report takes figures apart or proves them.
func PostedOf(m exact.Money) Value { return Value{kind: Posted, number: m.Number()} }

// PriceOf returns money per base unit u.
func PriceOf(r exact.Ratio, u exact.Unit) Value { return Value{kind: UnitPrice, ratio: r, unit: u} }

// MoneyQuotient returns an amount of money that comes from a division, such as
// a saving against a unit price.
func MoneyQuotient(r exact.Ratio) Value { return Value{kind: MoneyShare, ratio: r} }

// AmountOf returns n of the base unit u.
func AmountOf(n exact.Number, u exact.Unit) Value { return Value{kind: Amount, number: n, unit: u} }

// QuotientOf returns a quotient, of which people are shown the given decimals.
func QuotientOf(r exact.Ratio, decimals int) Value {
	return Value{kind: Quotient, ratio: r, decimals: uint8(decimals)}
}

// PlainOf returns an exact number.
func PlainOf(n exact.Number) Value { return Value{kind: Plain, number: n} }

// CountOf returns a whole number.
func CountOf(n int) Value { return Value{kind: Count, number: exact.Int(int64(n))} }

// UnitOf returns the name of a base unit.
func UnitOf(u exact.Unit) Value { return Value{kind: UnitName, unit: u, text: u.String()} }

// SpanOf returns a length of time in whole seconds; machine formats have it in
// hours.
func SpanOf(d time.Duration) Value {
	return Value{kind: Span, ratio: exact.Int(int64(d / time.Second)).Over(exact.Int(3600)), text: exact.FormatDuration(d)}
}

// YesNoOf returns a truth.
func YesNoOf(b bool) Value {
	v := Value{kind: YesNo, text: "no"}
	if b {
		v.text, v.number = "yes", exact.Int(1)
	}
	return v
}

// Estimated returns v marked as an estimate: tables show it with a leading "~".
func (v Value) Estimated() Value {
	v.estimate = true
	return v
}

// estimatedIf returns v, marked as an estimate where it is one.
func (v Value) estimatedIf(guessed bool) Value {
	v.estimate = v.estimate || guessed
	return v
}

// onlyIf is v where it exists, and else [None].
func onlyIf(exists bool, v Value) Value {
	if !exists {
		return None
	}
	return v
}

// textOrNone returns a word, or [None] for no word.
func textOrNone(s string) Value { return onlyIf(s != "", TextOf(s)) }

// optional is a value of what may not exist.
func optional[T any](o exact.Opt[T], value func(T) Value) Value {
	return exact.Map(o, value).Or(None)
}

// guessed is the estimate of what may not exist.
func guessed[T any](o exact.Opt[T], value func(T) Value) Value {
	return optional(o, func(v T) Value { return value(v).Estimated() })
}

// optMoney is an amount of money that may not exist.
func optMoney(r exact.Opt[exact.Ratio]) Value { return optional(r, MoneyQuotient) }

// optPrice is money per unit that may not exist.
func optPrice(r exact.Opt[exact.Ratio], u exact.Unit) Value {
	return optional(r, func(v exact.Ratio) Value { return PriceOf(v, u) })
}

// optPercent is a part of a whole that may not exist, in hundredths.
func optPercent(part exact.Opt[exact.Ratio]) Value {
	return optional(part, func(r exact.Ratio) Value { return QuotientOf(r.Times(exact.Int(100)), 1) })
}

// WithUnit returns an amount that people are shown with its unit even in a
// table, for one beside amounts of other units.
func (v Value) WithUnit() Value {
	v.withUnit = v.kind == Amount
	return v
}

// In returns money in a currency of its own, for a report that has several.
func (v Value) In(c exact.Currency) Value {
	v.minor = uint8(c.Minor()) + 1
	return v
}

// minorIn is how many minor digits v has in a report in a currency.
func (v Value) minorIn(c exact.Currency) int {
	if v.minor > 0 {
		return int(v.minor) - 1
	}
	return c.Minor()
}

// placesIn is how many digits money is posted with.
func (v Value) placesIn(c exact.Currency) int { return c.Places() - c.Minor() + v.minorIn(c) }

// Kind returns what v is.
func (v Value) Kind() Kind { return v.kind }

// IsNull reports whether v is a figure that does not exist.
func (v Value) IsNull() bool { return v.kind == Null }

// IsEstimate reports whether v comes from an estimate.
func (v Value) IsEstimate() bool { return v.estimate }

// Unit returns the base unit of an Amount or UnitName, or the one that a
// UnitPrice is per.
func (v Value) Unit() exact.Unit { return v.unit }

// Number returns the exact number of Money, Posted, Amount, Plain and Count.
func (v Value) Number() exact.Number { return v.number }

// Ratio returns v's number as a ratio; quotients are undivided.
func (v Value) Ratio() exact.Ratio {
	switch v.kind {
	case UnitPrice, MoneyShare, Quotient, Span:
		return v.ratio
	}
	return exact.RatioOf(v.number)
}

// Decimals returns how many decimals of a Quotient people are shown.
func (v Value) Decimals() int { return int(v.decimals) }

// Text returns the word of Text, Date, Moment, UnitName, Span and YesNo.
func (v Value) Text() string { return v.text }

// Exact returns v as machine formats write it, with all digits: money with at
// least the ledger's places, quotients at 12 decimals half to even, other
// numbers in their shortest form, null as nothing.
func (v Value) Exact(c exact.Currency) string {
	switch v.kind {
	case Null, Text, Date, Moment, UnitName, YesNo:
		return v.text
	}
	var buf [48]byte
	return string(v.AppendExact(buf[:0], c))
}

// AppendExact appends what [Value.Exact] returns to dst and returns the longer
// slice.
func (v Value) AppendExact(dst []byte, c exact.Currency) []byte {
	switch v.kind {
	case Money, Posted:
		return v.number.AppendFixed(dst, v.placesIn(c))
	case UnitPrice, MoneyShare, Quotient:
		return v.ratio.Round(exact.QuantityPlaces, exact.HalfEven).AppendFixed(dst, exact.QuantityPlaces)
	case Span:
		if n, ends := v.ratio.Number(); ends {
			return n.AppendTo(dst)
		}
		return v.ratio.Round(exact.QuantityPlaces, exact.HalfEven).AppendTo(dst)
	case Amount, Plain, Count:
		return v.number.AppendTo(dst)
	}
	return append(dst, v.text...)
}
