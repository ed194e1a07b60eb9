package page

import (
	"strings"

	"putby/ledger/report"
	"putby/pricing/exact"
)

// A pricePoint is what a shop asked on a day.
type pricePoint struct {
	date  exact.Date
	price report.Value
	label string // the shop and the terms, for the tip
}

// How a price history is laid out, in pixels.
const (
	historyTop    = 10
	historyHeight = 84
	historyFoot   = 22
)

// drawHistory draws the regular price, which holds until the next one, as a
// line of steps, and offers as dots, from the first day to the last.
func (f *figure) drawHistory(t teller, regular, offers []pricePoint, first, last exact.Date) {
	low, high := priceRange(regular, offers)
	a := newAxis(low, high, 2)
	f.Height = historyTop + historyHeight + historyFoot
	f.grid(a, historyTop, historyHeight)
	f.steps(t, a, regular, first, last)
	for _, o := range offers {
		f.Shapes = append(f.Shapes, shape{Kind: "dot", Class: "offer", X: percent(inTime(o.date, first, last)),
			Y: pixels(down(a, o.price.Ratio(), historyTop, historyHeight)), Tip: o.tip(t)})
	}
	base := exact.Int(historyTop + historyHeight + 16)
	f.Shapes = append(f.Shapes, words("tick", "0", base, first.String()), words("tick end", "100%", base, last.String()))
}

func priceRange(lists ...[]pricePoint) (low, high exact.Ratio) {
	any := false
	for _, list := range lists {
		for _, p := range list {
			v := p.price.Ratio()
			if !any || v.Cmp(low) < 0 {
				low = v
			}
			if !any || v.Cmp(high) > 0 {
				high = v
			}
			any = true
		}
	}
	return low, high
}

// steps draws a line that holds each price until the next one.
func (f *figure) steps(t teller, a axis, points []pricePoint, first, last exact.Date) {
	if len(points) == 0 {
		return
	}
	var d strings.Builder
	for i, p := range points {
		x, y := pathX(inTime(p.date, first, last)), down(a, p.price.Ratio(), historyTop, historyHeight).String()
		if i == 0 {
			d.WriteString("M" + x + " " + y)
		} else {
			d.WriteString("H" + x + "V" + y)
		}
	}
	d.WriteString("H" + pathX(exact.RatioOf(exact.Int(1))))
	f.Shapes = append(f.Shapes, shape{Kind: "path", Class: "line", D: d.String()})
	for _, p := range points {
		f.Shapes = append(f.Shapes, shape{Kind: "dot", Class: "regular", X: percent(inTime(p.date, first, last)),
			Y: pixels(down(a, p.price.Ratio(), historyTop, historyHeight)), Tip: p.tip(t)})
	}
}

func (p pricePoint) tip(t teller) string {
	tip := p.date.String() + ": " + t.whole(p.price)
	if p.label != "" {
		tip += "\n" + p.label
	}
	return tip
}

// inTime returns how far between first and last a date is.
func inTime(d, first, last exact.Date) exact.Ratio {
	if last <= first {
		return exact.Ratio{}
	}
	return exact.Int(int64(d - first)).Over(exact.Int(int64(last - first)))
}

// pathX is a place across in the field of paths.
func pathX(part exact.Ratio) string {
	return part.Times(exact.Int(pathWide)).Round(0, exact.HalfAway).String()
}
