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

// A grid is a table whose cells are fitted to their columns already.
type grid struct {
	widths []int
	right  []bool // align right
	head   []string
	rows   [][]string
	rule   string // one character, drawn below the headings
}

// lines sets g. This is the only place that knows tablewriter. Left to itself
// that library cuts digits where it is given widths, rewrites headings, and
// measures emoji character by character; so it is given no widths, whatever
// rewrites or trims a cell is off, and the lines are drawn by a [ruled].
func (g grid) lines() ([]string, error) {
	var out bytes.Buffer
	section := tw.CellConfig{Formatting: tw.CellFormatting{AutoWrap: tw.WrapNone, AutoFormat: tw.Off}}
	t := tablewriter.NewTable(&out,
		tablewriter.WithConfig(tablewriter.Config{Header: section, Row: section, Behavior: tw.Behavior{
			AutoHide: tw.Off, TrimSpace: tw.Off, TrimLine: tw.Off, TrimTab: tw.Off,
		}}),
		tablewriter.WithRenderer(&ruled{grid: g}),
		tablewriter.WithEastAsian(tw.Off))
	t.Header(g.head)
	if err := t.Bulk(g.rows); err != nil {
		return nil, fmt.Errorf("render: lay out a table: %w", err)
	}
	if err := t.Render(); err != nil {
		return nil, fmt.Errorf("render: lay out a table: %w", err)
	}
	return strings.Split(strings.TrimSuffix(out.String(), "\n"), "\n"), nil
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
