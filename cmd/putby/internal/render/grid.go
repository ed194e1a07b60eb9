package render

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"github.com/olekukonko/ll"
	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/tw"
)

// A grid is a table of at least one column whose cells are fitted to their columns already.
type grid struct {
	widths []int
	right  []bool   // align right
	head   []string // all of as many lines
	rows   [][]string
	rule   string // one character, drawn below the headings
}

// longTable is how many rows tablewriter walks at most. It keeps maps for every
// cell and its neighbours, which costs some twenty times what drawing does; a
// longer grid is walked here, and drawn by the same [ruled].
const longTable = 100

// lines sets g.
func (g grid) lines() ([]string, error) {
	var out bytes.Buffer
	r := &ruled{grid: g, out: &out}
	var err error
	if len(g.rows) > longTable {
		err = g.walk(r)
	} else {
		err = g.tablewriter(r)
	}
	if err != nil {
		return nil, fmt.Errorf("render: lay out a table: %w", err)
	}
	return strings.Split(strings.TrimSuffix(out.String(), "\n"), "\n"), nil
}

func (g grid) walk(r *ruled) error {
	heads := make([][]string, len(g.head))
	for i, head := range g.head {
		heads[i] = strings.Split(head, "\n")
	}
	for l := range heads[0] {
		line := make([]string, len(heads))
		for i := range heads {
			line[i] = heads[i][l]
		}
		r.draw(line)
	}
	r.Line(tw.Formatting{})
	for _, row := range g.rows {
		r.draw(row)
	}
	return r.err
}

// tablewriter lets the library of that name walk g; no other place knows it.
// Left to itself it cuts digits where it is given widths, rewrites headings,
// and measures emoji character by character; so it is given no widths, whatever
// rewrites or trims a cell is off, and r draws.
func (g grid) tablewriter(r *ruled) error {
	section := tw.CellConfig{Formatting: tw.CellFormatting{AutoWrap: tw.WrapNone, AutoFormat: tw.Off}}
	t := tablewriter.NewTable(r.out,
		tablewriter.WithConfig(tablewriter.Config{Header: section, Row: section, Behavior: tw.Behavior{
			AutoHide: tw.Off, TrimSpace: tw.Off, TrimLine: tw.Off, TrimTab: tw.Off,
		}}),
		tablewriter.WithRenderer(r),
		tablewriter.WithEastAsian(tw.Off))
	t.Header(g.head)
	if err := t.Bulk(g.rows); err != nil {
		return err
	}
	return t.Render()
}

// ruled draws a grid for tablewriter: columns apart by a gap, a rule below the
// headings, no other line, nothing behind the last character of a line.
type ruled struct {
	grid
	out  io.Writer
	line []byte
	err  error
}

var _ tw.Renderer = (*ruled)(nil)

// Start is called before the first line.
func (r *ruled) Start(w io.Writer) error {
	r.out = w
	return nil
}

// Header draws lines of headings.
func (r *ruled) Header(lines [][]string, _ tw.Formatting) {
	for _, cells := range lines {
		r.draw(cells)
	}
}

// Row draws a row.
func (r *ruled) Row(cells []string, _ tw.Formatting) { r.draw(cells) }

// Footer draws nothing: totals are rows here.
func (r *ruled) Footer([][]string, tw.Formatting) {}

// Line draws the rule below the headings.
func (r *ruled) Line(tw.Formatting) {
	r.line = append(r.line[:0], strings.Repeat(r.rule, total(r.widths))...)
	r.flush()
}

// Config asks for the rule below the headings.
func (r *ruled) Config() tw.Rendition {
	return tw.Rendition{Borders: tw.BorderNone, Symbols: tw.NewSymbols(tw.StyleNone),
		Settings: tw.Settings{Lines: tw.Lines{ShowHeaderLine: tw.On}}}
}

// Logger takes no logger.
func (r *ruled) Logger(*ll.Logger) {}

// Close returns the first error of writing.
func (r *ruled) Close() error { return r.err }

func (r *ruled) draw(cells []string) {
	r.line = r.line[:0]
	owed := 0 // spaces that are written only when something follows
	for i, cell := range cells {
		fill := max(r.widths[i]-width(cell), 0)
		if r.right[i] {
			owed, fill = owed+fill, 0
		}
		if cell != "" {
			r.line = appendSpaces(r.line, owed)
			r.line = append(r.line, cell...)
			owed = 0
		}
		owed += fill + gap
	}
	r.line = bytes.TrimRight(r.line, " ")
	r.flush()
}

func (r *ruled) flush() {
	if _, err := r.out.Write(append(r.line, '\n')); r.err == nil {
		r.err = err
	}
}

func appendSpaces(b []byte, n int) []byte {
	for range n {
		b = append(b, ' ')
	}
	return b
}
