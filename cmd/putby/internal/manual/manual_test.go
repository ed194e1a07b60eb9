package manual

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

var page = Page{
	Name: "putby jar add", Short: "add a jar",
	Text:     "Add a jar, which is\none of glass.\n\nSo:\n\n  --lid LID   a lid that fits\n  --note      anything\n\n.A line that roff would take for a macro, and a \\ it would eat.",
	Usage:    []string{"putby jar add [flags]"},
	Examples: "  putby jar add --lid \"of tin\" \\\n    --note 'never dropped -- so far'",
	Flags:    []Entry{{"    --lid name", "a lid, as it is called"}, {"    --a-flag-with-a-very-long-name word", "stands above its text"}, {"-h, --help", "help"}},
	Statuses: []Entry{{"0", "done"}},
	See:      []string{"putby jar", "putby"},
}

func TestHelp(t *testing.T) {
	const want = `Add a jar, which is one of glass.

So:

  --lid LID   a lid that fits
  --note      anything

.A line that roff would take for a macro,
and a \ it would eat.

Usage:
  putby jar add [flags]

Examples:
  putby jar add --lid "of tin" \
    --note 'never dropped -- so far'

Flags:
      --lid name  a lid, as it is called
      --a-flag-with-a-very-long-name word
                  stands above its text
  -h, --help      help

Exit status:
  0  done
`
	if got := Help(page, 42); got != want {
		t.Errorf("printed\n%s\nwant\n%s", got, want)
	}
	if Help(page, 0) != Help(page, 80) || Help(page, 1) != Help(page, leastWidth) || Help(page, 500) != Help(page, mostWidth) {
		t.Error("a width is not kept within its bounds")
	}
}

func TestRoff(t *testing.T) {
	const want = `.TH "PUTBY\-JAR\-ADD" "1" "" "putby 1" "Manual of putby"
.SH "NAME"
putby\-jar\-add \- add a jar
.SH "SYNOPSIS"
putby jar add [flags]
.SH "DESCRIPTION"
Add a jar, which is
one of glass.
.PP
So:
.PP
.nf
  \-\-lid LID   a lid that fits
  \-\-note      anything
.fi
.PP
\&.A line that roff would take for a macro, and a \(rs it would eat.
.SH "EXAMPLES"
.PP
.nf
  putby jar add \-\-lid "of tin" \(rs
    \-\-note \(aqnever dropped \-\- so far\(aq
.fi
.SH "FLAGS"
.TP
\-\-lid name
a lid, as it is called
.TP
\-\-a\-flag\-with\-a\-very\-long\-name word
stands above its text
.TP
\-h, \-\-help
help
.SH "EXIT STATUS"
.TP
0
done
.SH "SEE ALSO"
putby\-jar(1), putby(1)
`
	if got := Roff(page, "putby 1"); got != want {
		t.Errorf("wrote\n%s\nwant\n%s", got, want)
	}
}

// Whatever is written, every word of it is in the help, in order, and no line
// of more than one word is wider than the terminal.
func TestHelpKeepsWords(t *testing.T) {
	word := rapid.StringMatching(`[a-z(){}%.,-]{1,14}`)
	rapid.Check(t, func(t *rapid.T) {
		var text strings.Builder
		for range rapid.IntRange(1, 12).Draw(t, "lines") {
			indent := rapid.SampledFrom([]string{"", "", "  ", "      "}).Draw(t, "indent")
			text.WriteString(indent + strings.Join(rapid.SliceOfN(word, 0, 12).Draw(t, "words"), rapid.SampledFrom([]string{" ", "  "}).Draw(t, "gap")) + "\n")
		}
		width := rapid.IntRange(leastWidth, mostWidth).Draw(t, "width")
		help, _, _ := strings.Cut(Help(Page{Text: text.String()}, width)+"\nUsage:", "\nUsage:")
		if got, want := strings.Fields(help), strings.Fields(text.String()); strings.Join(got, " ") != strings.Join(want, " ") {
			t.Fatalf("%q became %q", want, got)
		}
		for line := range strings.Lines(help) {
			line = strings.TrimSuffix(line, "\n")
			if len(line) > width && len(strings.Fields(line)) > 1 {
				t.Fatalf("at %d columns a line has %d: %q", width, len(line), line)
			}
		}
	})
}

// An answer that is shown as on a usual screen is filled afresh on a narrow one: what
// was broken since the next word had no room is one sentence, and columns are none.
func TestNarrowAnswer(t *testing.T) {
	text := `Typed:

  $ putby worth plums --brief
  Buy 7: dry 3.5 L in 1 run and eat 1.4 L fresh. That saves 9.10 EUR against the
  shelf; without drying it would be 5.28 EUR.
    * what it would cost frozen cannot be said without its frozen_days, and the
      setting freezer_volume
  2    two fresh, and so many words that only one more of four letters would go
  three
`
	want := `Typed:

  $ putby worth plums --brief
  Buy 7: dry 3.5 L in 1 run and eat 1.4 L fresh. That saves
  9.10 EUR against the shelf; without drying it would be
  5.28 EUR.
    * what it would cost frozen cannot be said without its
      frozen_days, and the setting freezer_volume
  2    two fresh, and so many words that only one more of
       four letters would go
  three
`
	if have := Help(Page{Text: text}, 60); !strings.HasPrefix(have, want) {
		t.Errorf("%s", have)
	}
	if have := Help(Page{Text: text}, 80); !strings.HasPrefix(have, text) {
		t.Errorf("at 80 columns:\n%s", have)
	}
}

// Every file of topics is listed, every topic listed has a file, and each is
// whole: a line of what it is about, then text whose lines keep to 80 columns
// where they are filled.
func TestTopics(t *testing.T) {
	files, err := topics.ReadDir("topics")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if name := strings.TrimSuffix(f.Name(), ".txt"); !slices.Contains(Topics(), name) {
			t.Errorf("the topic %s is not listed", name)
		}
	}
	for _, name := range Topics() {
		p, ok := Topic(name)
		if !ok || p.Short == "" || len(p.Short) > 60 || !strings.HasPrefix(p.Text, "\n") {
			t.Errorf("%s: %v, %q", name, ok, p.Short)
		}
		for line := range strings.Lines(Help(p, 80)) {
			if utf8.RuneCountInString(strings.TrimRight(line, "\n")) > 80 {
				t.Errorf("%s: too long: %s", name, line)
			}
		}
		if page := Roff(p, "putby 1"); !strings.Contains(page, `"7"`) || strings.Contains(page, "SYNOPSIS") {
			t.Errorf("%s is not a page of section 7 without a synopsis", name)
		}
	}
	if _, ok := Topic("../topic"); ok {
		t.Error("what is no topic is shown")
	}
}

func TestKindsOfParagraph(t *testing.T) {
	p := Page{Text: "Before\n\n# One two\n\n- an item that is\n  of two lines\n- another\n\n  kept\n"}
	const want = "Before\n\nONE TWO\n\n- an item that is of two lines\n- another\n\n  kept\n"
	if got := Help(p, 60); got != want {
		t.Errorf("printed\n%q\nwant\n%q", got, want)
	}
	roff := Roff(p, "putby 1")
	for _, part := range []string{".SH \"ONE TWO\"\n", ".IP \"\\-\" \"2\"\nan item that is of two lines\n"} {
		if !strings.Contains(roff, part) {
			t.Errorf("no %q in\n%s", part, roff)
		}
	}
}
