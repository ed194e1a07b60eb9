package report_test

import (
	"strings"
	"testing"

	"putby/ledger/figures"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing"
	"putby/pricing/exact"
)

// runningLedger has two finished runs of peas, of 30 and 32 hours, one of beans
// of 10 hours, and peas that went in on Thursday 2025-11-20 at 12:00. So far
// nothing is known of their electricity.
const runningLedger = `-- foods.csv --
food,basis
peas,mass
beans,mass
-- machines.csv --
machine,cycles,load_mass
m,100,4 kg
-- receipts.csv --
receipt,date,line,kind,item,size,price
p,2025-11-01,1,food,peas,20 kg,20.00
b,2025-11-01,2,food,beans,20 kg,20.00
m,2025-11-01,1,machine,m,,1000.00
-- shelf.csv --
date,shop,item,size,price
2025-11-01,Corner,peas,1 kg,9.00
-- runs.csv --
run,machine,start,kwh,outcome
1,m,2025-11-03 08:00,10,
2,m,2025-11-05 08:00,12,good
3,m,2025-11-08 08:00,4,good
4,m,2025-11-20 12:00,,running
-- loads.csv --
run,item,quantity
1,peas,4 kg
2,peas,4 kg
3,beans,4 kg
4,peas,3 kg
-- phases.csv --
run,step,phase,duration
1,1,primary,30h
2,1,primary,32h
3,1,primary,10h
-- packs.csv --
pack,run,item,date,count,each
a,1,peas,2025-11-06,4,1 kg
b,2,peas,2025-11-08,4,1 kg
`

// A run that is not finished has a row of its own, says that it is running, and
// counts in no sum of what was packed, nor in what is usual.
func TestRunningRun(t *testing.T) {
	g := whole(t, write(t, runningLedger), exact.NoDate)
	d, err := report.Cost(g, figures.CostQuery{Query: figures.Query{From: exact.NoDate, To: exact.NoDate, AsOf: exact.NoDate}}, false)
	if err != nil {
		t.Fatal(err)
	}
	rows := table(t, d, "rows")
	last := len(rows.Rows) - 1
	wants(t, rows, last, map[string]string{"run": "4", "item": "peas", "loaded": "3", "food": "3.000000", "electricity": "0.000000", "wear": "10.000000",
		"total": "13.000000", "reconstituted": "0", "per_unit": "", "hours": "", "kwh": "0.000000000000", "saving": ""})
	if shown := cell(t, rows, last, "per_unit").Shown(g.Settings.Currency, g.Settings.Show()); shown != "running" {
		t.Errorf("people are told %q", shown)
	}
	if !noted(rows.Rows[last].Notes, "run 4 is running since Thu 2025-11-20 at 12:00: what is recorded so far counts") {
		t.Errorf("its notes are %q", rows.Rows[last].Notes)
	}
	wants(t, table(t, d, "totals"), 0, map[string]string{"reconstituted": "8"})

	use, err := figures.Energy(g, figures.EnergyQuery{Query: figures.Query{Item: "peas", From: exact.NoDate, To: exact.NoDate, AsOf: exact.NoDate}})
	if err != nil || use.Groups[0].Runs != 2 || use.Running != 1 {
		t.Errorf("energy counts %v, %v", use, err)
	}
	compared, err := figures.Compare(g, figures.CompareQuery{Query: figures.Query{Item: "peas", From: exact.NoDate, To: exact.NoDate, AsOf: exact.NoDate}, Against: pricing.Fresh})
	if err != nil || compared.Foods[0].Runs != 2 {
		t.Errorf("compare has %v, %v", compared.Foods, err)
	}
}

