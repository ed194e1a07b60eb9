package report_test

import (
	"errors"
	"strings"
	"testing"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing/exact"
)

func traced(t testing.TB, g *ledger.Ledger, name, line string) report.Doc {
	t.Helper()
	d, err := question.Trace(g, figures.TraceQuery{Name: name, Line: line})
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Check(); err != nil {
		t.Fatal(err)
	}
	return d
}

// column lists the texts of a column, but nulls.
func column(t testing.TB, tab *report.Table, key string) string {
	t.Helper()
	var list []string
	for i := range tab.Rows {
		if v := cell(t, tab, i, key); !v.IsNull() {
			list = append(list, v.Exact(euro))
		}
	}
	return strings.Join(list, " ")
}

// The soup of receipt r2: 1.4 of 5.6 L eaten fresh, 4.2 L dried, one of five
// containers used.
func TestTraceSmall(t *testing.T) {
	g := whole(t, small, exact.NoDate)
	d := traced(t, g, "r2", "1")
	wants(t, table(t, d, "packs"), 0, map[string]string{"pack": "d1-a", "item": "tomato-soup", "run": "d1", "count": "5", "in_store": "4", "used": "1",
		"given": "0", "place": "shelf", "best_by": "2026-09-04", "where": "packs.csv:2"})
	draws := table(t, d, "draws")
	wants(t, draws, 0, map[string]string{"date": "2025-03-02", "pack": "", "quantity": "1.4", "unit": "L", "where": "draws.csv:2"})
	wants(t, draws, 1, map[string]string{"date": "2025-03-20", "pack": "d1-a", "quantity": "1", "unit": "containers", "where": "draws.csv:3"})
	wants(t, table(t, d, "runs"), 0, map[string]string{"run": "d1", "loaded": "4.2", "of_it": "4.2", "where": "runs.csv:2"})
	wants(t, table(t, d, "lines"), 0, map[string]string{"receipt": "r2", "line": "1", "cost": "13.070000", "where": "receipts.csv:7"})
	if d.Words[0] != "5 containers of 1 pack: 4 in store, 1 used, 0 given, 0 spoiled, 0 missing." {
		t.Errorf("says %q", d.Words[0])
	}
	for _, words := range []string{"the books take the oldest first", "the food-safety authority", "Bring to the boil"} {
		if !noted(d.Foot(), words) {
			t.Errorf("no note has %q", words)
		}
	}
}

func TestTraceBackSmall(t *testing.T) {
	g := whole(t, small, exact.NoDate)
	d := traced(t, g, "d1-a", "")
	sources := table(t, d, "sources")
	for item, want := range map[string]map[string]string{
		"tomato-soup": {"for": "food", "quantity": "4.2", "unit": "L", "source": "r2", "line": "1", "shop": "Corner shop", "where": "receipts.csv:7"},
		"dryer":       {"for": "a cycle of the machine's life", "quantity": "1", "source": "r1", "line": "1"},
		"oil":         {"for": "in the run", "quantity": "1", "source": "r1", "line": "4"},
		"jar":         {"for": "on the pack", "quantity": "5", "source": "r1", "line": "2"},
		"absorber":    {"for": "on the pack", "quantity": "5", "source": "r1", "line": "3"},
	} {
		wants(t, sources, find(t, sources, "item", item), want)
	}
	// 4 kWh of the night are at 0.10, 9.8 kWh of the day at 0.20.
	bands := table(t, d, "electricity")
	wants(t, bands, 0, map[string]string{"tariff": "duo", "kwh": "4.000000000000", "rate": "0.1", "tax": "20", "where": "tariffs.csv:2"})
	wants(t, bands, 1, map[string]string{"kwh": "9.800000000000", "rate": "0.2", "where": "tariffs.csv:3"})
	if have := column(t, table(t, traced(t, g, "d1", ""), "packs"), "pack"); have != "d1-a" {
		t.Errorf("from its run to %q", have)
	}
}

