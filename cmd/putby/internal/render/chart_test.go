package render

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"putby/ledger/report"
	"putby/pricing/exact"
	"putby/pricing/locale"
)

// Bars are no wider than the terminal; a larger figure never has a shorter
// bar; the largest fills its side to within an eighth of a column.
func TestBarsKeepOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		room := rapid.IntRange(barsLeast, 80).Draw(t, "room")
		values := make([]*report.Value, rapid.IntRange(1, 8).Draw(t, "values"))
		for i := range values {
			v := drawValue(t, rapid.SampledFrom([]report.Kind{report.Money, report.UnitPrice}).Draw(t, "kind"))
			values[i] = &v
		}
		s, ok := newScale(values, room)
		if !ok {
			return
		}
		full := false
		for _, v := range values {
			n := s.eighths(v)
			if n > 8*s.right || -n > 8*s.left {
				t.Fatalf("%d eighths of a column on sides of %d and %d", n, s.left, s.right)
			}
			full = full || n == 8*s.right && s.right > 0 || -n == 8*s.left && s.left > 0
			for _, o := range values {
				if v.Ratio().Cmp(o.Ratio()) < 0 && n > s.eighths(o) {
					t.Fatalf("%v has a longer bar than %v", v.Ratio(), o.Ratio())
				}
			}
			for _, ascii := range []bool{false, true} {
				bar := (&terminal{pen: pen{ascii: ascii}}).bar(s, v)
				if Width(bar) > room || ascii && strings.Trim(bar, " |#") != "" {
					t.Fatalf("%q is %d wide of %d", bar, Width(bar), room)
				}
			}
		}
		if !full {
			t.Fatalf("no bar fills its side: %+v", s)
		}
	})
}

func TestBars(t *testing.T) {
	table := &report.Table{Columns: []report.Column{{Key: "month", Title: "Month"}, {Key: "saved", Title: "Saved", Bar: true}}}
	for _, m := range []string{"8", "-2", "0", "4", "0.5"} {
		table.Rows = append(table.Rows, report.Row{Cells: []report.Value{report.TextOf("month " + m), report.MoneyOf(exact.MustMoney(m))}})
	}
	d := report.Doc{Currency: exact.MustCurrency("EUR"), Fields: []report.Field{{Key: "rows", Title: "Rows", Node: table}}}
	got := rendered(t, d, Table, Options{Width: 38, Chart: true})
	_, got, _ = strings.Cut(got, "\n\n")
	_, got, _ = strings.Cut(got, "\n\n")
	want := `Saved
month 8     8.00      │███████████████
month -2   -2.00  ▐███│
month 0     0.00      │
month 4     4.00      │███████▌
month 0.5   0.50      │█
`
	if got != want {
		t.Errorf("got\n%s", got)
	}
}

// A line stays within its canvas, has its lowest and its highest figure on the
// lines that are labelled so, and leaves gaps where there is no figure.
func TestLines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := &report.Series{Steps: rapid.Bool().Draw(t, "steps")}
		day := exact.UnixDate(rapid.Int64Range(0, 20000).Draw(t, "first"))
		for range rapid.IntRange(1, 12).Draw(t, "points") {
			v := report.None
			if rapid.IntRange(0, 4).Draw(t, "gap") > 0 {
				v = drawValue(t, report.UnitPrice)
			}
			s.Points = append(s.Points, report.Point{Date: day, Value: v})
			day += exact.Date(rapid.IntRange(0, 400).Draw(t, "days"))
		}
		o := Options{Width: rapid.IntRange(10, 120).Draw(t, "width"), Chart: true, ASCII: rapid.Bool().Draw(t, "ascii")}
		term := terminal{shower: shower{currency: exact.MustCurrency("EUR")}, pen: penOf(o), opt: o}
		lines := term.lineChart(s)
		if len(lines) == 0 {
			return
		}
		for _, line := range lines {
			if Width(line) > o.Width {
				t.Fatalf("%d wide of %d: %q", Width(line), o.Width, line)
			}
		}
		low, high, _ := s.Range()
		marks := func(line, label string) string {
			_, drawn, ok := strings.Cut(line, label+" ")
			if !ok {
				t.Fatalf("%q lacks %s", line, label)
			}
			return strings.TrimSpace(drawn)
		}
		if high.Ratio().Cmp(low.Ratio()) > 0 {
			if marks(lines[0], term.phrase(high)) == "" || marks(lines[lineHeight-1], term.phrase(low)) == "" {
				t.Fatalf("an end of the range is not drawn:\n%s", strings.Join(lines, "\n"))
			}
		}
	})
}

// Dates are written longer in some places than in others: a line that they are too long
// for is not drawn.
func TestLineInEveryLocale(t *testing.T) {
	s := &report.Series{Points: []report.Point{
		{Date: exact.MustDate("2024-12-10"), Value: report.PlainOf(num("1"))}, {Date: exact.MustDate("2025-12-30"), Value: report.PlainOf(num("6"))},
	}}
	for _, tag := range locale.Tags() {
		for width := 20; width < 50; width++ {
			o := Options{Width: width, Chart: true}
			term := terminal{shower: shower{show: report.Show{Locale: locale.Must(tag)}}, pen: penOf(o), opt: o}
			lines := term.lineChart(s)
			for _, line := range lines {
				if Width(line) > width {
					t.Errorf("%s: %d wide of %d: %q", tag, Width(line), width, line)
				}
			}
			if len(lines) == 0 && width > 34 {
				t.Errorf("%s: no line is drawn in %d columns", tag, width)
			}
		}
	}
}

func TestLineASCII(t *testing.T) {
	s := &report.Series{}
	for _, p := range [][2]string{{"2024-01-01", "1"}, {"2024-01-11", "6"}, {"2024-01-21", "6"}, {"2024-01-31", "1"}} {
		s.Points = append(s.Points, report.Point{Date: exact.MustDate(p[0]), Value: report.PlainOf(num(p[1]))})
	}
	o := Options{Width: 33, Chart: true, ASCII: true}
	term := terminal{pen: penOf(o), opt: o}
	got := strings.Join(term.lineChart(s), "\n")
	want := `6          ************
         **            **
       **                **
     **                    **
   **                        **
1 *                            **
  2024-01-01 --------- 2024-01-31`
	if got != want {
		t.Errorf("got\n%s", got)
	}
}
