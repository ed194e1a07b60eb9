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

// pairs sets titles and values below each other, numbers by their points.
func (t *terminal) pairs(list []pair, indent string) []string {
	return t.measure(list, indent).lines(list)
}

// cards sets each row of a sheet as lines of its own, where a table would not
// fit; nothing is left out.
func (t *terminal) cards(s sheet) []string {
	var all []pair
	cards := make([][]pair, len(s.columns[0].cells))
	for r := range cards {
		for _, c := range s.columns {
			if value := strings.TrimRight(c.cells[r], " "); value != "" { // what has no value has no line
				cards[r] = append(cards[r], pair{c.title, value, "", c.values[r].IsNumber()})
			}
		}
		all = append(all, cards[r]...)
	}
	stops := t.measure(all, "")
	var lines []string
	for r, card := range cards {
		if r > 0 {
			lines = append(lines, "")
		}
		set := stops.lines(card)
		copy(set, t.bold(set[:min(1, len(set))]))
		lines = append(lines, set...)
	}
	return lines
}

// stops are where the parts of pairs begin and end.
type stops struct {
	*terminal
	indent           string
	titles           int // width of the titles
	whole, fractions int // of numbers, before the point and from it on
}

// measure finds stops that suit all pairs of a list. A title is cut where its
// number would not fit, and a number never.
func (t *terminal) measure(list []pair, indent string) stops {
	s, words, units := stops{terminal: t, indent: indent}, narrowest, 0
	for _, p := range list {
		s.titles = max(s.titles, Width(p.title))
		if p.number {
			f := fraction(t.show.Locale, p.value)
			s.whole, s.fractions = max(s.whole, Width(p.value)-f), max(s.fractions, f)
			if p.unit != "" {
				units = max(units, Width(p.unit)+1)
			}
		} else if isFigure(p.value) {
			words = max(words, Width(p.value))
		}
	}
	if t.opt.Width > 0 {
		room := t.opt.Width - len(indent) - gap - max(s.whole+s.fractions+units, words)
		s.titles = min(s.titles, max(room, narrowest))
	}
	return s
}

func (s stops) lines(list []pair) (lines []string) {
	for _, p := range list {
		lead := s.indent + pad(s.fit(p.title, s.titles), s.titles+gap, false)
		if !p.number {
			lines = append(lines, s.said(p, lead)...)
			continue
		}
		f := fraction(s.show.Locale, p.value)
		number := pad(p.value, s.whole+f, true)
		if p.unit != "" {
			number += strings.Repeat(" ", s.fractions-f) + " " + p.unit
		}
		lines = append(lines, lead+number)
	}
	return lines
}

// said sets a title and words: beside each other, or below each other where
// long words have little room.
func (s stops) said(p pair, lead string) []string {
	room := s.opt.Width - Width(lead)
	if s.opt.Width == 0 || room >= comfortable || len(wrap(p.value, max(room, 1))) <= 3 {
		return hang(lead, p.value, s.opt.Width)
	}
	lines := hang(s.indent, p.title, s.opt.Width)
	return append(lines, hang(s.indent+"    ", p.value, s.opt.Width)...)
}
