package report_test

import (
	"strings"
	"testing"

	"putby/ledger/figures"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// shared is three runs that cost no electricity, of a machine that wears off
// 1.00 a run: a is 3 kg of peas beside 1 kg of mint, b 4 kg of peas of which 1
// was lost, c spoiled with 2 kg of mint. Shops ask 9.00 for a kg of peas and
// 12.00 for one of mint; each cost 2.00 fresh.
const shared = `-- foods.csv --
food,basis,serving,kcal,protein
peas,mass,100 g,81,5.42
mint,mass,10 g,44,3.29
-- machines.csv --
machine,cycles
m,30
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
r,2025-01-01,1,food,peas,9,1 kg,2.00
r,2025-01-01,2,food,mint,9,1 kg,2.00
r,2025-01-01,3,machine,m,1,,30.00
-- shelf.csv --
date,shop,item,size,price
2025-01-01,Mill,peas,1 kg,9.00
2025-01-01,Mill,mint,1 kg,12.00
-- runs.csv --
run,machine,start,end,kwh,outcome
a,m,2025-01-02 10:00,2025-01-02 12:00,0,
b,m,2025-01-03 10:00,2025-01-03 12:00,0,
c,m,2025-01-04 10:00,2025-01-04 12:00,0,spoiled
-- loads.csv --
run,item,quantity,lost
a,peas,3 kg,
a,mint,1 kg,
b,peas,4 kg,1 kg
c,mint,2 kg,
-- packs.csv --
pack,run,item,date,count,each
pa,a,peas,2025-01-03,3,1 kg
ma,a,mint,2025-01-03,1,1 kg
pb,b,peas,2025-01-05,3,1 kg
`

// By hand, wear left out. Peas: a saves 3 x 9 - 6 = 21 as three quarters of a
// run, b 3 x 9 - 6 = 21 less 2 lost: 40 in 1.75 runs, 22.857142857143 each. Mint:
// a saves 12 - 2 = 10 as a quarter of a run, c loses 4: 6 in 1.25 runs, 4.80
// each. In all 46 in 3 runs, 15.333333333333 each; the runs earned 31, 19 and -4.
// Payback, worth machine and compare say the same.
func TestWhatARunEarnsIsOneFigure(t *testing.T) {
	dir := write(t, shared)
	d := payback(t, join(t, dir, date("2025-01-31")), nil)
	foods := table(t, d, "foods")
	// Nothing is used yet, and 6.00 were lost: 36.00 are left of 30.00.
	wants(t, foods, 0, map[string]string{"item": "peas", "runs": "2", "whole_runs": "1.750000000000", "earned": "40.000000000000", "per_run": "22.857142857143", "runs_to_pay": "2"})
	wants(t, foods, 1, map[string]string{"item": "mint", "runs": "2", "whole_runs": "1.250000000000", "earned": "6.000000000000", "per_run": "4.800000000000", "runs_to_pay": "8"})
	wants(t, table(t, compared(t, whole(t, dir, exact.NoDate), func(q *figures.CompareQuery) { q.Rank = rank(t, "per_run") }), "spread"), 0,
		map[string]string{"item": "peas", "per_run": "22.857142857143"})
	wants(t, table(t, compared(t, whole(t, dir, exact.NoDate), func(q *figures.CompareQuery) { q.Rank = rank(t, "per_run") }), "spread"), 1,
		map[string]string{"item": "mint", "per_run": "4.800000000000"})
	m := machineOf(t, dir, question.MachineTexts{Price: "92", Cycles: "10"})
	worthFigures(t, m, map[string]string{"saving_per_cycle": "15.333333333333", "runs": "3", "pays_after": "6"})
	for i, want := range map[int]string{1: "-4.000000000000", 3: "19.000000000000", 5: "31.000000000000"} {
		wants(t, table(t, m, "range"), i, map[string]string{"saving_per_cycle": want})
	}
}

// One food of a run that tells nothing leaves the other as it is, by its share;
// such a run is no case of its own.
func TestWhatPartOfARunEarns(t *testing.T) {
	text := strings.Replace(shared, "2025-01-01,Mill,mint,1 kg,12.00\n", "", 1)
	dir := write(t, text)
	d := payback(t, join(t, dir, date("2025-01-31")), nil)
	wants(t, table(t, d, "foods"), 0, map[string]string{"item": "peas", "whole_runs": "1.750000000000", "per_run": "22.857142857143"})
	wants(t, table(t, d, "foods"), 1, map[string]string{"item": "mint", "runs": "1", "whole_runs": "1.000000000000", "per_run": "-4.000000000000", "runs_to_pay": ""})
	if !noted(d.Notes, "no fresh shelf price of mint is known: what it earns is left out") {
		t.Errorf("notes: %q", d.Notes)
	}
	m := machineOf(t, dir, question.MachineTexts{Price: "92", Cycles: "10"})
	worthFigures(t, m, map[string]string{"saving_per_cycle": "13.090909090909", "runs": "3"}) // 36 in 2.75 runs
	if cases := table(t, m, "range"); len(cases.Rows) != 6 || cell(t, cases, 1, "saving_per_cycle").Exact(euro) != "-4.000000000000" || cell(t, cases, 5, "saving_per_cycle").Exact(euro) != "19.000000000000" {
		t.Errorf("cases: %v", cases.Rows)
	}
}

// On the sample the three reports agree on what a run earns.
func TestEarningsAgreeOnTheSample(t *testing.T) {
	d, c := payback(t, join(t, sample, exact.NoDate), nil), compared(t, whole(t, sample, exact.NoDate), nil)
	foods, spread := table(t, d, "foods"), table(t, c, "spread")
	if len(foods.Rows) < 8 {
		t.Fatalf("%d foods: that tests little", len(foods.Rows))
	}
	var earned, runs exact.Ratio
	for i := range foods.Rows {
		item := cell(t, foods, i, "item").Text()
		if have, want := cell(t, spread, find(t, spread, "item", item), "per_run").Ratio(), cell(t, foods, i, "per_run").Ratio(); !have.Equal(want) {
			t.Errorf("a run of %s earns %v in compare, %v in payback", item, have, want)
		}
		earned, runs = earned.Add(cell(t, foods, i, "earned").Ratio()), runs.Add(cell(t, foods, i, "whole_runs").Ratio())
	}
	m := machineOf(t, sample, question.MachineTexts{Price: "100", Cycles: "100"})
	if have, want := part[report.Value](t, m, "saving_per_cycle").Ratio(), earned.Quo(runs); !have.Equal(want) {
		t.Errorf("a run saves %v, want %v", have, want)
	}
}
