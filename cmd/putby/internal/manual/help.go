package manual

import (
	"strings"

	"putby/cmd/putby/internal/render"
)

const (
	usualWidth = 80 // columns, where nobody says
	mostWidth  = 100
	leastWidth = 40
	mostTerm   = 28 // a longer one has its text below it
)

// Help writes a page for a terminal of so many columns; 0 stands for 80. Text
// wider than 100 is hard to read, so it never is.
func Help(p Page, width int) string {
	if width == 0 {
		width = usualWidth
	}
	width = min(max(width, leastWidth), mostWidth)
	var lines []string
	pars := paragraphs(p.Text)
	for i, par := range pars {
		if i > 0 && !(par.kind == item && pars[i-1].kind == item) {
			lines = append(lines, "")
		}
		lines = append(lines, par.at(width)...)
	}
	for _, s := range p.sections() {
		if !s.empty() {
			lines = append(lines, "", s.title+":")
			lines = append(lines, s.at(width)...)
		}
	}
	return strings.Join(lines, "\n") + "\n"
}

func (p paragraph) at(width int) []string {
	switch p.kind {
	case verbatim:
		return foldAll(p.lines, width)
	case item:
		return fill(p.prose(), "- ", "  ", width)
	case heading:
		return []string{strings.ToUpper(p.prose())}
	}
	return fill(p.prose(), "", "", width)
}

// at lays a section out: terms in a column, their text beside them.
func (s section) at(width int) []string {
	var lines []string
	for _, line := range s.lines {
		lines = append(lines, "  "+strings.TrimPrefix(line, "  "))
	}
	list := foldAll(lines, width)
	column := 0
	for _, e := range s.entries {
		if n := render.Width(e.Term); n <= min(mostTerm, width/2) {
			column = max(column, n)
		}
	}
	indent := strings.Repeat(" ", column+4)
	for _, e := range s.entries {
		gap := column - render.Width(e.Term)
		if gap < 0 {
			list = append(list, "  "+e.Term)
			list = append(list, fill(e.Text, indent, indent, width)...)
			continue
		}
		list = append(list, fill(e.Text, "  "+e.Term+strings.Repeat(" ", gap+2), indent, width)...)
	}
	for i := range list {
		list[i] = strings.TrimRight(list[i], " ")
	}
	return list
}
