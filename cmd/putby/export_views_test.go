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
// every view against the program's own output, to the last digit: of the sample
// and the small ledger, of the sample in the middle of its records, and of a
// household that is made up.
func testViews(t *testing.T, load engine) {
	made := filepath.Join(t.TempDir(), "made-up")
	if err := ledgertest.Write(made, 7, 1); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ name, ledger, asOf string }{
		{"sample", "../../testdata/sample", "today"},
		{"small", "../../testdata/small", "today"},
		{"midway", "../../testdata/sample", "2025-06-11"},
		{"made up", made, "today"},
		{"made up midway", made, "2019-02-17"},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "tables")
			at := []string{"--ledger", c.ledger, "--as-of", c.asOf}
			told(t, append([]string{"export", dir}, at...))
			var queries []string
			for _, v := range views {
				queries = append(queries, "SELECT * FROM "+v.view)
			}
			results := load(t, dir, queries)
			for i, v := range views {
				command := append(strings.Fields(v.command), append(at, "--format", "json")...)
				holdRows(t, v.view, v.key, results[i], jsonRows(t, command))
			}
		})
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
