package page

import (
	"strconv"
	"strings"

	"putby/ledger/report"
	"putby/pricing/exact"
)

// A pricePoint is a price on a day.
type pricePoint struct {
	date  exact.Date // of the price; in a curve the last day of its month
	price report.Value
	label string // what kind of price it is, for the tip
}

// Dots are prices that are drawn as dots of one kind.
type dots struct {
	class  string
	points []pricePoint // in order of time
}

// How a price history is laid out, in pixels.
const (
	historyTop    = 10
	historyHeight = 84
	historyFoot   = 22
)

// drawHistory draws the regular price, which holds until the next one, as a
// line of steps, and others as dots, from the first day to the last.
func (f *figure) drawHistory(t valueText, regular []pricePoint, others []dots, first, last exact.Date) {
	lists := append([]dots{{"regular", regular}}, others...)
	low, high := priceRange(t, lists)
	a := newAxis(low, high, 2)
	f.Height = historyTop + historyHeight + historyFoot
	f.grid(t, a, historyTop, historyHeight)
	f.steps(t, a, regular, first, last)
	size := sizeOf(lists)
	for _, list := range lists {
		for _, p := range list.points {
			f.Shapes = append(f.Shapes, shape{Kind: "dot", Class: list.class + size, X: percent(inTime(p.date, first, last)),
				Y: a.down(t.drawn(p.price), historyTop, historyHeight).String(), Tip: t.day(p.date) + ", " + p.label + ": " + t.digits(p.price)})
		}
	}
	base := exact.Int(historyTop + historyHeight + 17)
	f.Shapes = append(f.Shapes, words("tick", "", base, t.day(first)), words("tick end", "100%", base, t.day(last)))
}

// manyDots is how many dots there are before they are drawn small.
const manyDots = 60

// sizeOf makes many dots small, so that they do not hide each other.
func sizeOf(lists []dots) string {
	n := 0
	for _, list := range lists {
		n += len(list.points)
	}
	if n > manyDots {
		return " small"
	}
	return ""
}

func priceRange(t valueText, lists []dots) (low, high exact.Ratio) {
	known := false
	for _, list := range lists {
		for _, p := range list.points {
			v := t.drawn(p.price)
			if !known {
				low, high, known = v, v, true
			}
			low, high = low.Min(v), high.Max(v)
		}
	}
	return low, high
}

// steps draws a line that holds each price until the next one.
func (f *figure) steps(t valueText, a axis, points []pricePoint, first, last exact.Date) {
	if len(points) == 0 {
		return
	}
	var d strings.Builder
	for i, p := range points {
		x, y := pathX(inTime(p.date, first, last)), a.down(t.drawn(p.price), historyTop, historyHeight).String()
		if i == 0 {
			d.WriteString("M" + x + " " + y)
		} else {
			d.WriteString("H" + x + "V" + y)
		}
	}
	d.WriteString("H" + pathX(exact.RatioOf(exact.Int(1))))
	f.Shapes = append(f.Shapes, shape{Kind: "path", H: strconv.Itoa(f.Height), Class: "line", D: d.String()})
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
