package page

import (
	"strconv"
	"time"
	"unicode/utf8"

	"putby/ledger/report"
	"putby/pricing/exact"
)

// A stack is a column of a chart by months: parts above zero upwards, those
// below it downwards.
type stack struct {
	month exact.Date // its first day
	parts []part
}

// A part is a figure with its filling and name.
type part struct {
	class, name string
	value       report.Value
	less        bool // drawn downwards, as what takes away
}

// drawn is the part's figure as it is drawn.
func (p part) drawn() exact.Ratio {
	if p.less {
		return p.value.Ratio().Neg()
	}
	return p.value.Ratio()
}

// How columns are laid out, in pixels.
const (
	columnsTop    = 12  // above the highest tick
	columnsHeight = 220 // between the highest and the lowest tick
	columnsFoot   = 40  // for the months
)

// axisPlaces is where the end of an axis is rounded.
const axisPlaces = 6

// axesOf lays axes for charts side by side, so that all stand on one line: what is
// below zero has the same share of each.
func axesOf(charts ...[]stack) (list []axis) {
	var down exact.Ratio // what is below zero, of what is above it
	for _, stacks := range charts {
		low, high := stackRange(stacks)
		a := newAxis(low, high, 4)
		list = append(list, a)
		if a.high.Sign() > 0 {
			down = down.Max(a.low.Neg().Over(a.high))
		}
	}
	for i := range list {
		if a := &list[i]; a.high.Sign() > 0 {
			a.low = down.Times(a.high).Round(axisPlaces, exact.Up).Neg() // up, so that no column leaves its chart
		}
	}
	return list
}

// columnsLeast is how many columns there is room for at least: a few months
// are not to be as broad as a barn.
const columnsLeast = 8

// drawColumns draws stacks side by side on one axis.
func (f *figure) drawColumns(t valueText, stacks []stack, a axis) {
	f.Height = columnsTop + columnsHeight + columnsFoot
	f.grid(t, a, columnsTop, columnsHeight)
	places := max(len(stacks), columnsLeast)
	for i, s := range stacks {
		x, w := columnPlace(i, places)
		f.stack(t, a, s, x, w)
	}
	f.Shapes = append(f.Shapes, level("zero", a.down(exact.Ratio{}, columnsTop, columnsHeight)))
	f.months(stacks)
}

// grid draws the ticks of an upright axis.
func (f *figure) grid(t valueText, a axis, top, height int) {
	for _, tick := range a.ticks {
		y := a.down(exact.RatioOf(tick), top, height)
		label := a.label(t, tick)
		f.Margin = max(f.Margin, utf8.RuneCountInString(label))
		f.Shapes = append(f.Shapes, level("grid", y), words("tick left", "", y, label))
	}
}

// stackRange returns how far the stacks reach below and above zero.
func stackRange(stacks []stack) (low, high exact.Ratio) {
	for _, s := range stacks {
		up, under := s.reach()
		low, high = low.Min(under), high.Max(up)
	}
	return low, high
}

// reach returns how far a stack reaches above and below zero.
func (s stack) reach() (up, under exact.Ratio) {
	for _, p := range s.parts {
		if v := p.drawn(); v.Sign() > 0 {
			up = up.Add(v)
		} else {
			under = under.Add(v)
		}
	}
	return up, under
}

// columnPlace is where the i-th of n columns begins and how wide it is: it
// leaves a quarter of its room free.
func columnPlace(i, n int) (x, w string) { return ofHundred(8*i+1, 8*n), ofHundred(6, 8*n) }

// stack draws one column.
func (f *figure) stack(t valueText, a axis, s stack, x, w string) {
	var up, under exact.Ratio
	for _, p := range s.parts {
		v := p.drawn()
		if v.IsZero() {
			continue
		}
		tip := monthName(s.month) + ", " + p.name + ": " + t.whole(p.value)
		// Each part begins where the one before on its side of zero has ended.
		from, class := &up, p.class
		if v.Sign() < 0 {
			from = &under
			if !p.less {
				class = "lost" // it should have been a gain
			}
		}
		to := from.Add(v)
		y, z := a.down(*from, columnsTop, columnsHeight), a.down(to, columnsTop, columnsHeight)
		f.Shapes = append(f.Shapes, box("part "+class, x, w, y.Min(z), y.Max(z), tip))
		*from = to
	}
}

// months names the months below the columns: as many as there is room for on
// a phone, and on a desk some more.
func (f *figure) months(stacks []stack) {
	n := max(len(stacks), columnsLeast)
	// Parts of a year, so that the same months are named in each.
	narrow, wide := nameEvery(n, 7, 1, 2, 3, 4, 6, 12), nameEvery(n, 16, 1, 2, 3, 4, 6, 12)
	year := 0
	for i, s := range stacks {
		y, m, _ := s.month.Civil()
		class := "tick middle"
		if at := int(m) - 1; at%wide != 0 {
			continue
		} else if at%narrow != 0 {
			class += " roomy"
		}
		x, base := ofHundred(2*i+1, 2*n), columnsTop+columnsHeight
		f.Shapes = append(f.Shapes, words(class, x, exact.Int(int64(base+17)), m.String()[:3]))
		if y != year && (year == 0 || m == time.January) {
			year = y
			f.Shapes = append(f.Shapes, words(class+" year", x, exact.Int(int64(base+33)), strconv.Itoa(y)))
		}
	}
}

func monthName(d exact.Date) string {
	y, m, _ := d.Civil()
	return m.String() + " " + strconv.Itoa(y)
}
