package render

import (
	"encoding/csv"
	"encoding/json"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"pgregory.net/rapid"

	"putby/ledger/report"
)

// nasty puts s wherever a report can hold words.
func nasty(s string) report.Doc {
	return report.Doc{Title: s, Words: []string{s}, Notes: []string{s}, Fields: []report.Field{
		{Key: "word", Title: s, Node: report.TextOf(s)},
		{Key: "list", Title: s, Node: report.List{report.TextOf(s)}},
		{Key: "object", Title: s, Node: report.Object{{Key: "word", Title: s, Node: report.TextOf(s)}}},
		{Key: "rows", Title: s, Node: &report.Table{
			Columns: []report.Column{{Key: "name", Title: s}, {Key: "count", Title: "Count", Bar: true}, {Key: "notes", Title: s}},
			Rows: []report.Row{{Cells: []report.Value{report.TextOf(s), report.CountOf(-3)}, Notes: []string{s}},
				{Cells: []report.Value{report.TextOf(s + s), report.CountOf(9)}, Notes: []string{s}}},
			Totals: []report.Row{{Cells: []report.Value{report.TextOf(s), report.CountOf(6)}}},
		}},
		{Key: "none", Title: s, Node: &report.Table{Columns: []report.Column{{Key: "name", Title: s}}, Empty: s}},
	}}
}

// acts reports whether a terminal would do more than show r.
func acts(r rune) bool {
	switch r {
	case '\n', joiner, nonJoiner, '\u200E': // the last: our own, around right-to-left names
		return false
	}
	return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || r == '\u2028' || r == '\u2029'
}

// No name makes a terminal do anything, in any format: people look at them all
// in one.
func TestNothingReachesTheTerminal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := nasty(drawText(t, "name"))
		for _, f := range []Format{Table, CSV, JSON, Markdown, HTML} {
			w := rapid.IntRange(0, 100).Draw(t, "width")
			out := rendered(t, d, f, Options{Width: w, Chart: rapid.Bool().Draw(t, "chart")})
			if !utf8.ValidString(out) {
				t.Fatalf("%v is not UTF-8: %q", f, out)
			}
			if at := strings.IndexFunc(out, acts); at >= 0 && (f != CSV || out[at] != '\t') {
				t.Fatalf("%v has %q: %q", f, out[at:min(at+4, len(out))], out)
			}
		}
	})
}

// Words in JSON are those of the model, to the last character.
func TestJSONKeepsWords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawText(t, "name")
		var doc struct {
			Word   string
			List   []string
			Object struct{ Word string }
			Rows   []struct {
				Name  string
				Count int
				Notes []string
			}
			None  []any
			Notes []string
		}
		if err := json.Unmarshal([]byte(rendered(t, nasty(s), JSON, Options{})), &doc); err != nil {
			t.Fatal(err)
		}
		want := strings.ToValidUTF8(s, "\uFFFD")
		for _, got := range []string{doc.Word, doc.List[0], doc.Object.Word, doc.Rows[0].Name, doc.Rows[0].Notes[0], doc.Notes[0]} {
			if got != want {
				t.Fatalf("%q became %q", s, got)
			}
		}
	})
}

// What is written as CSV is read back, and no cell of words begins like a
// formula. OWASP, CSV Injection (owasp.org/www-community/attacks/CSV_Injection)
// names = + - @, tab and carriage return.
func TestCSVIsReadBackHarmless(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawText(t, "name")
		out := rendered(t, nasty(s), CSV, Options{})
		records, err := csv.NewReader(strings.NewReader(out)).ReadAll()
		if err != nil {
			t.Fatalf("%v in %q", err, out)
		}
		if len(records) != 3 || strings.Join(records[0], ",") != "name,count,notes" {
			t.Fatalf("records %q", records)
		}
		for _, record := range records[1:] {
			for _, c := range []int{0, 2} {
				if cell := record[c]; cell != "" && strings.ContainsRune("=+-@\t\r\n", rune(cell[0])) {
					t.Fatalf("a cell that a spreadsheet runs: %q", cell)
				}
			}
		}
		if records[1][1] != "-3" || records[2][1] != "9" {
			t.Fatalf("numbers were touched: %q", records)
		}
		if got := csvText(records[1][0]); got != records[1][0] && !strings.HasPrefix(records[1][0], "'") {
			t.Fatalf("%q is not settled: %q", records[1][0], got)
		}
	})
}

func TestFormulas(t *testing.T) {
	for in, want := range map[string]string{
		"=cmd|' /C calc'!A0": "'=cmd|' /C calc'!A0", "+1": "'+1", "-2 kg bags": "'-2 kg bags", "@SUM(A1)": "'@SUM(A1)",
		"\tx": "'\tx", "\rx": "'\nx", "\x00=x": "'=x", "＝x": "'＝x", "leek=soup": "leek=soup", "": "", "a\r\nb": "a\nb", "'x": "'x",
	} {
		if got := csvText(in); got != want {
			t.Errorf("%q became %q, not %q", in, got, want)
		}
	}
}

func TestMarkdownEscapes(t *testing.T) {
	for in, want := range map[string]string{
		"a|b": `a\|b`, `a\b`: `a\\b`, "<script>": `\<script\>`, "*x*": `\*x\*`, "- x": `\- x`, "1. x": `1\. x`, "1.5 L": `1\.5 L`, "x 1.5": "x 1.5",
		"http://x": `http\://x`, "www.x": `www\.x`, "a & b": `a \& b`, "#1": `\#1`, "~": `\~`,
	} {
		if got := escapeMarkdown(in); got != want {
			t.Errorf("%q became %q, not %q", in, got, want)
		}
	}
}

// Markup in names stays words in HTML.
func TestHTMLEscapes(t *testing.T) {
	out := rendered(t, nasty(`<img src=x onerror="x">' & </td>`), HTML, Options{})
	if strings.Contains(out, "<img") || strings.Contains(out, "</td></td>") || !strings.Contains(out, "&lt;img src=x onerror=&#34;x&#34;&gt;&#39; &amp; &lt;/td&gt;") {
		t.Errorf("HTML has %s", out)
	}
}
