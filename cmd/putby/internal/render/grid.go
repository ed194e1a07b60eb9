package render

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/renderer"
	"github.com/olekukonko/tablewriter/tw"
)

// grid sets cells in columns, with the heading above a rule, and returns the
// lines. This is the only place that knows tablewriter. Left to itself that
// library cuts digits where it is given widths, rewrites headings and wraps;
// so it is given finished lines of cells that are already as wide as their
// column, and everything it could change is turned off.
func grid(head, rows [][]string, right []bool, rule string) ([]string, error) {
	var out bytes.Buffer
	t := tablewriter.NewTable(&out,
		tablewriter.WithConfig(tablewriter.Config{Header: cells(right), Row: cells(right), Behavior: tw.Behavior{
			AutoHide: tw.Off, TrimSpace: tw.Off, TrimLine: tw.Off, TrimTab: tw.Off,
		}}),
		tablewriter.WithRenderer(renderer.NewBlueprint(look(rule))),
		tablewriter.WithEastAsian(tw.Off))
	t.Header(transposeHead(head))
	if err := t.Bulk(rows); err != nil {
		return nil, fmt.Errorf("render: lay out a table: %w", err)
	}
	if err := t.Render(); err != nil {
		return nil, fmt.Errorf("render: lay out a table: %w", err)
	}
	lines := strings.Split(strings.TrimSuffix(out.String(), "\n"), "\n")
	for i, line := range lines {
		lines[i] = strings.TrimRight(line, " ")
	}
	return lines, nil
}

// cells is how the cells of a section are set: as they are.
func cells(right []bool) tw.CellConfig {
	align := make([]tw.Align, len(right))
	for i := range align {
		align[i] = tw.AlignLeft
		if right[i] {
			align[i] = tw.AlignRight
		}
	}
	return tw.CellConfig{
		Formatting: tw.CellFormatting{AutoWrap: tw.WrapNone, AutoFormat: tw.Off},
		Padding:    tw.CellPadding{Global: tw.Padding{Right: strings.Repeat(" ", gap), Overwrite: true}},
		Alignment:  tw.CellAlignment{Global: tw.AlignLeft, PerColumn: align},
	}
}

// look is a rule below the headings and no other line.
func look(rule string) tw.Rendition {
	return tw.Rendition{
		Symbols: tw.NewSymbolCustom("rule").WithRow(rule).WithCenter(rule),
		Borders: tw.BorderNone,
		Settings: tw.Settings{
			Separators: tw.Separators{BetweenColumns: tw.Off, BetweenRows: tw.Off, ShowHeader: tw.On},
			Lines:      tw.Lines{ShowTop: tw.Off, ShowBottom: tw.Off, ShowHeaderLine: tw.On, ShowFooterLine: tw.Off},
		},
	}
}

// transposeHead turns lines of headings into one heading of several lines for
// each column.
func transposeHead(lines [][]string) []string {
	head := make([]string, len(lines[0]))
	for i := range head {
		column := make([]string, len(lines))
		for l := range lines {
			column[l] = lines[l][i]
		}
		head[i] = strings.Join(column, "\n")
	}
	return head
}

// headLines breaks titles into lines of their columns' widths, the last line
// next to the rule.
func headLines(titles []string, widths []int) [][]string {
	broken, most := make([][]string, len(titles)), 1
	for i, title := range titles {
		broken[i] = wrap(title, widths[i])
		most = max(most, len(broken[i]))
	}
	lines := make([][]string, most)
	for l := range lines {
		lines[l] = make([]string, len(titles))
		for i, words := range broken {
			if at := l - (most - len(words)); at >= 0 {
				lines[l][i] = words[at]
			}
		}
	}
	return lines
}

// isolate keeps a text of right-to-left letters from reordering the numbers
// beside it, by a left-to-right mark on each side.
func isolate(s string) string {
	const mark = "\u200E"
	if slices.ContainsFunc([]rune(s), rightToLeft) {
		return mark + s + mark
	}
	return s
}

// rightToLeft reports whether r is a letter of a script that runs from right to
// left.
func rightToLeft(r rune) bool {
	return r > unicode.MaxLatin1 && unicode.In(r, unicode.Hebrew, unicode.Arabic, unicode.Syriac, unicode.Thaana,
		unicode.Nko, unicode.Samaritan, unicode.Mandaic, unicode.Adlam, unicode.Mende_Kikakui)
}
