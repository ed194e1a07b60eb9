package render

import (
	"strings"

	"putby/ledger/report"
	"putby/pricing/exact"
)

// Widths of a bar chart, in columns.
const (
	barsMost  = 60 // of the longest bar and, where there are negative ones, of both sides
	barsLeast = 8  // below which there is no chart
	barsUsual = 40 // where the terminal's width is not known
)

// barCharts draws each column of s that is made for it, with a blank line
// above each.
func (t *terminal) barCharts(s sheet) []string {
	var lines []string
	labels := s.labels()
	for _, c := range s.columns {
		if !c.bar || !c.right {
			continue
		}
		if chart := t.barChart(c, labels); len(chart) > 0 {
			lines = append(append(lines, ""), chart...)
		}
	}
	return lines
}

// labels names the rows of s in a chart: by the first column, and by the next
// ones that are no numbers until no two rows have one name.
func (s sheet) labels() []string {
	labels := make([]string, s.rows)
	for _, c := range s.columns {
		if c.right || c.marks {
			continue
		}
		seen := map[string]bool{}
		for r := range labels {
			labels[r] = strings.TrimSpace(labels[r] + "  " + c.cells[r])
			seen[labels[r]] = true
		}
		if len(seen) == len(labels) {
			break
		}
	}
	return labels
}

// barChart draws the rows of one column: name, figure, bar.
func (t *terminal) barChart(c column, labels []string) []string {
	names, figures := 0, c.need().cells
	for _, label := range labels {
		names = max(names, Width(label))
	}
	room := barsUsual
	if t.opt.Width > 0 {
		room = t.opt.Width - figures - 2*gap
		names = min(names, max(room-2*barsLeast, narrowest)) // a name is cut before bars get too short to compare
		room = min(room-names, barsMost)
	}
	if room < barsLeast {
		return nil
	}
	scale, ok := newScale(c.values[:len(labels)], room)
	if !ok {
		return nil
	}
	lines := t.bold(wrap(c.title, t.opt.Width))
	for r, label := range labels {
		line := pad(isolate(t.fit(label, names)), names+gap, false) +
			pad(c.cells[r], figures, true) + strings.Repeat(" ", gap)
		lines = append(lines, strings.TrimRight(line+t.bar(scale, c.values[r]), " "))
	}
	return lines
}

// A scale turns figures into lengths of bars: eighths of a column.
type scale struct {
	left, right int         // columns for negative and for other figures
	per         exact.Ratio // of a figure, in one column
}

// newScale fits the figures into room columns, and reports whether there is
// any to draw.
func newScale(values []*report.Value, room int) (scale, bool) {
	var low, high exact.Ratio
	for _, v := range values {
		if !v.IsNull() {
			low, high = low.Min(v.Ratio()), high.Max(v.Ratio())
		}
	}
	span := high.Sub(low)
	if span.IsZero() {
		return scale{}, false
	}
	if low.Sign() == 0 {
		return scale{right: room, per: high.Quo(columns(room))}, true
	}
	room-- // for the line at zero
	if high.Sign() == 0 {
		return scale{left: room, per: low.Neg().Quo(columns(room))}, true
	}
	left, _ := low.Neg().Quo(span).Times(exact.Int(int64(room))).Ceil().Int64()
	s := scale{left: min(int(left), room-1)}
	s.right = room - s.left
	// One scale for both sides: that of the side with less room for its figures.
	s.per = low.Neg().Quo(columns(s.left)).Max(high.Quo(columns(s.right)))
	return s, true
}

func columns(n int) exact.Ratio { return exact.RatioOf(exact.Int(int64(n))) }

// eighths returns the length of v's bar.
func (s scale) eighths(v *report.Value) int {
	n, _ := v.Ratio().Times(exact.Int(8)).Quo(s.per).Round(0, exact.HalfAway).Int64()
	return int(n)
}

// Left-aligned blocks of one to seven eighths of a column.
var eighthBlocks = [8]string{"", "▏", "▎", "▍", "▌", "▋", "▊", "▉"}

// bar draws v from the line at zero: to the left if it is negative.
func (t *terminal) bar(s scale, v *report.Value) string {
	n, zero := 0, ""
	if s.left > 0 {
		zero = t.zero
	}
	if !v.IsNull() {
		n = s.eighths(v)
	}
	if n < 0 {
		return pad(t.leftBar(-n), s.left, true) + zero
	}
	bar := strings.Repeat(t.full, n/8)
	if !t.ascii {
		bar += eighthBlocks[n%8]
	} else if n%8 >= 4 {
		bar += t.full
	}
	return strings.Repeat(" ", s.left) + zero + bar
}

// leftBar draws n eighths that end at the right; there, Unicode has only a
// half block and a sliver.
func (t *terminal) leftBar(n int) string {
	bar := strings.Repeat(t.full, n/8)
	switch rest := n % 8; {
	case t.ascii && rest >= 4, rest >= 7:
		return t.full + bar
	case t.ascii:
		return bar
	case rest >= 3:
		return "▐" + bar
	case rest >= 1:
		return "▕" + bar
	}
	return bar
}
