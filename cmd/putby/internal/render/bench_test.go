package render

import (
	"fmt"
	"io"
	"testing"

	"putby/ledger/report"
)

// manyRuns is the sample with its runs repeated to n rows.
func manyRuns(n int) report.Doc {
	d := sampleDoc()
	for i, f := range d.Fields {
		if t, ok := f.Node.(*report.Table); ok && f.Key == "rows" {
			big := *t
			big.Rows = nil
			for r := range n {
				big.Rows = append(big.Rows, t.Rows[r%len(t.Rows)])
			}
			d.Fields[i].Node = &big
		}
	}
	return d
}

func BenchmarkRender(b *testing.B) {
	d := manyRuns(1000)
	for _, f := range []Format{Table, CSV, JSON, Markdown, HTML} {
		for _, width := range []int{0, 80} {
			if width > 0 && f != Table {
				continue
			}
			b.Run(fmt.Sprintf("%v/width=%d", f, width), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if err := Render(io.Discard, d, f, Options{Width: width}); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
