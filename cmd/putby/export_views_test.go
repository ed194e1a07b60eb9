package main

import (
	"encoding/json"
	"fmt"
	"maps"
	"math/big"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"putby/ledger/ledgertest"
)

// views are what an export's schema gives again, and the commands that say it.
// What a command has beside the view's columns is notes, and what sums never have.
var views = []struct{ view, command, key string }{
	{"cost_by_item", "cost --by item", "item"},
	{"cost_by_month", "cost --by month", "month"},
	{"cost_by_machine", "cost --by machine", "machine"},
	{"month", "month", "month"},
	{"compare", "compare", "item"},
}

// An engine is a database: it loads an export and returns the rows that queries
// give, by name of column; what is null is not in a row.
type engine func(t *testing.T, dir string, queries []string) [][]map[string]string

// testViews loads exports into databases of an engine, and holds every row of
// every view against the program's own output, to the last digit: of the sample,
// the small ledger and a household that is made up, side by side in one database;
// and of two of them in the middle of their records.
func testViews(t *testing.T, load engine) {
	all := t.TempDir()
	for _, name := range []string{"sample", "small"} {
		if err := os.CopyFS(filepath.Join(all, name), os.DirFS("../../testdata/"+name)); err != nil {
			t.Fatal(err)
		}
	}
	made := filepath.Join(all, "made-up")
	if err := ledgertest.Write(made, 7, 1); err != nil {
		t.Fatal(err)
	}
	households := []string{"sample", "small", "made-up"}
	holdViews(t, load, []string{"--households", all}, all, households, "today")
	holdViews(t, load, []string{"--ledger", filepath.Join(all, "sample")}, all, households[:1], "2025-06-11")
	holdViews(t, load, []string{"--ledger", made}, all, households[2:], "2019-02-17")
}

// holdViews loads one export, and holds the rows of its households against their
// reports.
func holdViews(t *testing.T, load engine, of []string, all string, households []string, asOf string) {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "tables")
	told(t, append([]string{"export", dir, "--as-of", asOf}, of...))
	var queries []string
	for _, name := range households {
		for _, v := range views {
			queries = append(queries, "SELECT * FROM "+v.view+" WHERE household = '"+name+"'")
		}
	}
	results := load(t, dir, queries)
	for _, name := range households {
		for _, v := range views {
			command := append(strings.Fields(v.command), "--ledger", filepath.Join(all, name), "--as-of", asOf, "--format", "json")
			holdRows(t, name+" "+v.view, v.key, results[0], jsonRows(t, command))
			results = results[1:]
		}
	}
}

// jsonRows are the rows that a command prints.
func jsonRows(t *testing.T, command []string) []map[string]any {
	t.Helper()
	var doc struct{ Rows []map[string]any }
	d := json.NewDecoder(strings.NewReader(told(t, command)))
	d.UseNumber()
	if err := d.Decode(&doc); err != nil {
		t.Fatal(err)
	}
	if len(doc.Rows) == 0 {
		t.Fatalf("%v has no rows", command)
	}
	return doc.Rows
}

// holdRows holds the rows of a view against those of a report.
func holdRows(t *testing.T, view, key string, have []map[string]string, want []map[string]any) {
	t.Helper()
	name := func(key, unit string) string { return strings.TrimSuffix(key, "-01") + " " + unit }
	byKey := map[string]map[string]string{}
	for _, row := range have {
		k := row[key]
		if key == "month" {
			k = k[:len("2025-06")] // the view has its first day
		}
		byKey[name(k, row["unit"])] = row
	}
	if len(byKey) != len(want) || len(have) != len(want) {
		t.Errorf("%s has %d rows, want %d", view, len(have), len(want))
	}
	figures := 0
	for _, w := range want {
		unit, _ := w["unit"].(string)
		k := name(fmt.Sprint(w[key]), unit)
		row := byKey[k]
		if row == nil {
			t.Errorf("%s has no row of %s", view, k)
			continue
		}
		for _, column := range slices.Sorted(maps.Keys(w)) {
			if column == key || column == "notes" || column == "hours" && w[column] == nil {
				continue
			}
			figures++
			if have, want := row[column], w[column]; !sameFigure(have, want) {
				t.Errorf("%s, %s: %s is %q, and the report says %v", view, k, column, have, want)
			}
		}
	}
	if figures < 5*len(want) {
		t.Errorf("%s: only %d figures were compared", view, figures)
	}
}

// sameFigure compares a cell with a value of JSON: numbers as numbers.
func sameFigure(have string, want any) bool {
	if want == nil {
		return have == ""
	}
	text := fmt.Sprint(want)
	if text == have {
		return true
	}
	a, ok := new(big.Rat).SetString(have)
	b, too := new(big.Rat).SetString(text)
	return ok && too && a.Cmp(b) == 0
}

// lacking skips a test for want of a program, but where it is to be there.
func lacking(t *testing.T, program, how string) {
	t.Helper()
	if os.Getenv("ENGINES") != "" { // as .ci/run sets it, which installs them
		t.Fatalf("there is no %s: %s", program, how)
	}
	t.Skipf("there is no %s here, so nothing is loaded into it: %s", program, how)
}
