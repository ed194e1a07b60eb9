package render

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"
)

var update = flag.Bool("update", false, "write the golden files anew; then read what changed")

// TestGolden holds the look of every format. The files are meant to be read.
func TestGolden(t *testing.T) {
	for _, c := range []struct {
		file string
		f    Format
		o    Options
	}{
		{"table-0.txt", Table, Options{}},
		{"table-120.txt", Table, Options{Width: 120}},
		{"table-80.txt", Table, Options{Width: 80}},
		{"table-60.txt", Table, Options{Width: 60}},
		{"table-40.txt", Table, Options{Width: 40}},
		{"table-20.txt", Table, Options{Width: 20}},
		{"chart-80.txt", Table, Options{Width: 80, Chart: true}},
		{"chart-ascii-80.txt", Table, Options{Width: 80, Chart: true, ASCII: true}},
		{"colour-80.txt", Table, Options{Width: 80, Colour: true, Chart: true}},
		{"rows.csv", CSV, Options{}},
		{"months.csv", CSV, Options{Section: "months"}},
		{"offer.csv", CSV, Options{Section: "offer"}},
		{"shelf.csv", CSV, Options{Section: "shelf"}},
		{"whole.json", JSON, Options{}},
		{"whole.md", Markdown, Options{}},
		{"chart.md", Markdown, Options{Chart: true}},
		{"fragment.html", HTML, Options{}},
	} {
		t.Run(c.file, func(t *testing.T) {
			var out bytes.Buffer
			if err := Render(&out, sampleDoc(), c.f, c.o); err != nil {
				t.Fatal(err)
			}
			path := filepath.Join("testdata", c.file)
			if *update {
				if err := os.WriteFile(path, out.Bytes(), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(out.Bytes(), want) {
				t.Errorf("%s differs from\n%s\ngot\n%s", path, want, out.Bytes())
			}
		})
	}
}
