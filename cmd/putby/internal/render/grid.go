package render

import (
	"fmt"
	"strings"
	"sync"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/pkg/twwidth"
	"github.com/olekukonko/tablewriter/renderer"
	"github.com/olekukonko/tablewriter/tw"
)

// A grid is a table of at least one column whose cells are fitted to their columns already.
type grid struct {
	widths []int
	right  []bool   // align right
	head   []string // all of as many lines; nil: it has none
	rows   [][]string
	rule   string // one character, drawn below the headings
}

// lines sets g by tablewriter: columns apart by a gap, a rule below the
// headings, no other line. Left to itself the library rewrites headings, and
// cuts digits where it is given widths; so it is given none (the headings are
// as wide as their columns), and whatever rewrites, wraps or trims a cell is
// off. Blanks at the end of a line are cut off afterwards.
func (g grid) lines() ([]string, error) {
	measureAnew()
	var out strings.Builder
	cells := tw.CellConfig{Formatting: tw.CellFormatting{AutoWrap: tw.WrapNone, AutoFormat: tw.Off}}
	for i, right := range g.right {
		align, space := tw.AlignLeft, gap
		if right {
			align = tw.AlignRight
		}
		if i == len(g.right)-1 {
			space = 0
		}
		cells.Alignment.PerColumn = append(cells.Alignment.PerColumn, align)
		cells.Padding.PerColumn = append(cells.Padding.PerColumn, tw.Padding{Right: strings.Repeat(" ", space), Overwrite: true})
	}
	ruled := tw.Off
	if g.head != nil {
		ruled = tw.On
	}
	t := tablewriter.NewTable(&out,
		tablewriter.WithConfig(tablewriter.Config{Header: cells, Row: cells, Behavior: tw.Behavior{
			AutoHide: tw.Off, TrimSpace: tw.Off, TrimLine: tw.Off, TrimTab: tw.Off,
		}}),
		tablewriter.WithRenderer(renderer.NewBlueprint(tw.Rendition{
			Borders: tw.BorderNone,
			Symbols: tw.NewSymbolCustom("rule").WithRow(g.rule),
			Settings: tw.Settings{
				Lines:      tw.Lines{ShowHeaderLine: ruled, ShowTop: tw.Off, ShowBottom: tw.Off, ShowFooterLine: tw.Off},
				Separators: tw.SeparatorsNone,
			},
		})),
		tablewriter.WithEastAsian(tw.Off))
	odd := oddCells{}
	if g.head != nil {
		t.Header(g.headings())
	}
	rows := make([][]string, len(g.rows))
	for i, row := range g.rows {
		rows[i] = odd.replaced(row)
	}
	err := t.Bulk(rows)
	if err == nil {
		err = t.Render()
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

// headings fills the last line of each heading with blanks to its column's
// width.
func (g grid) headings() []string {
	heads := make([]string, len(g.head))
	for i, head := range g.head {
		at := strings.LastIndexByte(head, '\n') + 1
		heads[i] = head[:at] + pad(head[at:], g.widths[i], g.right[i])
	}
	return heads
}

// oddCells are those that the library takes for wider than they are, such as
// emoji of several characters. It sets stand-ins of their width, runs of one
// character for private use, which then give way to them one after the other.
type oddCells []string

const standIn = "\uE000"

func (o *oddCells) replaced(cells []string) []string {
	out := make([]string, len(cells))
	for i, cell := range cells {
		if out[i] = cell; twwidth.Width(cell) == width(cell) && !strings.Contains(cell, standIn) {
			continue
		}
		if out[i] = strings.Repeat(standIn, width(cell)); out[i] != "" {
			*o = append(*o, cell)
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
		text = strings.TrimPrefix(text[at:], strings.Repeat(standIn, width(cell)))
	}
	return b.String() + text
}
