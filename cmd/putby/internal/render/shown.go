package render

import (
	"putby/ledger/report"
	"putby/pricing/exact"
)

// A shower writes values as people are shown them: rounded by the rule of
// their kind, words clean of what a terminal would act on.
type shower struct {
	currency exact.Currency
	show     report.Show
}

func showerOf(d report.Doc) shower { return shower{d.Currency, d.Show} }

// text returns v without its unit, and with its mark if it is an estimate.
func (s shower) text(v report.Value) string {
	shown := v.Shown(s.currency, s.show)
	if v.Kind() == report.Text {
		return Clean(shown)
	}
	return shown
}

// phrase returns v with its unit, for where no column says it.
func (s shower) phrase(v report.Value) string {
	if v.ShownUnit(s.show) == "" {
		return s.text(v)
	}
	return v.ShownWithUnit(s.currency, s.show)
}

// pointed reports whether v is written in digits with a point to align by.
func pointed(v *report.Value) bool { return v.IsNumber() && v.Kind() != report.Span }
