package tables

import (
	"bytes"
	"encoding/csv"
	"errors"
	"slices"
	"strings"
	"testing"

	"putby/ledger"
	"putby/ledger/ledgertest"
	"putby/pricing/exact"
)

// made is a household of ten years.
func made(t testing.TB) *Household {
	t.Helper()
	rec, faults, err := ledgertest.Read(ledgertest.Files(3, 1))
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	g, faults := ledger.Join(rec, ledger.Options{Brief: true})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	h, err := Of("made up", g, g)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// Every column says what it is; keys are there, and are those of tables before; no
// name is a word that SQL keeps for itself (ISO 9075, those of everyday language).
func TestSchema(t *testing.T) {
	reserved := strings.Fields("all and any as between by case check column create end for from group having in into is join " +
		"left not null of on or order primary references select set table then to union unique user using values when where with")
	seen := map[string]bool{}
	for _, table := range All() {
		names := map[string]bool{}
		for _, c := range table.Columns {
			if c.Help == "" || names[c.Name] || slices.Contains(reserved, c.Name) {
				t.Errorf("%s.%s has no help, is there twice or is a word of SQL", table.Name, c.Name)
			}
			if c.Refers != "" && !seen[c.Refers] {
				t.Errorf("%s.%s refers to %s, which does not come before it", table.Name, c.Name, c.Refers)
			}
			names[c.Name] = true
		}
		if seen[table.Name] = true; !table.Columns[0].Key || table.Help == "" {
			t.Errorf("%s has no key or no help", table.Name)
		}
	}
	text := Schema()
	if !strings.HasPrefix(text, SchemaBegins) || strings.Contains(text, "KEY AS") || strings.Contains(text, "EXPRESSION") {
		t.Error("the schema does not begin as it should, or a view is not filled in")
	}
}

// No key stands twice, and none is blank.
func TestKeys(t *testing.T) {
	h := made(t)
	for _, table := range All() {
		seen, rows := map[string]bool{}, 0
		for row := range table.Rows(h) {
			rows++
			if key := table.keyOf(row); seen[key] {
				t.Fatalf("%s has%s twice", table.Name, key)
			} else {
				seen[key] = true
			}
			for i, c := range table.Columns {
				if c.Key && row[i].Null {
					t.Fatalf("%s: %s is blank", table.Name, c.Name)
				}
			}
		}
		if rows == 0 {
			t.Errorf("%s has no rows", table.Name)
		}
	}
}

// The tables have all that the ledger posted, and no more: what lots cost, what runs
// took and lost, what packs carry and what left.
func TestSumsAreThoseOfTheLedger(t *testing.T) {
	h := made(t)
	f := &h.day.Flows
	sum := func(name, column string, where ...string) exact.Money {
		var total exact.Number
		table := All()[slices.IndexFunc(All(), func(t Table) bool { return t.Name == name })]
		at := func(column string) int {
			return slices.IndexFunc(table.Columns, func(c Column) bool { return c.Name == column })
		}
		for row := range table.Rows(h) {
			counts := true
			for i := 0; i < len(where); i += 2 {
				counts = counts && row[at(where[i])].Text == where[i+1]
			}
			if counts {
				total = total.Add(row[at(column)].Number)
			}
		}
		return exact.MoneyOf(total)
	}
	for _, c := range []struct {
		what       string
		have, want exact.Money
	}{
		{"lots", sum("lots", "cost"), f.Bought.Add(f.BatchCost).Add(sum("batches", "food"))},
		{"electricity of runs", sum("runs", "electricity"), f.Electricity},
		{"labour of runs", sum("runs", "labour"), f.Labour},
		{"electricity of their foods", sum("run_costs", "electricity").Add(sum("run_costs", "lost_electricity")), f.Electricity},
		{"food of loads", sum("loads", "food"), f.Food},
		{"lost", sum("run_costs", "lost"), f.Lost},
		{"lost by loads", sum("loads", "lost"), f.Lost},
		{"used", sum("draws", "cost", "kind", "pack", "reason", "used"), f.Out[ledger.Used]},
		{"missing", sum("draws", "cost", "kind", "pack", "reason", "missing"), f.Out[ledger.Missing]},
		{"in store", sum("packs", "in_store"), h.day.InStore()},
	} {
		if !c.have.Equal(c.want) {
			t.Errorf("%s come to %v, and the ledger posted %v", c.what, c.have, c.want)
		}
	}
}

// CSV of a row reads back as what was written, and a number that does not fit is
// refused with its row.
func TestCSVAndFit(t *testing.T) {
	h := made(t)
	table := All()[0]
	var out bytes.Buffer
	w, err := NewCSV(&out, &table)
	if err != nil {
		t.Fatal(err)
	}
	for row := range table.Rows(h) {
		if err := w.Write(row); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil || len(rows) != 2 || rows[1][0] != "made up" || rows[1][1] != "EUR" || rows[0][5] != "as_of" {
		t.Errorf("%q %v", rows, err)
	}
	column := money("price", func(r *row) exact.Money { return exact.Money{} }, "x")
	for _, c := range []struct {
		number string
		fits   bool
	}{{"999999999999999.999999999", true}, {"-999999999999999.999999999", true}, {"0.000000001", true}, {"0", true}} {
		if column.fits(exact.MustNumber(c.number)) != c.fits {
			t.Errorf("%s fits: %t", c.number, !c.fits)
		}
	}
	for _, n := range []exact.Number{exact.New(1, -15), exact.New(-1, -15), exact.New(1, 10)} {
		if column.fits(n) {
			t.Errorf("%v fits", n)
		}
	}
	wide := Table{Name: "wide", Columns: []Column{{Name: "household"}, {Name: "n", Key: true}, column.Column}}
	err = wide.fit([]Cell{{}, {Text: "7"}, {Number: exact.New(1, 10)}})
	if !errors.Is(err, ErrDigits) || !strings.Contains(err.Error(), "row 7 of the table wide") {
		t.Error(err)
	}
}

func BenchmarkRows(b *testing.B) {
	h := made(b)
	b.ReportAllocs()
	for b.Loop() {
		for _, table := range All() {
			for range table.Rows(h) {
			}
		}
	}
}
