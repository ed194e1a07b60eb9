package render

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"putby/ledger/report"
)

func rendered(t rapid.TB, d report.Doc, f Format, o Options) string {
	t.Helper()
	var out bytes.Buffer
	if err := Render(&out, d, f, o); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// A format agrees when what is read back from it is the model: exact where the
// format is for machines, rounded by the twin where it is for people.
func TestFormatsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, table := drawDoc(t)
		fromJSON := readJSON(t, rendered(t, d, JSON, Options{}))
		fromCSV := readCSV(t, rendered(t, d, CSV, Options{}))
		fromMarkdown := readMarkdown(rendered(t, d, Markdown, Options{}))
		fromHTML, exacts := readHTML(t, rendered(t, d, HTML, Options{}))
		if len(fromCSV) != len(table.Rows) || len(fromMarkdown) != len(table.Rows) || len(fromHTML) != len(table.Rows) {
			t.Fatalf("%d rows: CSV has %d, Markdown %d, HTML %d", len(table.Rows), len(fromCSV), len(fromMarkdown), len(fromHTML))
		}
		for r, row := range table.Rows {
			for c, v := range row.Cells {
				exact, shown := v.Exact(d.Currency), v.Shown(d.Currency, d.Show)
				if v.IsNumber() {
					if want := twin(v, d); shown != want {
						t.Fatalf("%s is shown as %s, not as %s", exact, shown, want)
					}
				}
				if v.Kind() == report.Text {
					shown = Clean(v.Text())
					exact = strings.ToValidUTF8(exact, "\uFFFD")
				} else if fromCSV[r][c] != exact {
					t.Fatalf("CSV has %q for %q", fromCSV[r][c], exact)
				}
				if got := fromJSON[r][table.Columns[c].Key]; got != jsonTwin(v, exact) {
					t.Fatalf("JSON has %#v for %q", got, exact)
				}
				if got := fromMarkdown[r][c]; got != shown {
					t.Fatalf("Markdown has %q for %q", got, shown)
				}
				if got := fromHTML[r][c]; got != shown {
					t.Fatalf("HTML has %q for %q", got, shown)
				}
				want := v.Digits(d.Currency, d.Show)
				if whole(want) == whole(shown) {
					want = "" // the cell has all of it
				}
				if got := exacts[r][c]; v.IsNumber() && got != want {
					t.Fatalf("HTML has the title %q for %q", got, want)
				}
			}
		}
	})
}

func jsonTwin(v report.Value, exact string) any {
	switch v.Kind() {
	case report.Null:
		return nil
	case report.Count:
		return json.Number(exact)
	case report.YesNo:
		return exact == "yes"
	}
	return exact
}

func readJSON(t rapid.TB, s string) []map[string]any {
	t.Helper()
	if !json.Valid([]byte(s)) {
		t.Fatalf("not JSON: %s", s)
	}
	var doc struct{ Rows []map[string]any }
	dec := json.NewDecoder(strings.NewReader(s))
	dec.UseNumber()
	if err := dec.Decode(&doc); err != nil {
		t.Fatal(err)
	}
	return doc.Rows
}

func readCSV(t rapid.TB, s string) [][]string {
	t.Helper()
	records, err := csv.NewReader(strings.NewReader(s)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return records[1:]
}

// readMarkdown reads the rows of the first table: cells between bars that have
// no backslash before them.
func readMarkdown(s string) (rows [][]string) {
	for line := range strings.Lines(s) {
		if !strings.HasPrefix(line, "| ") {
			continue
		}
		var cells []string
		cell, escaped := "", false
		for _, r := range strings.TrimSuffix(line, "\n")[2:] {
			switch {
			case escaped:
				cell, escaped = cell+string(r), false
			case r == '\\':
				escaped = true
			case r == '|':
				cells, cell = append(cells, strings.TrimSuffix(strings.TrimPrefix(cell, " "), " ")), ""
			default:
				cell += string(r)
			}
		}
		rows = append(rows, cells)
	}
	return rows[2:]
}

// readHTML reads the rows of the first table and the titles of their cells.
func readHTML(t rapid.TB, s string) (rows, titles [][]string) {
	t.Helper()
	dec := xml.NewDecoder(strings.NewReader(s))
	body, cell := false, false
	for {
		token, err := dec.Token()
		if err == io.EOF {
			return rows, titles
		}
		if err != nil {
			t.Fatalf("%v in %s", err, s)
		}
		switch e := token.(type) {
		case xml.StartElement:
			switch e.Name.Local {
			case "script":
				t.Fatalf("a script in %s", s)
			case "tbody":
				body = true
			case "tr":
				rows, titles = append(rows, nil), append(titles, nil)
			case "td", "th":
				cell = true
				rows[len(rows)-1] = append(rows[len(rows)-1], "")
				titles[len(rows)-1] = append(titles[len(rows)-1], attribute(e, "title"))
			}
			if !body && e.Name.Local == "tr" {
				rows, titles = [][]string{nil}, [][]string{nil} // the headings
			}
		case xml.EndElement:
			switch e.Name.Local {
			case "thead":
				rows, titles = nil, nil
			case "td", "th":
				cell = false
			}
		case xml.CharData:
			if cell {
				last := &rows[len(rows)-1][len(rows[len(rows)-1])-1]
				*last += string(e)
			}
		}
	}
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

var leftOutWords = regexp.MustCompile(`(?s)left out for width: (.*); see --format csv`)

// At every width every number of the columns shown is there whole, and no line
// of a table is wider than the terminal. Columns that are not shown are named.
func TestNumbersAreWholeAtEveryWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, table := drawDoc(t)
		w := rapid.IntRange(20, 200).Draw(t, "width")
		out := rendered(t, d, Table, Options{Width: w})
		blocks := tableBlocks(out, len(table.Rows))
		out = strings.ReplaceAll(out, "\n", " ")
		var gone []string
		if m := leftOutWords.FindStringSubmatch(out); m != nil {
			gone = strings.Split(m[1], ", ")
		}
		for r, row := range table.Rows {
			words := strings.Fields(blocks[r])
			for c, v := range row.Cells {
				if column := table.Columns[c]; !v.IsNumber() || slices.Contains(gone, column.Title) {
					continue
				}
				at := slices.Index(words, twin(v, d))
				if at < 0 {
					t.Fatalf("at width %d row %d lacks %s of column %d:\n%s", w, r+1, twin(v, d), c, out)
				}
				words[at] = ""
			}
		}
	})
}

