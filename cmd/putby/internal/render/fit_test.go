package render

import (
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"putby/ledger/report"
)

// FuzzText holds the laws of words on a terminal: clean text is clean, and has
// the same width beside a space as alone; a fitted one is no wider than asked;
// wrapped lines hold all words.
func FuzzText(f *testing.F) {
	for _, s := range pieces {
		f.Add(s, 8)
		f.Add("a"+s+"b "+s, 3)
	}
	f.Fuzz(func(t *testing.T, s string, most int) {
		most = max(1, min(most, 300))
		c := Clean(s)
		if !utf8.ValidString(c) || strings.ContainsFunc(c, acts) || strings.ContainsRune(c, '\n') {
			t.Fatalf("Clean(%q) is %q", s, c)
		}
		if again := Clean(c); again != c {
			t.Fatalf("Clean(%q) is %q, then %q", s, c, again)
		}
		if Width(" "+c+" ") != Width(c)+2 {
			t.Fatalf("%q is %d wide, but %d between spaces", c, Width(c), Width(" "+c+" "))
		}
		fitted := penOf(Options{}).fit(c, most)
		if Width(fitted) > most || strings.ContainsFunc(fitted, unicode.IsControl) {
			t.Fatalf("%q fitted to %d is %q, %d wide", c, most, fitted, Width(fitted))
		}
		lines := wrap(c, most)
		if most > 4 && len(lines) == 1 && lines[0] != c {
			t.Fatalf("%q became %q", c, lines[0])
		}
		if got := strings.Join(lines, ""); strings.ReplaceAll(got, " ", "") != strings.ReplaceAll(c, " ", "") {
			t.Fatalf("%q wrapped to %d is %q", c, most, lines)
		}
		for _, line := range lines {
			if Width(line) > max(most, 2) && !isFigure(line) {
				t.Fatalf("%q is wider than %d", line, most)
			}
		}
	})
}

func TestClean(t *testing.T) {
	for in, want := range map[string]string{
		"leek soup": "leek soup", "  leek \t\n soup ": "leek soup", "\x1b[31mred\x1b[0m": "[31mred[0m", "a\x00b": "ab",
		"\u202eevil\u202c": "evil", "👩‍🌾": "👩‍🌾", "\u0301x": "\u25cc\u0301x", "a\xffb": "a\ufffdb", "zero\u200bwidth": "zerowidth", "a\u2028b": "a b",
	} {
		if got := Clean(in); got != want {
			t.Errorf("%q became %q, not %q", in, got, want)
		}
	}
}

func TestWrapKeepsNumbersWhole(t *testing.T) {
	got := strings.Join(wrap("costs 1234567890.123456 a litre, uncharacteristically", 10), "\n")
	want := "costs\n1234567890.123456\na litre,\nuncharacte\nristically"
	if got != want {
		t.Errorf("got\n%s", got)
	}
}

// Lines are filled by the columns that a terminal gives to a text, of which a wide
// letter takes two; a word that is too long stays whole.
func TestFill(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string
	}{
		{"Saved: 苺 苺苺 苺", []string{"  Saved: 苺", "    苺苺 苺"}},
		{"a /very/long/path/it/is of", []string{"  a", "    /very/long/path/it/is", "    of"}},
		{"", []string{"  "}},
	} {
		if got := Fill(strings.Fields(c.text), "  ", "    ", "", 12); !slices.Equal(got, c.want) {
			t.Errorf("%q is filled as %q", c.text, got)
		}
	}
}

// A report without other formats names none where columns do not fit.
func TestAloneNamesNoFormat(t *testing.T) {
	table := &report.Table{Columns: []report.Column{{Key: "a", Title: "first"}, {Key: "b", Title: "second", Rank: 1}}}
	table.Rows = []report.Row{{Cells: []report.Value{report.TextOf("something long"), report.TextOf("something else")}}}
	d := report.Doc{Fields: []report.Field{{Key: "rows", Title: "Rows", Node: table}}}
	for alone, want := range map[bool]string{true: "second; a wider window shows more", false: "second; see --format csv or a wider window"} {
		out := strings.ReplaceAll(rendered(t, d, Table, Options{Width: 20, Alone: alone}), "\n", " ")
		if !strings.Contains(out, want) {
			t.Errorf("alone %v: %q", alone, out)
		}
	}
}
