package page

import (
	"putby/cmd/putby/internal/render"
	"putby/ledger"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// A figure is a chart, and what is said about it.
type figure struct {
	ID     string // unique in the page
	Title  string
	Lead   string // a sentence below the title
	About  string // what is to be seen, for those who do not see it
	Key    []keyEntry
	Margin int // characters that the labels at the left need
	Height int // pixels
	Shapes []shape
	Bars   []barRow // instead: rows of words with a bar below
	Axis   []shape  // below the rows
}

// A keyEntry says what a filling means.
type keyEntry struct {
	Class, Name string
	Dot         bool // it is drawn as a dot
}

// A shape is a part of a drawing. Lengths are in pixels downwards and, so that
// a drawing fits a phone and a desk with letters of one size, in percent
// across.
type shape struct {
	Kind   string // "rect", "line", "text", "dot" or "path"
	Class  string
	X, Y   string
	X2, Y2 string // of a line
	W, H   string // of a rect
	D      string // of a path, in a field pathWide wide and as high as the figure
	Text   string
	Tip    string // shown while a pointer rests on it
}

// pathWide is how wide the field is that paths are drawn in; it is stretched
// over the width of the figure.
const pathWide = 10000

// box is a rectangle that reaches from y down to z.
func box(class, x, w string, y, z exact.Number, tip string) shape {
	return shape{Kind: "rect", Class: class, X: x, W: w, Y: y.String(), H: z.Sub(y).Max(exact.Number{}).String(), Tip: tip}
}

// level is a line across the figure.
func level(class string, y exact.Number) shape {
	return shape{Kind: "line", Class: class, X2: "100%", Y: y.String(), Y2: y.String()}
}

func words(class, x string, y exact.Number, text string) shape {
	return shape{Kind: "text", Class: class, X: x, Y: y.String(), Text: text}
}

// A valueText writes figures for tips: with all their digits and what they are
// of.
type valueText struct {
	currency exact.Currency
	show     report.Show
}

// A foodTeller writes of the foods of a ledger too.
type foodTeller struct {
	valueText
	g *ledger.Ledger
}

// name is what people call a food.
func (t foodTeller) name(food int) string { return render.Clean(t.g.Foods[food].Title()) }

// amount is so much of a food with its unit.
func (t foodTeller) amount(food int, n exact.Number) string {
	return t.with(report.AmountOf(n, t.g.Foods[food].Basis))
}

func tellerOf(d report.Doc) valueText { return valueText{d.Currency, d.Show} }

// digits returns v with all digits, for where its unit stands above.
func (t valueText) digits(v report.Value) string { return v.Digits(t.currency, t.show) }

// whole returns v with all digits and its unit.
func (t valueText) whole(v report.Value) string {
	switch v.Kind() {
	case report.Null:
		return "none"
	case report.Money, report.Posted, report.MoneyShare:
		return t.show.Locale.Money(v.Exact(t.currency), t.currency)
	case report.UnitPrice:
		return t.show.Locale.Money(v.Digits(t.currency, t.show.Plain()), t.currency) + " per " + t.show.In(v.Unit()).String()
	case report.Amount:
		return v.Digits(t.currency, t.show) + " " + t.show.In(v.Unit()).String()
	}
	return v.Digits(t.currency, t.show)
}

// drawn is the length that v is drawn with: its figure, in the unit that people
// are shown.
func (t valueText) drawn(v report.Value) exact.Ratio {
	switch factor := exact.RatioOf(t.show.In(v.Unit()).Factor()); v.Kind() {
	case report.UnitPrice:
		return v.Ratio().Mul(factor)
	case report.Amount:
		return v.Ratio().Quo(factor)
	}
	return v.Ratio()
}

// with returns v with its unit.
func (t valueText) with(v report.Value) string { return v.ShownWithUnit(t.currency, t.show) }

// money returns an amount of money with its currency.
func (t valueText) money(v report.Value) string {
	return t.show.Locale.Money(v.Shown(t.currency, t.show.Plain()), t.currency)
}

// day returns a date.
func (t valueText) day(d exact.Date) string { return t.show.Date(d) }

// short returns v as tables show it.
func (t valueText) short(v report.Value) string { return v.Shown(t.currency, t.show) }