// Milk becomes curd, curd becomes cake; the cake of the second batch holds the
// milk of both receipts, and a jar of it was given away.
const batches = `-- foods.csv --
food,basis,caution
milk,volume,
curd,mass,
cake,mass,Keep it cold.
-- machines.csv --
machine,cycles
m,10
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,milk,5,1 L,1.00
a,2025-01-01,2,other,string,,,1.00
b,2025-01-02,1,food,milk,5,1 L,1.00
-- batches.csv --
batch,date,item,quantity,from
curd-1,2025-01-03,curd,1 kg,4 L milk
curd-2,2025-01-03,curd,1 kg,4 L milk
cake-1,2025-01-04,cake,2 kg,0.5 kg curd
cake-2,2025-01-05,cake,2 kg,1 kg curd
-- runs.csv --
run,machine,start,end,kwh
1,m,2025-01-04 20:00,2025-01-04 22:00,0
2,m,2025-01-05 20:00,2025-01-05 22:00,0
-- loads.csv --
run,item,quantity,receipt
1,cake,2 kg,cake-1
2,cake,1.5 kg,cake-2
-- packs.csv --
pack,run,item,date,count,each
p1,1,cake,2025-01-06,4,500 g
p2,2,cake,2025-01-06,3,500 g
-- draws.csv --
date,pack,item,quantity,reason,note
2025-01-07,p2,,1,given,to Oda
2025-01-07,,milk,1 L,used,
`

func TestTraceThroughBatches(t *testing.T) {
	g := whole(t, write(t, batches), exact.NoDate)
	for _, c := range []struct{ name, line, packs, batches, draws, hand string }{
		{"a", "1", "p1 p2", "curd-1 curd-2 cake-1 cake-2", "2025-01-07", "curd cake"},
		{"b", "1", "p2", "curd-2 cake-2", "2025-01-07 2025-01-07", "milk curd cake"},
		{"curd-1", "", "p1 p2", "curd-1 cake-1 cake-2", "2025-01-07", "cake"},
		{"curd-2", "", "p2", "curd-2 cake-2", "2025-01-07", "curd cake"},
		{"cake-2", "", "p2", "cake-2", "2025-01-07", "cake"},
		{"a", "2", "", "", "", ""},
	} {
		d := traced(t, g, c.name, c.line)
		for key, want := range map[string][2]string{
			"packs": {"pack", c.packs}, "batches": {"batch", c.batches}, "draws": {"date", c.draws}, "in_hand": {"item", c.hand},
		} {
			if have := column(t, table(t, d, key), want[0]); have != want[1] {
				t.Errorf("%s %s: %s are %q, want %q", c.name, c.line, key, have, want[1])
			}
		}
	}
	d := traced(t, g, "b", "1")
	draws := table(t, d, "draws")
	wants(t, draws, find(t, draws, "pack", "p2"), map[string]string{"reason": "given", "note": "to Oda"})
	if !noted(d.Foot(), "Keep it cold.") {
		t.Error("the caution is not printed")
	}
	if lines := table(t, traced(t, g, "a", ""), "lines"); !noted(lines.Rows[1].Notes, "spending only") {
		t.Errorf("notes of string: %q", lines.Rows[1].Notes)
	}
}

// By way of its batches a pack comes from both receipts.
func TestTraceBackThroughBatches(t *testing.T) {
	sources := table(t, traced(t, whole(t, write(t, batches), exact.NoDate), "p2", ""), "sources")
	for _, want := range []map[string]string{
		{"source": "batch cake-2", "via": "", "quantity": "1.5", "unit": "kg"},
		{"source": "batch curd-1", "via": "cake-2", "quantity": "0.5"},
		{"source": "batch curd-2", "via": "cake-2", "quantity": "0.5"},
		{"source": "b", "via": "curd-2", "quantity": "3", "unit": "L"},
	} {
		wants(t, sources, find(t, sources, "source", want["source"]), want)
	}
	if have := column(t, sources, "via"); have != "cake-2 curd-1 cake-2 curd-2 curd-2" {
		t.Errorf("by way of %q", have)
	}
}

