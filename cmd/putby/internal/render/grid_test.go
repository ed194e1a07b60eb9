package render

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// drawGrid returns a grid of rows of clean names, of headings in one to three
// lines.
func drawGrid(t *rapid.T) grid {
	columns := rapid.IntRange(1, 5).Draw(t, "columns")
	g := grid{rule: "─", right: rapid.SliceOfN(rapid.Bool(), columns, columns).Draw(t, "right")}
	var titles []string
	for range columns {
		titles = append(titles, rapid.SampledFrom([]string{"", "Run", "Per unit", "Cost of each litre"}).Draw(t, "title"))
		g.widths = append(g.widths, rapid.IntRange(5, 40).Draw(t, "width"))
	}
	g.head = breakHeadings(titles, g.widths)
	for range rapid.IntRange(1, 6).Draw(t, "rows") {
		row := make([]string, columns)
		for i := range row {
			row[i] = penOf(Options{}).fit(Clean(drawText(t, "cell")), g.widths[i])
		}
		g.rows = append(g.rows, row)
	}
	return g
}

// plainly sets a grid by hand, as it is told to be set.
func (g grid) plainly() []string {
	var lines []string
	draw := func(cells []string) {
		line := ""
		for i, cell := range cells {
			line += pad(cell, g.widths[i], g.right[i]) + strings.Repeat(" ", gap)
		}
		lines = append(lines, strings.TrimRight(line, " "))
	}
	for _, line := range g.head {
		draw(line)
	}
	lines = append(lines, strings.Repeat(g.rule, total(g.widths)))
	for _, row := range g.rows {
		draw(row)
	}
	return lines
}

// Every cell stands whole in its column, whatever it holds: the library sets
// what a hand would.
func TestGridIsPlain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGrid(t)
		got, err := g.lines()
		if err != nil {
			t.Fatal(err)
		}
		if want := g.plainly(); !slices.Equal(got, want) {
			t.Fatalf("by tablewriter\n%s\nby hand\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
		}
	})
}

func BenchmarkGrid(b *testing.B) {
	g := grid{rule: "─", head: [][]string{{"Run", "Item", "Total"}}, widths: []int{5, 10, 8}, right: []bool{false, false, true}}
	for i := range 1000 {
		g.rows = append(g.rows, []string{fmt.Sprintf("r%d", i), "leek soup", "12.50"})
	}
	for b.Loop() {
		if _, err := g.lines(); err != nil {
			b.Fatal(err)
		}
	}
}
