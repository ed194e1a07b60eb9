package report_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/report"
	"putby/pricing/exact"
)

const (
	small  = "../../testdata/small"
	sample = "../../testdata/sample"
)

// join loads the ledger in dir as reports on a date do.
func join(t testing.TB, dir string, asOf exact.Date) *ledger.Ledger {
	t.Helper()
	g, faults, err := folder.Load(dir, ledger.Options{Through: asOf, PricesThrough: asOf})
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	return g
}

// whole loads the ledger in dir as reports on whole runs do.
func whole(t testing.TB, dir string, pricesThrough exact.Date) *ledger.Ledger {
	t.Helper()
	g, faults, err := folder.Load(dir, ledger.Options{Through: exact.NoDate, PricesThrough: pricesThrough, Itemize: true})
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	return g
}

// settings are those of a ledger that write makes.
const settings = "-- settings.csv --\nsetting,value\nformat,1\ncurrency,EUR\nzone,Europe/Ljubljana\ntariff,flat\n"

// write makes a ledger of files written after "-- name --" lines; later ones
// stand in for earlier ones of the same name.
func write(t testing.TB, text string) string {
	t.Helper()
	dir := t.TempDir()
	files := map[string]string{}
	for _, part := range strings.Split(settings+"-- tariffs.csv --\ntariff,rate\nflat,0.25\n"+text, "-- ")[1:] {
		name, body, _ := strings.Cut(part, " --\n")
		files[name] = body
	}
	for name, body := range files {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(body), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// part returns a part of a report by its key.
func part[N report.Node](t testing.TB, d report.Doc, key string) N {
	t.Helper()
	for _, f := range d.Fields {
		if f.Key == key {
			return f.Node.(N)
		}
	}
	t.Fatalf("%s has no part %s", d.Title, key)
	panic("unreachable")
}

func table(t testing.TB, d report.Doc, key string) *report.Table {
	t.Helper()
	return part[*report.Table](t, d, key)
}

// cell returns the value of a row under a column's key.
func cell(t testing.TB, tab *report.Table, row int, key string) report.Value {
	t.Helper()
	i := slices.IndexFunc(tab.ValueColumns(), func(c report.Column) bool { return c.Key == key })
	if i < 0 || row >= len(tab.Rows) {
		t.Fatalf("no cell %s of row %d", key, row)
	}
	return tab.Rows[row].Cells[i]
}

// find returns the first row whose cell under key is the text.
func find(t testing.TB, tab *report.Table, key, text string) int {
	t.Helper()
	for i := range tab.Rows {
		if cell(t, tab, i, key).Text() == text {
			return i
		}
	}
	t.Fatalf("no row has %s %s", key, text)
	return -1
}

// value returns a value of an object.
func value(t testing.TB, o report.Object, key string) report.Value {
	t.Helper()
	for _, f := range o {
		if f.Key == key {
			return f.Node.(report.Value)
		}
	}
	t.Fatalf("no value %s", key)
	return report.None
}

var euro = exact.MustCurrency("EUR")

// wants holds cells of a row against what they are in machine formats, "" for
// null.
func wants(t testing.TB, tab *report.Table, row int, want map[string]string) {
	t.Helper()
	for key, w := range want {
		if have := cell(t, tab, row, key).Exact(euro); have != w {
			t.Errorf("%s of row %d is %q, want %q", key, row, have, w)
		}
	}
}

func date(s string) exact.Date { return exact.MustDate(s) }

func ratio(s string) exact.Ratio { return exact.RatioOf(exact.MustNumber(s)) }

// noted reports whether a note has some words in it.
func noted(notes []string, words string) bool {
	return slices.ContainsFunc(notes, func(n string) bool { return strings.Contains(n, words) })
}

// keys returns the machine keys of a table.
func keys(tab *report.Table) (list []string) {
	for _, c := range tab.Columns {
		if c.Key != "" {
			list = append(list, c.Key)
		}
	}
	return list
}

// months returns the last day of each month of the sample and the day of its
// last record.
func monthEnds(t testing.TB) (list []exact.Date) {
	t.Helper()
	for d := date("2024-09-01"); d < date("2025-12-01"); d = d.AddMonths(1) {
		list = append(list, d.AddMonths(1).AddDays(-1))
	}
	return list
}

// span reads "3 to 5".
func span(t testing.TB, text string) (first, last int) {
	t.Helper()
	if _, err := fmt.Sscanf(text, "%d to %d", &first, &last); err != nil {
		t.Fatal(err)
	}
	return first, last
}

// asked is a report on a ledger by a query of which nothing is given but what is
// changed.
func asked[Q any](t testing.TB, g *ledger.Ledger, change func(*Q), build func(*ledger.Ledger, Q) (report.Doc, error)) report.Doc {
	t.Helper()
	var q Q
	if change != nil {
		change(&q)
	}
	d, err := build(g, q)
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Check(); err != nil {
		t.Fatal(err)
	}
	return d
}
