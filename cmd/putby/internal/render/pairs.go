package render

import (
	"strings"

	"putby/ledger/report"
)

// A pair is a line "title  value".
type pair struct {
	title, value, unit string
	number             bool
}

func (t *terminal) pair(title string, v report.Value, unit string) pair {
	return pair{title, t.text(v), unit, numeric(v)}
}

// pairs sets titles and values below each other, numbers by their points.
func (t *terminal) pairs(list []pair, indent string) []string {
	titles, whole, fractions := 0, 0, 0
	for _, p := range list {
		titles = max(titles, width(p.title))
		if p.number {
			f := fraction(p.value)
			whole, fractions = max(whole, width(p.value)-f), max(fractions, f)
		}
	}
	if t.opt.Width > 0 {
		titles = max(min(titles, t.opt.Width-len(indent)-gap-whole-fractions), 1)
	}
	var lines []string
	for _, p := range list {
		lead := indent + pad(t.fit(p.title, titles), titles+gap, false)
		if !p.number {
			lines = append(lines, hang(lead, p.value, t.opt.Width)...)
			continue
		}
		f := fraction(p.value)
		text := pad(p.value[:len(p.value)-f], whole, true) + p.value[len(p.value)-f:]
		if p.unit != "" {
			text += strings.Repeat(" ", fractions-f) + " " + p.unit
		}
		lines = append(lines, lead+text)
	}
	return lines
}

// cards sets each row of a sheet as lines of its own, where a table would not
// fit; nothing is left out.
func (t *terminal) cards(s sheet) []string {
	var lines []string
	for r := range s.columns[0].cells {
		if r > 0 {
			lines = append(lines, "")
		}
		var list []pair
		for _, c := range s.columns {
			value := strings.TrimRight(c.cells[r], " ")
			if value != "" {
				list = append(list, pair{c.title, value, "", numeric(c.values[r])})
			}
		}
		lines = append(lines, t.pairs(list, "")...)
	}
	return lines
}
