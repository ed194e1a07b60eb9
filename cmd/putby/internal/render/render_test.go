package render

import (
	"bytes"
	"errors"
	"os"
	"strings"
	"testing"

	"putby/ledger/report"
	"putby/pricing/exact"
)

func TestParseFormat(t *testing.T) {
	for _, name := range Formats() {
		f, err := ParseFormat(name)
		if err != nil || f.String() != name {
			t.Errorf("%s is read as %v, %v", name, f, err)
		}
	}
	_, err := ParseFormat("xlsx\x1b")
	if !errors.Is(err, ErrFormat) || err.Error() != `unknown format "xlsx\x1b": it is one of table, csv, json, md, html` {
		t.Error(err)
	}
	if err := Render(&bytes.Buffer{}, report.Doc{}, 99, Options{}); !errors.Is(err, ErrFormat) {
		t.Error(err)
	}
}

// A report at fault, or an unknown section, writes nothing.
func TestFaultsWriteNothing(t *testing.T) {
	short := report.Doc{Fields: []report.Field{{Key: "rows", Title: "Rows", Node: &report.Table{
		Columns: []report.Column{{Key: "a", Title: "A"}}, Rows: []report.Row{{}}}}}}
	for _, f := range []Format{Table, CSV, JSON, Markdown, HTML} {
		var out bytes.Buffer
		if err := Render(&out, short, f, Options{}); err == nil || out.Len() > 0 {
			t.Errorf("%v: %v, wrote %q", f, err, out.String())
		}
	}
	var out bytes.Buffer
	err := Render(&out, sampleDoc(), CSV, Options{Section: "nothing"})
	want := `this report has no section "nothing": it has rows, months, offer, shelf, waiting`
	if !errors.Is(err, ErrSection) || err.Error() != want || out.Len() > 0 {
		t.Errorf("%v, wrote %q", err, out.String())
	}
	if err := Render(&out, report.Doc{}, CSV, Options{Section: "x"}); err == nil || !strings.HasSuffix(err.Error(), "it has none") {
		t.Error(err)
	}
}

type fullDisk struct{ room int }

func (d *fullDisk) Write(p []byte) (int, error) {
	if d.room -= len(p); d.room < 0 {
		return 0, os.ErrClosed
	}
	return len(p), nil
}

// The error of a write is not lost, wherever it happens.
func TestWriteErrors(t *testing.T) {
	d := manyRuns(200)
	for _, f := range []Format{Table, CSV, JSON, Markdown, HTML} {
		for _, room := range []int{0, 5000} {
			if err := Render(&fullDisk{room}, d, f, Options{}); !errors.Is(err, os.ErrClosed) {
				t.Errorf("%v with room for %d bytes: %v", f, room, err)
			}
		}
	}
}

// Nothing, and nothing below the last digit shown, is 0 and never -0.
func TestNoNegativeZero(t *testing.T) {
	tiny := exact.New(-1, 9)
	table := &report.Table{Columns: []report.Column{{Key: "id", Title: "Id"}, {Key: "figure", Title: "Figure", Bar: true}}}
	for _, v := range []report.Value{
		report.MoneyOf(exact.MoneyOf(tiny)), report.PriceOf(exact.RatioOf(tiny), exact.L), report.AmountOf(tiny, exact.Kg),
		report.QuotientOf(tiny.Over(num("3")), 2), report.MoneyOf(exact.MoneyOf(num("0").Neg())), report.QuotientOf(exact.RatioOf(num("0")).Neg(), 0),
		report.MoneyOf(exact.MoneyOf(num("999999999999999").Mul(num("999999999999999")).Neg().Mul(num("0")))),
	} {
		table.Rows = append(table.Rows, report.Row{Cells: []report.Value{report.TextOf("x"), v.Estimated()}})
	}
	d := report.Doc{Currency: exact.MustCurrency("EUR"), Fields: []report.Field{{Key: "rows", Title: "Rows", Node: table}}}
	for _, f := range []Format{Table, Markdown} {
		if out := rendered(t, d, f, Options{}); strings.Contains(out, "-0") {
			t.Errorf("%v has a negative zero:\n%s", f, out)
		}
	}
	for _, f := range []Format{CSV, JSON, HTML} {
		if out := rendered(t, d, f, Options{}); strings.Contains(out, "-0.00<") || strings.Contains(out, "-0.000000\"") || strings.Contains(out, "-0\"") || strings.Contains(out, "-0\n") {
			t.Errorf("%v has a negative zero:\n%s", f, out)
		}
	}
}

// An empty report, an empty table and a table for machines are no trouble.
func TestLittleToShow(t *testing.T) {
	machine := &report.Table{Columns: []report.Column{{Key: "a"}}, Rows: []report.Row{{Cells: []report.Value{report.CountOf(1)}}}}
	d := report.Doc{Fields: []report.Field{
		{Key: "none", Title: "None", Node: &report.Table{}}, {Key: "machine", Title: "For machines", Node: machine},
		{Key: "list", Title: "List", Node: report.List{}}, {Key: "series", Title: "Series", Node: &report.Series{}},
		{Title: "For people", Node: report.TextOf("hello")},
	}}
	for _, w := range []int{0, 1, 2, 7, 80} {
		got := rendered(t, d, Table, Options{Width: w, Chart: true})
		if joined := strings.Join(strings.Fields(got), ""); !strings.Contains(joined, "hello") {
			t.Errorf("width %d: %q", w, got)
		}
	}
	if got, want := rendered(t, report.Doc{}, JSON, Options{}), "{}\n"; got != want {
		t.Errorf("got %q", got)
	}
	want := "{\n  \"none\": [],\n  \"machine\": [\n    {\n      \"a\": 1\n    }\n  ],\n  \"list\": [],\n  \"series\": []\n}\n"
	if got := rendered(t, d, JSON, Options{}); got != want {
		t.Errorf("got %s", got)
	}
	for _, f := range []Format{CSV, Markdown, HTML} {
		rendered(t, d, f, Options{Chart: true})
	}
}

