package main

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"putby/cmd/putby/internal/parquet"
	"putby/ledger/ledgertest"
	"putby/ledger/tables"
	"putby/pricing/exact"
)

// TestExportOfParquet loads both formats of exports into DuckDB, and compares every
// row of every table; the household has a name that folders write otherwise.
func TestExportOfParquet(t *testing.T) {
	if ledgertest.Small() {
		t.Skip("starting a database takes seconds")
	}
	modules := duckDBModules(t)
	home := filepath.Join(t.TempDir(), "50%=Haus/ #1 Übersee")
	if err := ledgertest.Write(home, 5, 1); err != nil {
		t.Fatal(err)
	}
	var queries []string
	for _, table := range tables.All() {
		queries = append(queries, "SELECT * FROM "+table.Name)
	}
	queries = append(queries, "SELECT * FROM month", "SELECT * FROM compare")
	for _, ledger := range []string{"../../testdata/sample", home} {
		results := map[string][][]map[string]string{}
		for _, format := range []string{"csv", "parquet"} {
			dir := filepath.Join(t.TempDir(), format)
			told(t, []string{"export", dir, "--format", format, "--ledger", ledger})
			results[format] = inDuckDB(t, modules, dir, queries)
		}
		for i, query := range queries {
			have, want := inSomeOrder(results["parquet"][i]), inSomeOrder(results["csv"][i])
			if !slices.Equal(have, want) {
				t.Errorf("%s, %s: Parquet has %d rows, CSV %d, and they are not the same", ledger, query, len(have), len(want))
			}
			if len(want) == 0 {
				t.Errorf("%s, %s: no rows", ledger, query)
			}
		}
	}
}

// inSomeOrder writes rows in an order that depends on nothing but them.
func inSomeOrder(rows []map[string]string) []string {
	list := make([]string, len(rows))
	for i, row := range rows {
		list[i] = fmt.Sprint(row)
	}
	slices.Sort(list)
	return list
}

// TestParquetInDuckDB writes values of every type, blank ones and the largest among
// them, in more rows than are written together, and has DuckDB read them back.
func TestParquetInDuckDB(t *testing.T) {
	if ledgertest.Small() {
		t.Skip("starting a database takes seconds")
	}
	modules := duckDBModules(t)
	rng := rand.New(rand.NewPCG(3, 4))
	columns := []parquet.Column{
		{Name: "n", Type: parquet.Whole, Need: true}, {Name: "txt", Type: parquet.Text}, {Name: "whole", Type: parquet.Whole},
		{Name: "small", Type: parquet.Decimal, Digits: 5, Places: 2}, {Name: "wide", Type: parquet.Decimal, Digits: 38, Places: 24},
		{Name: "day", Type: parquet.Date}, {Name: "moment", Type: parquet.Moment},
	}
	dir := t.TempDir()
	f, err := os.Create(filepath.Join(dir, "all.parquet"))
	if err != nil {
		t.Fatal(err)
	}
	w, err := parquet.NewWriter(f, columns)
	if err != nil {
		t.Fatal(err)
	}
	const rows = 70_000
	want := map[string][]string{}
	for n := range rows {
		row := []parquet.Value{{Int: int64(n)}}
		texts := []string{fmt.Sprint(n)}
		for _, c := range columns[1:] {
			v, text := someValue(rng, c)
			row, texts = append(row, v), append(texts, text)
		}
		if err := w.Add(row); err != nil {
			t.Fatal(err)
		}
		want[texts[0]] = texts
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	var parts []string
	for _, c := range columns {
		parts = append(parts, c.Name)
	}
	got := inDuckDB(t, modules, dir, []string{"SELECT " + strings.Join(parts, ", ") + " FROM 'all.parquet'"})[0]
	if len(got) != rows {
		t.Fatalf("%d rows are read, of %d", len(got), rows)
	}
	for _, row := range got {
		for i, text := range want[row["n"]] {
			if have := row[columns[i].Name]; have != text {
				t.Fatalf("row %s: %s is %q, want %q", row["n"], columns[i].Name, have, text)
			}
		}
	}
}

// someValue makes a value up, and says how DuckDB prints it.
func someValue(rng *rand.Rand, c parquet.Column) (parquet.Value, string) {
	if rng.IntN(4) == 0 {
		return parquet.Value{Blank: true}, ""
	}
	switch c.Type {
	case parquet.Text:
		s := [...]string{"=1+1", "Müller", `a "b", c`, "two\nlines", "\\.", strings.Repeat("é", rng.IntN(300)+1)}[rng.IntN(6)]
		return parquet.Value{Text: s}, s
	case parquet.Whole:
		n := rng.Int64() - rng.Int64()
		return parquet.Value{Int: n}, fmt.Sprint(n)
	case parquet.Date:
		n := rng.Int64N(100_000) - 20_000
		return parquet.Value{Int: n}, exact.UnixDate(n).String()
	case parquet.Moment:
		at := time.Unix(rng.Int64N(4e9)-1e9, 0).UTC()
		return parquet.Value{Int: at.Unix()}, at.Format(time.DateTime)
	}
	digits := exact.Int(0)
	for range rng.IntN(c.Digits) + 1 {
		digits = digits.Mul(exact.Int(10)).Add(exact.Int(9 - rng.Int64N(2)*rng.Int64N(10)))
	}
	if rng.IntN(2) == 0 {
		digits = digits.Neg()
	}
	n := digits.Mul(exact.New(1, c.Places))
	return parquet.Value{Number: n}, n.Fixed(c.Places)
}
