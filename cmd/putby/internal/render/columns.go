package render

import (
	"strings"
	"unicode"
)

// Columns sets lines whose cells are apart by tabs as tables without headings, those
// that follow each other in one: to the right what has no letter, the rest in several
// lines where it is wider than most columns of the terminal (0 is no limit). Other
// lines stay as they are.
func Columns(lines []string, most int) (set []string) {
	for len(lines) > 0 {
		n := 0
		for n < len(lines) && strings.Contains(lines[n], "\t") {
			n++
		}
		if n == 0 {
			set, lines = append(set, lines[0]), lines[1:]
			continue
		}
		set, lines = append(set, aligned(lines[:n], most)...), lines[n:]
	}
	return set
}

// aligned sets lines as one table, as far to the right as the first begins.
func aligned(lines []string, most int) []string {
	indent := lines[0][:len(lines[0])-len(strings.TrimLeft(lines[0], " "))]
	var rows [][]string
	columns := 0
	for _, line := range lines {
		cells := strings.Split(line, "\t")
		for i, cell := range cells {
			cells[i] = Clean(cell)
		}
		rows, columns = append(rows, cells), max(columns, len(cells))
	}
	g := grid{right: make([]bool, columns)}
	needs, keep := make([]need, columns), make([]int, columns)
	for i := range keep {
		keep[i], g.right[i] = i, true // until a cell has a letter
		for _, row := range rows {
			if i < len(row) {
				needs[i].cells = max(needs[i].cells, Width(row[i]))
				g.right[i] = g.right[i] && !strings.ContainsFunc(row[i], unicode.IsLetter)
			}
		}
		if g.right[i] {
			needs[i].fixed = needs[i].cells
		}
	}
	var fits bool
	// Where nothing fits it is as wide as it needs: numbers are never cut.
	if g.widths, fits = widths(needs, keep, narrowest, max(most-len(indent), 0)); !fits {
		g.widths, _ = widths(needs, keep, narrowest, 0)
	}
	for _, row := range rows {
		lines := [][]string{make([]string, columns)}
		for i, cell := range row {
			lines = put(lines, i, wrap(cell, g.widths[i])...)
		}
		g.rows = append(g.rows, lines...)
	}
	set, err := g.lines()
	if err != nil {
		return lines
	}
	for i := range set {
		set[i] = indent + set[i]
	}
	return set
}
