package render

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/pkg/twwidth"
	"github.com/olekukonko/tablewriter/renderer"
	"github.com/olekukonko/tablewriter/tw"
)

// A grid is a table of at least one column whose cells are fitted to their columns already.
type grid struct {
	widths []int      // in columns of the terminal, without the gaps
	right  []bool     // align right
	head   [][]string // lines of headings, each by its columns; nil: it has none
	rows   [][]string
	rule   string // one character, drawn below the headings
}

// lines sets g by tablewriter: columns apart by a gap, a rule below the
// headings, no other line. Its renderer draws one line after the other; the
// library's own way to it would rewrite headings, measure every cell three times
// and make as many maps of each line. Given too little room the renderer cuts
// digits, so every column is as wide as its widest cell. Blanks at the end of a
// line are cut off afterwards.
func (g grid) lines() ([]string, error) {
	measureAnew()
	odd := oddCells{}
	heads, rows := odd.replaced(g.head), odd.replaced(g.rows)
	line := g.line(slices.Concat(heads, rows))
	var out strings.Builder
	draw := tablewriter.NewTable(&out, tablewriter.WithEastAsian(tw.Off),
		tablewriter.WithRenderer(renderer.NewBlueprint(tw.Rendition{
			Borders:  tw.BorderNone,
			Symbols:  tw.NewSymbolCustom("rule").WithRow(g.rule),
			Settings: tw.Settings{Separators: tw.SeparatorsNone},
		}))).Renderer()
	err := draw.Start(&out)
	for _, head := range heads {
		draw.Header([][]string{head}, line.of(head))
	}
	if len(heads) > 0 && len(rows) > 0 {
		draw.Line(line.Formatting)
	}
	for _, row := range rows {
		draw.Row(row, line.of(row))
	}
	if err == nil {
		err = draw.Close()
	}
	if err != nil {
		return nil, fmt.Errorf("render: lay out a table: %w", err)
	}
	lines := strings.Split(strings.TrimSuffix(odd.restored(out.String()), "\n"), "\n")
	for i, line := range lines {
		lines[i] = strings.TrimRight(line, " ")
	}
	return lines, nil
}

// measureAnew takes from the library its store of the widths of cells met before:
// to look a cell up in it takes longer than to measure it.
var measureAnew = sync.OnceFunc(func() { twwidth.SetCacheCapacity(0) })

// A gridLine is what the library's renderer is told of a line: the widths of
// columns, and its cells.
type gridLine struct{ tw.Formatting }

// line returns the columns of g, wide enough for all lines and with the gap
// behind each: as blanks that fill up a column to the left, as padding of one to
// the right.
func (g grid) line(lines [][]string) gridLine {
	l := gridLine{tw.Formatting{Row: tw.RowContext{Widths: tw.NewMapper[int, int](), Current: map[int]tw.CellContext{}}}}
	for i, right := range g.right {
		most, space := 0, gap
		if g.head != nil {
			most = g.widths[i]
		}
		for _, line := range lines {
			most = max(most, Width(line[i]))
		}
		if i == len(g.right)-1 {
			space = 0
		}
		l.Row.Widths.Set(i, max(most+space, 1))
		l.Row.Current[i] = tw.CellContext{Align: tw.AlignLeft}
		if right {
			l.Row.Current[i] = tw.CellContext{Align: tw.AlignRight, Padding: tw.Padding{Right: strings.Repeat(" ", space)}}
		}
	}
	return l
}

// of returns l with these cells.
func (l gridLine) of(cells []string) tw.Formatting {
	for i, data := range cells {
		cell := l.Row.Current[i]
		cell.Data = data
		l.Row.Current[i] = cell
	}
	return l.Formatting
}

// oddCells are those that the library takes for wider than they are, such as
// emoji of several characters. It sets stand-ins of their width, runs of one
// character for private use, which then give way to them one after the other.
type oddCells []string

const standIn = "\uE000"

func (o *oddCells) replaced(lines [][]string) [][]string {
	out := make([][]string, len(lines))
	for l, cells := range lines {
		out[l] = slices.Clone(cells)
		for i, cell := range cells {
			if twwidth.Width(cell) == Width(cell) && !strings.Contains(cell, standIn) {
				continue
			}
			if out[l][i] = strings.Repeat(standIn, Width(cell)); out[l][i] != "" {
				*o = append(*o, cell)
			}
		}
	}
	return out
}

func (o oddCells) restored(text string) string {
	var b strings.Builder
	for _, cell := range o {
		at := strings.Index(text, standIn)
		b.WriteString(text[:at])
		b.WriteString(cell)
		text = strings.TrimPrefix(text[at:], strings.Repeat(standIn, Width(cell)))
	}
	return b.String() + text
}
