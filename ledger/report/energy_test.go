package report_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing/exact"
)

func energyOf(t testing.TB, g *ledger.Ledger, change func(*figures.EnergyQuery)) report.Doc {
	t.Helper()
	return asked(t, g, change, question.Energy)
}

// A metered run is what it was loaded with and what it used.
type metered struct{ load, kwh, rest string }

// runsOf is a ledger of metered runs of peas, three days apart.
func runsOf(list []metered) string {
	var runs, loads strings.Builder
	for i, m := range list {
		day := date("2024-01-01").AddDays(3 * i)
		fmt.Fprintf(&runs, "r%d,m,%v 08:00,%v 20:00,%s,\n", i, day, day, m.kwh)
		fmt.Fprintf(&loads, "r%d,peas,%s kg,%s\n", i, m.load, m.rest)
	}
	return `-- foods.csv --
food,basis
peas,mass
beans,mass
-- machines.csv --
machine,cycles
m,1000
other,10
-- receipts.csv --
receipt,date,line,kind,item,size,price
a,2024-01-01,1,food,peas,99999 kg,9.00
a,2024-01-01,2,food,beans,9 kg,9.00
-- runs.csv --
run,machine,start,end,kwh,outcome
` + runs.String() + "-- loads.csv --\nrun,item,quantity,wet,dry\n" + loads.String()
}

// NIST StRD, linear regression, Norris: 36 points, here as loads and kWh of runs;
// certified intercept -0.262323073774029 and slope 1.00211681802045.
func TestEnergyNorris(t *testing.T) {
	x := strings.Fields(`0.2 337.4 118.2 884.6 10.1 226.5 666.3 996.3 448.6 777.0 558.2 0.4 0.6 775.5 666.9 338.0 447.5 11.6 556.0
		228.1 995.8 887.6 120.2 0.3 0.3 556.8 339.1 887.2 999.0 779.0 11.1 118.3 229.2 669.1 448.9 0.5`)
	y := strings.Fields(`0.1 338.8 118.1 888.0 9.2 228.1 668.5 998.5 449.1 778.9 559.2 0.3 0.1 778.1 668.8 339.3 448.9 10.8 557.7
		228.3 998.0 888.8 119.6 0.3 0.6 557.6 339.3 888.0 998.5 778.9 10.2 117.6 228.9 668.4 449.2 0.2`)
	var list []metered
	for i := range x {
		list = append(list, metered{x[i], y[i], ","})
	}
	d := energyOf(t, whole(t, write(t, runsOf(list)), exact.NoDate), nil)
	lines := table(t, d, "lines")
	for key, want := range map[string]string{"intercept": "-0.262323073774", "slope": "1.002116818020"} {
		v := cell(t, lines, 0, key)
		if have := v.Exact(euro); have != want || !v.IsEstimate() {
			t.Errorf("%s is %s (an estimate: %v), want %s to 12 decimals", key, have, v.IsEstimate(), want)
		}
	}
	wants(t, lines, 0, map[string]string{"n": "36", "unit": "kg", "item": "peas", "machine": "m"})
}

