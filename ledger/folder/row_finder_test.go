package folder

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// A rowFinder finds the records and cells that encoding/csv does, whatever is in quotes.
func TestRowFinder(t *testing.T) {
	cell := rapid.SampledFrom([]string{"", "a", "b-1", " x ", "two words", "a;b", "a,b", "say \"so\"", "two\nlines", "\r\n", "'=1", "é"})
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.IntRange(1, 4).Draw(t, "width")
		rows := rapid.SliceOfN(rapid.SliceOfN(cell, width, width), 0, 6).Draw(t, "rows")
		var b strings.Builder
		w := csv.NewWriter(&b)
		w.UseCRLF = rapid.Bool().Draw(t, "crlf")
		header := []string{"h0", "h1", "h2", "h3"}[:width]
		if err := w.WriteAll(append([][]string{header}, rows...)); err != nil {
			t.Fatal(err)
		}
		text := b.String()
		if rapid.Bool().Draw(t, "mark") {
			text = mark + text
		}
		if rapid.Bool().Draw(t, "open") {
			text = strings.TrimRight(text, "\r\n")
		}
		want := csvRows(t, strings.TrimPrefix(text, mark))
		s := openRowFinder(text)
		var got [][]string
		s.each(func(row string) {
			if strings.Trim(row, "\r\n") == "" {
				return // encoding/csv passes over blank lines
			}
			var cells []string
			for i := range width {
				cells = append(cells, s.cell(row, i))
			}
			got = append(got, cells)
		})
		if fmt.Sprintf("%q", got) != fmt.Sprintf("%q", want[1:]) {
			t.Fatalf("%q:\n%q\nwant\n%q", text, got, want[1:])
		}
		if whole := s.keep(func(string) bool { return true }); whole != text {
			t.Fatalf("%q is kept as %q", text, whole)
		}
	})
}

// csvRows are the cells of a text, as records have them.
func csvRows(t *rapid.T, text string) [][]string {
	r := csv.NewReader(strings.NewReader(text))
	r.FieldsPerRecord = -1
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows {
		for i, cell := range row {
			row[i] = strings.Trim(strings.Replace(cell, "'=", "=", 1), " \t")
		}
	}
	return rows
}

// What is known to have no fault is known of those very files, that check and that
// program.
func TestSound(t *testing.T) {
	dir := household(t)
	has := func(name string) string {
		t.Helper()
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	remove := func(name string) {
		t.Helper()
		if err := os.Remove(filepath.Join(dir, name)); err != nil {
			t.Fatal(err)
		}
	}
	opened := func(judge string) *Book {
		t.Helper()
		b, err := Opening{Check: packsDrawn, Judge: judge}.Open(t.Context(), dir)
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { b.Close() })
		return b
	}
	edit := func(b *Book) {
		t.Helper()
		if _, err := b.Edit("draw add", addDraw(t, "P1", "")); err != nil {
			t.Fatal(err)
		}
	}
	b := opened("one")
	if b.isSound() {
		t.Error("nobody has looked at it")
	}
	edit(b)
	b.Close()
	for _, step := range []struct {
		judge string
		do    func()
		sound bool
	}{
		{"one", func() {}, true},
		{"two", func() {}, false},
		{"", func() {}, false},
		{"one", func() { put(t, dir, "foods.csv", has("foods.csv")+"soup,volume,Soup\n") }, false},
		{"one", func() { b := opened("one"); edit(b); b.Close() }, true},
		{"one", func() { put(t, dir, "shelf.csv", "date,shop,item,size,price\n") }, false},
		{"one", func() { remove("shelf.csv") }, true},
		{"one", func() { said := has(soundFile); put(t, dir, soundFile, said[:len(said)-9]) }, false},
		{"one", func() { put(t, dir, soundFile, "") }, false},
		{"one", func() { remove(soundFile) }, false},
	} {
		step.do()
		b := opened(step.judge)
		if b.isSound() != step.sound {
			t.Errorf("sound by %q: %v", step.judge, !step.sound)
		}
		b.Close()
	}
}

// What a check found holds for the rules of the zone that it had.
func TestZoneRules(t *testing.T) {
	zone := func(name string) *time.Location {
		z, err := time.LoadLocation(name)
		if err != nil {
			t.Fatal(err)
		}
		return z
	}
	seen := map[string]string{}
	for name, z := range map[string]*time.Location{
		"none": nil, "UTC": time.UTC, "one hour": time.FixedZone("X", 3600), "two hours": time.FixedZone("X", 7200),
		"Vienna": zone("Europe/Vienna"), "Halifax": zone("America/Halifax"), "Regina": zone("America/Regina"),
	} {
		rules := zoneRules(z)
		if rules != zoneRules(z) {
			t.Errorf("%s has two sums", name)
		}
		if other := seen[rules]; other != "" {
			t.Errorf("%s and %s have one sum", name, other)
		}
		seen[rules] = name
	}
}
