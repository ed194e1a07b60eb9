package render

import (
	"bytes"
	"fmt"
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
			row[i] = penOf(Options{}).fit(clean(drawText(t, "cell")), g.widths[i])
		}
		g.rows = append(g.rows, row)
	}
	return g
}

// Both ways to walk a grid give the same lines, so that nobody sees which was
// taken.
func TestWalksAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGrid(t)
		var a, b bytes.Buffer
		if err := g.walk(&ruled{grid: g, out: &a}); err != nil {
			t.Fatal(err)
		}
		if err := g.tablewriter(&ruled{grid: g, out: &b}); err != nil {
			t.Fatal(err)
		}
		if a.String() != b.String() {
			t.Fatalf("walked\n%s\nby tablewriter\n%s", a.String(), b.String())
		}
	})
}

func BenchmarkGrid(b *testing.B) {
	g := grid{rule: "─", head: []string{"Run", "Item", "Total"}, widths: []int{5, 10, 8}, right: []bool{false, false, true}}
	for i := range 1000 {
		g.rows = append(g.rows, []string{fmt.Sprintf("r%d", i), "leek soup", "12.50"})
	}
	for name, walk := range map[string]func(grid, *ruled) error{"walk": grid.walk, "tablewriter": grid.tablewriter} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				var out bytes.Buffer
				if err := walk(g, &ruled{grid: g, out: &out}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
