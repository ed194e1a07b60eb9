package render

import (
	"strings"

	"putby/ledger/report"
	"putby/pricing/exact"
)

// Size of a line chart, in columns and lines.
const (
	lineMost   = 72
	lineUsual  = 60 // where the terminal's width is not known
	lineLeast  = 24 // below which there is no chart
	lineHeight = 6
)

// lineChart draws a series with its lowest and highest figure at the left and
// its first and last date below.
func (t *terminal) lineChart(s *report.Series) []string {
	low, high, ok := s.Range()
	if !ok {
		return nil
	}
	top, bottom := t.phrase(high), t.phrase(low)
	margin := max(Width(top), Width(bottom)) + 1
	room := lineUsual
	if t.opt.Width > 0 {
		room = min(t.opt.Width-margin, lineMost)
	}
	from, to := t.show.Date(s.Points[0].Date), t.show.Date(s.Points[len(s.Points)-1].Date)
	between := room - Width(from) - Width(to) - 2 // dates are longer in some places than in others
	if room < lineLeast || between < 1 {
		return nil
	}
	c := newCanvas(room, lineHeight, t.ascii)
	c.plot(s, low.Ratio(), high.Ratio())
	lines := c.lines()
	for i, line := range lines {
		label := ""
		switch i {
		case 0:
			label = top
		case len(lines) - 1:
			label = bottom
		}
		lines[i] = strings.TrimRight(pad(label, margin-1, true)+" "+line, " ")
	}
	axis := from + " " + strings.Repeat(t.thin, between) + " " + to
	return append(lines, strings.Repeat(" ", margin)+axis)
}

// A canvas is a field of dots that prints as text: two by four dots a
// character in Braille patterns, or one a character in ASCII.
type canvas struct {
	columns, rows int // in characters
	wide, high    int // in dots
	ascii         bool
	dots          []bool // line by line from the top
}

func newCanvas(columns, rows int, ascii bool) *canvas {
	c := &canvas{columns: columns, rows: rows, wide: 2 * columns, high: 4 * rows, ascii: ascii}
	if ascii {
		c.wide, c.high = columns, rows
	}
	c.dots = make([]bool, c.wide*c.high)
	return c
}

// plot draws the points of s by their dates, a step or a straight line from
// one to the next; a null breaks the line.
func (c *canvas) plot(s *report.Series, low, high exact.Ratio) {
	first, last := s.Points[0].Date, s.Points[len(s.Points)-1].Date
	joined, px, py := false, 0, 0
	for _, p := range s.Points {
		x := 0
		if last > first {
			x = int(p.Date-first) * (c.wide - 1) / int(last-first)
		}
		if p.Value.IsNull() {
			// A step holds up to the day from which nothing is known.
			if s.Steps && joined {
				c.segment(px, py, x, py)
			}
			joined = false
			continue
		}
		y := c.level(p.Value.Ratio(), low, high)
		switch {
		case !joined:
			c.set(x, y)
		case s.Steps:
			c.segment(px, py, x, py)
			c.segment(x, py, x, y)
		default:
			c.segment(px, py, x, y)
		}
		joined, px, py = true, x, y
	}
}

// level returns the line of dots of a figure, counted from the top.
func (c *canvas) level(v, low, high exact.Ratio) int {
	if high.Equal(low) {
		return c.high / 2
	}
	up := v.Sub(low).Quo(high.Sub(low)).Times(exact.Int(int64(c.high - 1)))
	n, _ := up.Round(0, exact.HalfAway).Int64()
	return c.high - 1 - int(n)
}

func (c *canvas) set(x, y int) { c.dots[y*c.wide+x] = true }

// segment draws a straight line between two dots.
func (c *canvas) segment(x0, y0, x1, y1 int) {
	steps := max(abs(x1-x0), abs(y1-y0))
	for i := range steps + 1 {
		c.set(x0+rounded((x1-x0)*i, steps), y0+rounded((y1-y0)*i, steps))
	}
}

// rounded returns n/d to the nearest, and 0 for 0/0.
func rounded(n, d int) int {
	switch {
	case d == 0:
		return 0
	case n < 0:
		return -rounded(-n, d)
	}
	return (2*n + d) / (2 * d) // half up, in whole numbers
}

func abs(n int) int { return max(n, -n) }

// The bits of a Braille pattern, from U+2800, by line and column of the dot.
var brailleBits = [4][2]rune{{0x01, 0x08}, {0x02, 0x10}, {0x04, 0x20}, {0x40, 0x80}}

func (c *canvas) lines() []string {
	lines := make([]string, c.rows)
	for row := range lines {
		var b strings.Builder
		for column := range c.columns {
			b.WriteRune(c.character(row, column))
		}
		lines[row] = b.String()
	}
	return lines
}

func (c *canvas) character(row, column int) rune {
	if c.ascii {
		if c.dots[row*c.wide+column] {
			return '*'
		}
		return ' '
	}
	r := rune(0x2800)
	for dy, bits := range brailleBits {
		for dx, bit := range bits {
			if c.dots[(4*row+dy)*c.wide+2*column+dx] {
				r |= bit
			}
		}
	}
	if r == 0x2800 {
		return ' '
	}
	return r
}