// Forward is the inverse of back: a pack holds a receipt's line, or a batch,
// exactly when that is among what the pack came from.
func TestTraceForwardIsInverseOfBack(t *testing.T) {
	average := strings.ReplaceAll(settings, "format,1", "format,1\ncosting,average") + threeUnits
	for _, dir := range []string{small, sample, write(t, batches), write(t, threeUnits), write(t, average)} {
		g := whole(t, dir, exact.NoDate)
		back := map[string]map[string]bool{}
		for _, p := range g.Records.Packs.All() {
			sources := table(t, traced(t, g, p.ID, ""), "sources")
			back[p.ID] = map[string]bool{}
			for i := range sources.Rows {
				line := cell(t, sources, i, "line").Text()
				back[p.ID][strings.TrimPrefix(cell(t, sources, i, "source").Text(), "batch ")+":"+line] = true
			}
		}
		check := func(name, line string) {
			holds := map[string]bool{}
			packs := table(t, traced(t, g, name, line), "packs")
			for i := range packs.Rows {
				holds[cell(t, packs, i, "pack").Text()] = true
			}
			for pack, from := range back {
				if holds[pack] != from[name+":"+line] {
					t.Errorf("%s: %s line %s is on pack %s forward %v, back %v", dir, name, line, pack, holds[pack], from[name+":"+line])
				}
			}
		}
		for _, r := range g.Receipts.All() {
			if r.Kind.Bought() && r.Kind != ledger.ServiceLine {
				check(r.Receipt, r.Number)
			}
		}
		for _, b := range g.Batches {
			check(b.ID, "")
		}
	}
}

// The counts of the recall are those of the pack: in store, used, given,
// spoiled and missing are all of them, at any date.
func TestTraceCounts(t *testing.T) {
	for _, asOf := range monthEnds(t)[5:] {
		g := join(t, sample, asOf)
		for i, p := range g.Records.Packs.All() {
			if !g.Packs[i].Done {
				continue
			}
			packs := table(t, traced(t, g, p.ID, ""), "packs")
			sum := exact.Ratio{}
			for _, key := range []string{"in_store", "used", "given", "spoiled", "missing"} {
				sum = sum.Add(cell(t, packs, 0, key).Ratio())
			}
			if want := cell(t, packs, 0, "count").Ratio(); !sum.Equal(want) {
				t.Errorf("as of %v: %s counts %v of %v", asOf, p.ID, sum, want)
			}
		}
	}
}

func TestTraceNames(t *testing.T) {
	g := whole(t, small, exact.NoDate)
	for _, c := range []struct{ name, line, kind, want string }{
		{"nobody", "", "", "pack, run, batch or receipt"},
		{"d1", "", "pack", "no pack called"},
		{"r2", "9", "", "line of receipt r2"},
	} {
		_, err := question.Trace(g, figures.TraceQuery{Name: c.name, Line: c.line, Kind: c.kind})
		var unknown *figures.UnknownError
		if !errors.As(err, &unknown) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s %s %s: %v", c.kind, c.name, c.line, err)
		}
	}
	early := join(t, small, date("2025-03-02"))
	if _, err := question.Trace(early, figures.TraceQuery{Name: "d1-a"}); err == nil {
		t.Error("a pack is known before it was packed")
	}
	twice := whole(t, write(t, strings.ReplaceAll(batches, "p1,1,cake", "a,1,cake")), exact.NoDate)
	if _, err := question.Trace(twice, figures.TraceQuery{Name: "a"}); question.OptionOf(err).Field != "kind" {
		t.Errorf("a name of a pack and a receipt: %v", err)
	}
	for _, kind := range []string{"pack", "receipt"} {
		if _, err := question.Trace(twice, figures.TraceQuery{Name: "a", Kind: kind}); err != nil {
			t.Errorf("the %s a: %v", kind, err)
		}
	}
	for _, q := range []figures.TraceQuery{{Name: "d1", Line: "1"}, {Name: "d1", Kind: "jar"}} {
		if _, err := question.Trace(g, q); !errors.Is(err, question.ErrOption) {
			t.Errorf("%+v: %v", q, err)
		}
	}
}