// It is in the machine, and awaits no packing yet.
func TestRunningOnHand(t *testing.T) {
	g := join(t, write(t, runningLedger), exact.NoDate)
	d, err := question.OnHand(g, figures.OnHandQuery{Query: figures.Query{From: exact.NoDate, To: exact.NoDate, AsOf: exact.NoDate}})
	if err != nil {
		t.Fatal(err)
	}
	on := table(t, d, "running")
	wants(t, on, 0, map[string]string{"run": "4", "machine": "m", "since": "2025-11-20T12:00:00+01:00", "usual_end": "2025-11-21T19:00:00+01:00",
		"item": "peas", "loaded": "3", "cost": "13.000000"})
	waits := table(t, d, "awaiting")
	if len(on.Rows) != 1 || len(waits.Rows) != 1 || cell(t, waits, 0, "run").Text() != "3" {
		t.Errorf("%d in the machine, %v await packing", len(on.Rows), waits.Rows)
	}
	wants(t, table(t, d, "fresh"), 0, map[string]string{"item": "peas", "quantity": "9"})
}

// The machine is busy until the run ends as runs of its food usually do,
// whatever food is asked about: after the median of 30 and 32 hours, on Friday at
// 19:00. Phases so far that take longer put that off; once it is past, all that is
// known is that it is not over.
func TestRunningHoldsTheMachine(t *testing.T) {
	longer := "4,1,primary,40h\n-- wattage.csv --\nmachine,phase,watts\nm,primary,300\n"
	for _, c := range []struct{ name, text, at, from, note string }{
		{"as usual", runningLedger, "2025-11-20 13:00", "2025-11-21T19:00", "m is on with run 4 since Thu 2025-11-20 at 12:00: it is taken to end as usual, on Fri 2025-11-21 at 19:00"},
		{"phases so far are longer", strings.Replace(runningLedger, "3,1,primary,10h\n", "3,1,primary,10h\n"+longer, 1), "2025-11-20 13:00", "2025-11-22T04:00", "on Sat 2025-11-22 at 04:00"},
		{"past its end", runningLedger, "2025-11-22 08:00", "2025-11-22T08:00", "m is on with run 4 since Thu 2025-11-20 at 12:00, longer than is usual: no start counts before that is finished (finish)"},
	} {
		t.Run(c.name, func(t *testing.T) {
			g := join(t, write(t, c.text), exact.NoDate)
			d := when(t, g, "beans", question.WhenTexts{From: c.at, KWh: "4", Hours: "10h", Tariff: "flat"})
			if from := part[report.Value](t, d, "from").Text(); !strings.HasPrefix(from, c.from) {
				t.Errorf("the first start is %s, want %s", from, c.from)
			}
			if !noted(d.Notes, c.note) {
				t.Errorf("notes are %q", d.Notes)
			}
		})
	}
}

// Worth counts the cycles of beans that keep three days, bought on the day of the
// run, from when the machine is free: from Friday at 19:00 on, not from Thursday at
// midnight, a cycle of 10 hours fits twice before Sunday begins.
func TestRunningInWorth(t *testing.T) {
	text := strings.NewReplacer("food,basis\npeas,mass\nbeans,mass\n", "food,basis,fresh_days\npeas,mass,\nbeans,mass,3\n",
		"peas,20 kg", "peas,11 kg", "beans,20 kg", "beans,4 kg").Replace(runningLedger)
	beans := facts{"price": "1.00", "size": "4 kg", "shelf": "9", "fresh": "0", "cycle-hours": "10h", "use": "1000 kg", "each": "1 kg", "pack-cost": "0", "as-of": "2025-11-20"}
	idle := strings.NewReplacer("4,m,2025-11-20 12:00,,running\n", "", "4,peas,3 kg\n", "", "peas,11 kg", "peas,8 kg").Replace(text)
	for name, c := range map[string]struct{ text, cycles string }{"running": {text, "2"}, "idle": {idle, "7"}} {
		d := ask(t, join(t, write(t, c.text), exact.NoDate), "beans", beans)
		if have := figure(t, d, "cycles"); have != c.cycles {
			t.Errorf("%s: %s runs in time, want %s", name, have, c.cycles)
		}
	}
}
