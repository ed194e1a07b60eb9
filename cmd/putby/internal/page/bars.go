package page

import (
	"slices"

	"putby/cmd/putby/internal/render"
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
	amount string       // behind the name; may be empty
}

// How bars are laid out, in pixels.
const (
	barRow   = 50 // of one bar with its name
	barName  = 15 // where the name stands
	barTop   = 22
	barDeep  = 16
	barsFoot = 26 // for the axis
)

// nameMost is how many columns of text a name can take on a phone.
const nameMost = 25

// drawBars draws bars on one axis. A bar or price that is far longer than the
// others is cut, so that they can be told apart.
func (f *figure) drawBars(t teller, bars []bar) {
	most := barRange(t, bars)
	a := newAxis(exact.Ratio{}, most, 4)
	field := len(bars) * barRow
	f.Height = field + barsFoot
	for _, tick := range a.ticks {
		x, class := a.along(exact.RatioOf(tick)), "tick middle"
		switch x {
		case "0%":
			class = "tick"
		case "100%":
			class = "tick end"
		}
		for i := range bars {
			f.Shapes = append(f.Shapes, upright("grid", x, i*barRow+barTop-3, i*barRow+barTop+barDeep+3, ""))
		}
		f.Shapes = append(f.Shapes, words(class, x, exact.Int(int64(field+14)), a.label(tick)))
	}
	for i, b := range bars {
		f.bar(t, a, b, i*barRow)
	}
}

// barRange returns how long the axis must be. What is over three times as long
// as half of the bars are is left to be cut.
func barRange(t teller, bars []bar) (most exact.Ratio) {
	var figures, lengths []exact.Ratio
	for _, b := range bars {
		total, beside := t.drawn(b.total), t.drawn(b.beside)
		figures, lengths = append(figures, total, beside), append(lengths, largest(total, beside))
	}
	if len(bars) == 0 {
		return most
	}
	slices.SortFunc(lengths, exact.Ratio.Cmp)
	limit := lengths[(len(lengths)-1)/2].Times(exact.Int(3))
	for _, v := range figures {
		if v.Cmp(limit) <= 0 {
			most = largest(most, v)
		}
	}
	return most
}

func largest(a, b exact.Ratio) exact.Ratio {
	if a.Cmp(b) < 0 {
		return b
	}
	return a
}

// bar draws one row, whose top is so many pixels down.
func (f *figure) bar(t teller, a axis, b bar, top int) {
	figures := t.short(b.total)
	if !b.beside.IsNull() {
		figures += " · shop " + t.short(b.beside)
	}
	f.Shapes = append(f.Shapes,
		shape{Kind: "text", Class: "name", X: "0", Y: px(top + barName), Text: b.label(), Tip: b.name},
		words("value end", "100%", exact.Int(int64(top+barName)), figures))
	y, z := exact.Int(int64(top+barTop)), exact.Int(int64(top+barTop+barDeep))
	high, sum := exact.RatioOf(a.high), exact.Ratio{}
	for _, p := range b.parts {
		if p.value.IsNull() || p.value.Ratio().Sign() <= 0 {
			continue
		}
		from := sum
		sum = sum.Add(t.drawn(p.value))
		to := sum
		if to.Cmp(high) > 0 {
			to = high
		}
		if from.Cmp(high) < 0 {
			f.Shapes = append(f.Shapes, box("part "+p.class, a.along(from), percent(a.part(to).Sub(a.part(from))), y, z,
				b.name+", "+p.name+": "+t.whole(p.value)))
		}
	}
	if sum.Cmp(high) > 0 {
		f.beyond(top, b.name+", in all: "+t.whole(b.total))
	}
	f.shelfMark(t, a, b, top)
}

// label is what stands above a bar at the left: the name, cut to what a phone
// has room for, and the amount.
func (b bar) label() string {
	if b.amount == "" {
		return render.Fit(b.name, nameMost)
	}
	return render.Fit(b.name, nameMost-len(b.amount)-2) + ", " + b.amount
}

// shelfMark marks what the shop asks.
func (f *figure) shelfMark(t teller, a axis, b bar, top int) {
	if b.beside.IsNull() {
		return
	}
	tip := b.name + ", shelf price: " + t.whole(b.beside)
	at := t.drawn(b.beside)
	if at.Cmp(exact.RatioOf(a.high)) > 0 {
		f.beyond(top, tip)
		return
	}
	f.Shapes = append(f.Shapes, upright("halo", a.along(at), top+barTop, top+barTop+barDeep, ""),
		upright("shelf", a.along(at), top+barTop-2, top+barTop+barDeep+4, tip))
}

// beyond says at the right end that something goes on farther than the axis.
func (f *figure) beyond(top int, tip string) {
	f.Shapes = append(f.Shapes, shape{Kind: "text", Class: "beyond end", X: "100%", Y: px(top + barTop + 13), Text: "→", Tip: tip})
}
