package render

import (
	"cmp"
	"slices"
	"strings"

	"putby/ledger/report"
)

// table sets a sheet to the width of the terminal, as a table or as cards.
func (t *terminal) table(s sheet) ([]string, error) {
	if len(s.columns) == 0 || len(s.columns[0].cells) == 0 {
		return wrap(cmp.Or(s.empty, "nothing to show"), t.opt.Width), nil
	}
	for i := range s.columns {
		s.columns[i].alignPoints(t.show.Locale)
	}
	lines, err := t.rows(s)
	if err == nil && t.opt.Chart {
		lines = append(lines, t.barCharts(s)...)
	}
	return lines, err
}

func (t *terminal) rows(s sheet) ([]string, error) {
	p, ok := s.plan(t.opt.Width)
	if !ok {
		return t.cards(s), nil
	}
	lines, err := t.grid(s, p)
	if err == nil && len(p.leftOut) > 0 {
		see := "; see --format csv or a wider window"
		if t.opt.Alone {
			see = "; a wider window shows more"
		}
		lines = append(lines, t.dim(wrap("left out for width: "+strings.Join(p.leftOut, ", ")+see, t.opt.Width))...)
	}
	return lines, err
}

// grid sets the columns of a plan, with totals below a thin rule.
func (t *terminal) grid(s sheet, p plan) ([]string, error) {
	g := grid{widths: p.widths, rule: t.rule}
	var titles []string
	for _, k := range p.keep {
		titles, g.right = append(titles, s.columns[k].heading()), append(g.right, s.columns[k].right)
	}
	g.head = breakHeadings(titles, p.widths)
	above := 0 // lines of rows, without those of totals
	for r := range s.columns[0].cells {
		if r >= s.rows && !s.says(p, r) {
			continue // a sum whose figures are all left out
		}
		g.rows = append(g.rows, t.row(s, p, r)...)
		if r < s.rows {
			above = len(g.rows)
		}
	}
	lines, err := g.lines()
	if err != nil {
		return nil, err
	}
	head := len(g.head)
	// After they are laid out, so that no width counts the sequences of bold.
	copy(lines, t.bold(lines[:head]))
	if above > 0 && above < len(g.rows) { // below the headings and their rule
		lines = slices.Insert(lines, head+1+above, strings.Repeat(t.thin, total(p.widths)))
	}
	return lines, nil
}

// says reports whether a row has more in the columns kept than its first cell.
func (s sheet) says(p plan, r int) bool {
	return len(p.leftOut) == 0 || slices.ContainsFunc(p.keep[min(1, len(p.keep)):], func(k int) bool { return s.columns[k].cells[r] != "" })
}

// row sets a row: one line, or as many as its wrapped texts take.
func (t *terminal) row(s sheet, p plan, r int) [][]string {
	lines := [][]string{make([]string, len(p.keep))}
	for i, k := range p.keep {
		c := &s.columns[k]
		switch {
		case c.values[r].Kind() != report.Text:
			lines[0][i] = c.cells[r]
		case c.wrap:
			parts := wrap(c.cells[r], p.widths[i])
			for n, part := range parts {
				parts[n] = isolate(part)
			}
			lines = put(lines, i, parts...)
		default:
			lines[0][i] = isolate(t.fit(c.cells[r], p.widths[i]))
		}
	}
	return lines
}

// heading is what stands above a column in a terminal: the marks of footnotes
// are narrow and need none.
func (c column) heading() string {
	if c.marks {
		return ""
	}
	return c.title
}

// breakHeadings breaks titles into lines of their columns' widths, the last
// line next to the rule.
func breakHeadings(titles []string, widths []int) [][]string {
	broken, most := make([][]string, len(titles)), 1
	for i, title := range titles {
		broken[i] = wrap(title, widths[i])
		most = max(most, len(broken[i]))
	}
	heads := [][]string{make([]string, len(titles))}
	for i, lines := range broken {
		heads = put(heads, i, append(make([]string, most-len(lines)), lines...)...)
	}
	return heads
}