// tableBlocks returns the lines of each row of a table or card of drawDoc.
func tableBlocks(out string, rows int) []string {
	blocks, at := make([]string, rows), -1
	for line := range strings.Lines(out) {
		words := strings.Fields(line)
		switch {
		case len(words) == 0 && at >= 0 && at+1 == rows:
			return blocks // notes follow
		case len(words) == 0 || at < 0 && words[0] == "Id" && len(words) != 2:
			continue
		case at+1 < rows && slices.Contains(words[:min(2, len(words))], "r"+string(rune('2'+at))):
			at++
		case strings.HasPrefix(line, "left out"):
			return blocks
		}
		if at >= 0 {
			blocks[at] += line
		}
	}
	return blocks
}

// Whatever the names are, no line of a table is wider than the terminal and
// the figures behind them end in one column.
func TestColumnsStayAligned(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		table := &report.Table{Columns: []report.Column{{Key: "name", Title: "Name"}, {Key: "unit", Title: "Other"}, {Key: "total", Title: "Total"}}}
		for range rapid.IntRange(1, 8).Draw(t, "rows") {
			table.Rows = append(table.Rows, report.Row{Cells: []report.Value{
				report.TextOf(drawText(t, "name")), report.TextOf(drawText(t, "other")), drawValue(t, report.Money)}})
		}
		d := report.Doc{Fields: []report.Field{{Key: "rows", Title: "Rows", Node: table}}}
		w := rapid.SampledFrom([]int{0, 40, 60, 100}).Draw(t, "width")
		out := rendered(t, d, Table, Options{Width: w})
		lines := strings.Split(strings.TrimSuffix(out, "\n"), "\n")
		for _, line := range lines {
			if Width(line) != Width(lines[0]) || w > 0 && Width(line) > w {
				t.Fatalf("width %d: lines of %d and %d columns:\n%s", w, Width(lines[0]), Width(line), out)
			}
		}
	})
}

// The sample, whose columns are those of a household: at each width from 20 to
// 200 no line of words or table is wider, and no number is cut.
func TestSampleAtEveryWidth(t *testing.T) {
	d := sampleDoc()
	numbers := strings.Fields(rendered(t, d, Markdown, Options{Chart: true}))
	numbers = slices.DeleteFunc(numbers, func(s string) bool { return !strings.Contains(s, ".") || !isFigure(s) })
	for w := 20; w <= 200; w++ {
		out := rendered(t, d, Table, Options{Width: w, Chart: true})
		words := strings.Fields(out)
		for line := range strings.Lines(out) {
			if n := Width(strings.TrimSuffix(line, "\n")); n > max(w, 24) { // "Worth i…    1.8889 per L"
				t.Errorf("width %d: %d wide: %s", w, n, line)
			}
		}
		for _, word := range words {
			if strings.Contains(word, ".") && isFigure(word) && !slices.Contains(numbers, word) {
				t.Errorf("width %d: %s is no figure of the report", w, word)
			}
		}
		for _, must := range []string{"1056.15", "104.3116", "102.50", "~15.32", "~14.438"} {
			if !slices.Contains(words, must) {
				t.Errorf("width %d lacks %s", w, must)
			}
		}
	}
}
