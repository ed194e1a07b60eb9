package page

import (
	"slices"
	"strconv"

	"putby/ledger/report"
	"putby/pricing/exact"
)

// A bar is a row of a chart by foods: what a unit costs, taken apart, beside
// what the shop asks for it.
type bar struct {
	name   string
	parts  []part
	total  report.Value // of the parts
	beside report.Value // the shelf price; may be null
	made   bool         // beside is no shop's price, but that of what it is made of
	amount string       // behind the name; may be empty
}

// A barRow is a row of a chart by foods: words, and below them a bar. Words are the
// page's own text, so that nothing is cut and the reader's size counts.
type barRow struct {
	Name, Amount string
	Figures      string
	Loss         bool // it costs more than the shelf asks
	Shapes       []shape
}

// How bars are laid out, in pixels.
const (
	barsFoot  = 18 // for the axis
	beyondTop = 16 // for the arrow
)

// drawBars draws bars on one axis. A bar or price that is far longer than the
// others is cut, so that they can be told apart.
func (f *figure) drawBars(t valueText, bars []bar) {
	a := newAxis(exact.Ratio{}, barRange(t, bars), 4)
	for _, tick := range a.ticks {
		x, class := a.along(exact.RatioOf(tick)), "tick middle"
		// The outermost figures stand within the chart, so that none is cut at its edge.
		switch x {
		case "0%":
			class = "tick"
		case "100%":
			class = "tick end"
		}
		f.Axis = append(f.Axis, words(class, x, exact.Int(barsFoot-4), a.label(t, tick)))
	}
	for _, b := range bars {
		row := barRow{Name: b.name, Amount: b.amount, Figures: t.short(b.total)}
		switch {
		case b.beside.IsNull():
		case b.made:
			row.Figures += " · made of " + t.short(b.beside)
		default:
			row.Figures += " · shop " + t.short(b.beside)
			row.Loss = t.drawn(b.total).Cmp(t.drawn(b.beside)) > 0
		}
		row.draw(t, a, b)
		f.Bars = append(f.Bars, row)
	}
}

// barRange returns how long the axis must be. What is over three times as long
// as half of the bars are is left to be cut.
func barRange(t valueText, bars []bar) (most exact.Ratio) {
	var figures, lengths []exact.Ratio
	for _, b := range bars {
		total, beside := t.drawn(b.total), t.drawn(b.beside)
		figures, lengths = append(figures, total, beside), append(lengths, total.Max(beside))
	}
	if len(bars) == 0 {
		return most
	}
	slices.SortFunc(lengths, exact.Ratio.Cmp)
	limit := lengths[(len(lengths)-1)/2].Times(exact.Int(3)) // of the median
	for _, v := range figures {
		if v.Cmp(limit) <= 0 {
			most = most.Max(v)
		}
	}
	return most
}

// draw draws the bar of a row.
func (row *barRow) draw(t valueText, a axis, b bar) {
	high, sum := exact.RatioOf(a.high), exact.Ratio{}
	for _, p := range b.parts {
		if p.value.IsNull() || p.value.Ratio().Sign() <= 0 {
			continue
		}
		from := sum
		sum = sum.Add(t.drawn(p.value))
		if to := sum.Min(high); from.Cmp(high) < 0 {
			row.Shapes = append(row.Shapes, shape{Kind: "rect", Class: "part " + p.class, X: a.along(from),
				W: percent(a.part(to).Sub(a.part(from))), Tip: p.name + ": " + t.whole(p.value)})
		}
	}
	if sum.Cmp(high) > 0 {
		row.beyond("in all: " + t.whole(b.total))
	}
	row.shelfMark(t, a, b)
}

// shelfMark marks what the shop asks.
func (row *barRow) shelfMark(t valueText, a axis, b bar) {
	if b.beside.IsNull() {
		return
	}
	tip := "shelf price: " + t.whole(b.beside)
	if b.made {
		tip = "what it is made of: " + t.whole(b.beside)
	}
	at := t.drawn(b.beside)
	if at.Cmp(exact.RatioOf(a.high)) > 0 {
		row.beyond(tip)
		return
	}
	row.Shapes = append(row.Shapes, shape{Kind: "rect", Class: "shelf", X: a.along(at), Tip: tip})
}

// beyond says at the right end that something goes on farther than the axis.
func (row *barRow) beyond(tip string) {
	row.Shapes = append(row.Shapes, shape{Kind: "text", Class: "beyond end", X: "100%", Y: strconv.Itoa(beyondTop), Text: "→", Tip: tip})
}