// Four runs by hand: 10, 12, 13 and 15 kWh for 1, 2, 3 and 4 kg, of which 0.8 a kg
// was water. Their mean is 12.5 kWh, the deviations squared 6.25 + 0.25 + 0.25 +
// 6.25 = 13, so the standard deviation is the root of 13/3. The line: slope 1.6,
// intercept 8.5; off it are -0.1, 0.3, -0.3, 0.1, so the residual variance is 0.1.
func TestEnergyByHand(t *testing.T) {
	list := []metered{{"1", "10", "1 kg,200 g"}, {"2", "12", "2 kg,400 g"}, {"3", "13", "3 kg,600 g"}, {"4", "15", "4 kg,800 g"}}
	g := whole(t, write(t, runsOf(list)), exact.NoDate)
	d := energyOf(t, g, func(q *figures.EnergyQuery) { q.Load = exact.Kg.Of(exact.Int(5)) })
	rows := table(t, d, "rows")
	for _, c := range []struct {
		item, measure string
		want          map[string]string
	}{
		{"", "kWh", map[string]string{"n": "4", "mean": "12.500000000000", "sd": "2.081665999466", "min": "10.000000000000", "median": "12.500000000000", "max": "15.000000000000"}},
		{"peas", "hours", map[string]string{"n": "4", "mean": "12.000000000000", "sd": "0.000000000000"}},
		// 10/0.8, 12/1.6, 13/2.4 and 15/3.2 kWh per kg of water
		{"peas", "kWh per kg of water", map[string]string{"n": "4", "mean": "7.526041666667", "max": "12.500000000000", "lower_quartile": "5.234375000000"}},
		{"peas", "kWh per kg", map[string]string{"n": "4", "max": "10.000000000000", "min": "3.750000000000"}},
	} {
		row := -1
		for i := range rows.Rows {
			if cell(t, rows, i, "item").Text() == c.item && cell(t, rows, i, "measure").Text() == c.measure {
				row = i
			}
		}
		wants(t, rows, row, c.want)
	}
	wants(t, table(t, d, "lines"), 0, map[string]string{
		"slope": "1.600000000000", "intercept": "8.500000000000", "residual_sd": "0.316227766017", "r_squared": "0.984615384615",
		"load": "5", "kwh": "16.500000000000", "slope_se": "0.141421356237", "intercept_se": "0.387298334621",
	})
	if !noted(d.Notes, "estimates") || !noted(d.Notes, "0.787 kWh") {
		t.Errorf("notes are %q", d.Notes)
	}
	if !strings.Contains(d.Words[0], "m: 4 good runs used 50.0 kWh in all") {
		t.Errorf("says %q", d.Words)
	}
}

// Spoiled runs are left out, runs of several foods count with their machine
// alone, and loads too much alike have no line.
func TestEnergyLeavesOut(t *testing.T) {
	text := runsOf([]metered{{"1", "10", ","}, {"2", "12", ","}, {"2", "13", ","}, {"4", "15", ","}, {"5", "40", ","}})
	text = strings.Replace(text, "20:00,40,\n", "20:00,40,spoiled\n", 1)
	text = strings.Replace(text, "r3,peas,4 kg,,\n", "r3,peas,4 kg,,\nr3,beans,1 kg,,\n", 1)
	g := whole(t, write(t, text), exact.NoDate)
	d := energyOf(t, g, nil)
	rows := table(t, d, "rows")
	wants(t, rows, find(t, rows, "measure", "kWh"), map[string]string{"n": "4", "max": "15.000000000000"})
	wants(t, rows, find(t, rows, "item", "peas"), map[string]string{"n": "3", "max": "13.000000000000"})
	if len(table(t, d, "lines").Rows) != 0 {
		t.Error("three runs have a line")
	}
	for _, words := range []string{"1 run of several foods", "1 run that spoiled", "with fewer: peas (2)"} {
		if !noted(d.Notes, words) {
			t.Errorf("no note says %q: %q", words, d.Notes)
		}
	}
	d = energyOf(t, g, func(q *figures.EnergyQuery) { q.Machine = "other" })
	if len(table(t, d, "rows").Rows) != 0 || d.Words[0] != "No good run is recorded for that." {
		t.Error("a machine without runs used something")
	}
	d = energyOf(t, g, func(q *figures.EnergyQuery) { q.To = date("2024-01-04") })
	wants(t, table(t, d, "rows"), 0, map[string]string{"n": "2"})
	for _, q := range []figures.EnergyQuery{
		{Machine: "nobody"}, {Query: figures.Query{Item: "pears"}},
		{Load: exact.L.Of(exact.Int(1))},
	} {
		if _, err := question.Energy(g, q); !errors.Is(err, question.ErrOption) {
			t.Errorf("%+v: %v", q, err)
		}
	}
}