// A report without a table is keys and values in CSV, as JSON has them.
func TestCSVWithoutTable(t *testing.T) {
	d := report.Doc{Currency: exact.MustCurrency("JPY"), Notes: []string{"=a", "b"}, Fields: []report.Field{
		{Key: "buy", Title: "Buy", Node: report.CountOf(4)},
		{Key: "offer", Title: "Offer", Node: report.Object{{Key: "price", Title: "Price", Node: report.MoneyOf(exact.MustMoney("-98"))}}},
		{Key: "steps", Title: "Steps", Node: report.List{report.PlainOf(num("-1.5"))}},
		{Title: "For people", Node: report.TextOf("hello")},
	}}
	want := "key,value\ncurrency,JPY\nbuy,4\noffer.price,-98.0000\nsteps,-1.5\nnotes,'=a; b\n"
	if got := rendered(t, d, CSV, Options{}); got != want {
		t.Errorf("got %s", got)
	}
}

// A field of notes takes in the notes of the report.
func TestNotesMeet(t *testing.T) {
	d := report.Doc{Notes: []string{"of the report"}, Fields: []report.Field{
		{Key: report.NotesKey, Title: "Notes", Node: report.List{report.TextOf("of the field")}}}}
	want := "{\n  \"notes\": [\n    \"of the field\",\n    \"of the report\"\n  ]\n}\n"
	if got := rendered(t, d, JSON, Options{}); got != want {
		t.Errorf("got %s", got)
	}
}

// Colour adds to the text and changes nothing in it.
func TestColourOnlyAdds(t *testing.T) {
	for _, w := range []int{0, 30, 80} {
		o := Options{Width: w, Chart: true}
		plain := rendered(t, sampleDoc(), Table, o)
		o.Colour = true
		coloured := rendered(t, sampleDoc(), Table, o)
		stripped := strings.NewReplacer("\x1b[1m", "", "\x1b[2m", "", "\x1b[0m", "").Replace(coloured)
		if coloured == plain || stripped != plain {
			t.Errorf("width %d: colour changes the text:\n%s", w, coloured)
		}
	}
}

// A section without rows or words is left out among others; so is, where width
// is short, a column in which no row says anything, and nobody is told.
func TestWhatSaysNothingIsLeftOut(t *testing.T) {
	columns := []report.Column{{Key: "pack", Title: "pack"}, {Key: "place", Title: "place", Rank: 1}, {Key: "note", Title: "note", Rank: 2}}
	full := &report.Table{Columns: columns, Rows: []report.Row{{Cells: []report.Value{report.TextOf("r1-a"), report.None, report.TextOf("thick slices, dried twice")}}}}
	d := report.Doc{Title: "Packs", Fields: []report.Field{
		{Key: "packs", Title: "Packs in store", Node: full},
		{Key: "awaiting", Title: "Awaiting packing", Node: &report.Table{Columns: columns}},
	}}
	for _, format := range []Format{Table, Markdown, HTML} {
		var out strings.Builder
		if err := Render(&out, d, format, Options{Width: 33}); err != nil {
			t.Fatal(err)
		}
		if got := out.String(); strings.Contains(got, "Awaiting") || !strings.Contains(got, "thick slices, dried twice") {
			t.Errorf("%v shows\n%s", format, got)
		} else if format == Table && (strings.Contains(got, "place") || strings.Contains(got, "left out")) {
			t.Errorf("a column that says nothing takes room or words:\n%s", got)
		}
	}
}

// What a model spares people stands again as soon as a figure or a note of it
// counts, and always for machines.
func TestSpared(t *testing.T) {
	money := func(s string) report.Value { return report.MoneyOf(exact.MustMoney(s)) }
	render := func(other string, f Format, notes ...string) string {
		return rendered(t, report.Doc{Currency: exact.MustCurrency("EUR"), Fields: []report.Field{{Key: "rows", Title: "Rows", Node: &report.Table{
			Columns: []report.Column{{Key: "month", Title: "month"}, {Key: "food", Title: "food"}, {Key: "other", Title: "other", Spare: true}},
			Rows: []report.Row{
				{Cells: []report.Value{report.TextOf("March"), money("3"), money(other)}},
				{Cells: []report.Value{report.TextOf("April"), money("0"), money(other)}},
				{Cells: []report.Value{report.TextOf("May"), money("0"), report.None}, Spare: true, Notes: notes},
			},
			Totals: []report.Row{{Cells: []report.Value{report.TextOf("in all"), money("3"), money("0")}}},
		}}}}, f, Options{})
	}
	for _, f := range []Format{Table, Markdown, HTML} {
		if got := render("0", f); strings.Contains(got, "other") || strings.Contains(got, "May") || !strings.Contains(got, "April") {
			t.Errorf("%v shows what is idle, or leaves out what must stand:\n%s", f, got)
		}
		if got := render("0.001", f); !strings.Contains(got, "other") {
			t.Errorf("%v leaves out what counts:\n%s", f, got)
		}
		if got := render("0", f, "in doubt"); !strings.Contains(got, "May") || !strings.Contains(got, "in doubt") {
			t.Errorf("%v loses a note:\n%s", f, got)
		}
	}
	for _, f := range []Format{JSON, CSV} {
		if got := render("0", f); !strings.Contains(got, "May") || !strings.Contains(got, "other") && f == JSON {
			t.Errorf("%v leaves something out:\n%s", f, got)
		}
	}
}
