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

func (t *terminal) pair(title string, v report.Value) pair {
	return pair{title, t.text(v), v.ShownUnit(t.show), v.IsNumber()}
}

// pairs sets titles and values below each other, numbers by their points. A
// title is cut where its number would not fit, and a number never.
func (t *terminal) pairs(list []pair, indent string) []string {
	titles, whole, fractions, words := 0, 0, 0, narrowest
	for _, p := range list {
		titles = max(titles, width(p.title))
		if p.number {
			f := fraction(p.value)
			whole, fractions = max(whole, width(p.value)-f), max(fractions, f)
		} else if isFigure(p.value) {
			words = max(words, width(p.value))
		}
	}
	if t.opt.Width > 0 {
		titles = min(titles, max(t.opt.Width-len(indent)-gap-max(whole+fractions, words), narrowest))
	}
	var lines []string
	for _, p := range list {
		lead := indent + pad(t.fit(p.title, titles), titles+gap, false)
		if !p.number {
			lines = append(lines, t.said(p, indent, lead)...)
			continue
		}
		f := fraction(p.value)
		number := pad(p.value, whole+f, true)
		if p.unit != "" {
			number += strings.Repeat(" ", fractions-f) + " " + p.unit
		}
		lines = append(lines, lead+number)
	}
	return lines
}

// said sets a title and words: beside each other, or below each other where
// long words have little room.
func (t *terminal) said(p pair, indent, lead string) []string {
	room := t.opt.Width - width(lead)
	if t.opt.Width == 0 || room >= comfortable || len(wrap(p.value, max(room, 1))) <= 3 {
		return hang(lead, p.value, t.opt.Width)
	}
	lines := hang(indent, p.title, t.opt.Width)
	return append(lines, hang(indent+"    ", p.value, t.opt.Width)...)
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
			if value := strings.TrimRight(c.cells[r], " "); value != "" {
				list = append(list, pair{c.title, value, "", c.values[r].IsNumber()})
			}
		}
		card := t.pairs(list, "")
		copy(card, t.bold(card[:min(1, len(card))]))
		lines = append(lines, card...)
	}
	return lines
}
