package report_test

import (
	"strings"
	"testing"

	"putby/ledger"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// kiln is a household with one machine and a few runs of stock, each with
// another load and the kWh that 8 + 2 x load gives, and of peas, all alike.
// Every run lasts 20 h; a kWh costs 0.25.
const kiln = `-- foods.csv --
food,name,basis,fresh_days,frozen_days,keep_months,caution
stock,Stock,volume,4,60,24,boil it
peas,Peas,mass,3,,,
bones,Bones,mass,2,,,
marrow,Marrow,volume,6,,,
-- machines.csv --
machine,name,trays,load_volume,load_mass,cycles,residual,with
kiln,Kiln,4,6 L,6 kg,100,,
old,Old,4,3 L,,100,,
-- receipts.csv --
receipt,date,shop,line,kind,item,count,size,price,discount,tax,on,note
b1,2025-01-02,Brook,1,food,stock,20,1 L,1.00,,,,
b1,2025-01-02,Brook,2,food,peas,20,1 kg,2.00,,,,
b1,2025-01-02,Brook,3,machine,kiln,1,,500.00,,,,
-- shelf.csv --
date,shop,item,size,price,terms,form,makes,note
2025-01-02,Brook,stock,1 L,6.00,,,,
2025-01-02,Brook,peas,1 kg,9.00,,,,
2025-01-02,Brook,stock,10 g,1.40,,preserved,200 mL,
-- runs.csv --
run,machine,start,end,tariff,kwh,hands,outcome,note
k1,kiln,2025-01-04 08:00,2025-01-05 04:00,,10,,,
k2,kiln,2025-01-06 08:00,2025-01-07 04:00,,12,,,
k3,kiln,2025-01-08 08:00,2025-01-09 04:00,,14,,,
k4,kiln,2025-01-10 08:00,2025-01-11 04:00,,16,,,
k5,kiln,2025-01-12 08:00,2025-01-13 04:00,,11,,,
k6,kiln,2025-01-14 08:00,2025-01-15 04:00,,13,,,
-- loads.csv --
run,item,quantity
k1,stock,1 L
k2,stock,2 L
k3,stock,3 L
k4,stock,4 L
k5,peas,5 kg
k6,peas,5 kg
-- packs.csv --
pack,run,item,date,count,each,with
p1,k1,stock,2025-01-06,1,1 L,
p5,k5,peas,2025-01-15,5,1 kg,
`

func kilnWith(t testing.TB, more string) *ledger.Ledger {
	t.Helper()
	dir := write(t, kiln+more)
	return join(t, dir, exact.NoDate)
}

var offer = facts{"price": "2", "size": "1 L", "limit": "12", "stock": "0"}

// Where the electricity is known from: the line through four loads, the mean of
// fewer, the machine's watts, the mean of its other runs; and its rounding.
func TestWorthEstimatesTheCycle(t *testing.T) {
	g := kilnWith(t, "")
	d := ask(t, g, "stock", offer)
	worthFigures(t, d, map[string]string{"estimate.basis": "line", "estimate.runs": "4", "estimate.kwh_per_cycle": "20",
		"estimate.low": "20", "estimate.high": "20"}) // 8 + 2 x 6, and all runs lie on it
	if !noted(d.Notes, "had loads from 1 L to 4 L") {
		t.Error(d.Notes)
	}
	// The second cycle holds 12 - 6 - ... nothing is left; of 8 packages it holds 2 L: 12 kWh.
	d = ask(t, g, "stock", offer.with("limit", "8"))
	tab := table(t, d, "table")
	want := sub(rat(cell(t, tab, 8, "cost").Exact(euro)), rat(cell(t, tab, 6, "cost").Exact(euro)))
	// 2 packages, 12 kWh at 0.25, one cycle's wear; nothing for packing.
	if wear := rat("5"); want.Cmp(add(rat("7"), wear)) != 0 {
		t.Errorf("two packages in a new run cost %s", want.FloatString(6))
	}

	d = ask(t, g, "peas", facts{"price": "2", "size": "1 kg", "limit": "5"})
	worthFigures(t, d, map[string]string{"estimate.basis": "mean", "estimate.runs": "2", "estimate.kwh_per_cycle": "12"})
	// Two runs a kWh either side of their mean: 12 ± t s √(3/2) with s = √2 and
	// Student's t of 1 degree of freedom, 6.313752 (NIST/SEMATECH e-Handbook, 1.3.6.7.2).
	worthFigures(t, d, map[string]string{"estimate.low": "1.064", "estimate.high": "22.936"})

	marrow := facts{"price": "2", "size": "1 L", "limit": "5", "shelf": "9", "each": "1 L", "pack-cost": "0"}
	d = ask(t, g, "marrow", marrow)
	worthFigures(t, d, map[string]string{"estimate.basis": "mean", "estimate.runs": "6", "estimate.kwh_per_cycle": "12.667"})
	if !noted(d.Notes, "no run of Marrow alone in Kiln tells its electricity: the mean of the machine's 6 other runs is taken") {
		t.Error(d.Notes)
	}
	g = kilnWith(t, "-- wattage.csv --\nmachine,phase,watts\nkiln,primary,450\n")
	d = ask(t, g, "marrow", marrow)
	worthFigures(t, d, map[string]string{"estimate.basis": "wattage", "estimate.kwh_per_cycle": "9"}) // 450 W x 20 h
	if tab := table(t, d, "range"); len(tab.Rows) != 2 || !noted(d.Notes, "differs from run to run is not known") {
		t.Errorf("watts have no spread, but %d cases; %v", len(tab.Rows), d.Notes)
	}
	d = ask(t, g, "marrow", marrow.with("kwh", "7.1234567"))
	worthFigures(t, d, map[string]string{"estimate.basis": "given", "estimate.kwh_per_cycle": "7.1234567"})
}

// A line is of one food on one machine: mixed and spoiled runs do not count.
func TestWorthLeavesOtherRunsOut(t *testing.T) {
	g := kilnWith(t, strings.Replace(`-- runs.csv --
run,machine,start,end,tariff,kwh,hands,outcome,note
k1,kiln,2025-01-04 08:00,2025-01-05 04:00,,10,,,
k2,kiln,2025-01-06 08:00,2025-01-07 04:00,,12,,spoiled,
k3,kiln,2025-01-08 08:00,2025-01-09 04:00,,14,,,
k4,old,2025-01-10 08:00,2025-01-11 04:00,,16,,,
k5,kiln,2025-01-12 08:00,2025-01-13 04:00,,11,,,
k6,kiln,2025-01-14 08:00,2025-01-15 04:00,,13,,,
-- loads.csv --
run,item,quantity
k1,stock,1 L
k2,stock,2 L
k3,stock,3 L
k3,peas,1 kg
k4,stock,3 L
k5,peas,5 kg
k6,peas,5 kg
`, "k3,stock,3 L\nk3,peas", "k3,stock,3 L\nk3,peas", 1)+"-- settings.csv --\nsetting,value\nformat,1\ncurrency,EUR\nzone,Europe/Ljubljana\ntariff,flat\nshare,mass\n-- foods.csv --\nfood,name,basis,density\nstock,,volume,1\npeas,,mass,\n-- packs.csv --\npack,run,item,date,count,each,with\np1,k1,stock,2025-01-06,1,1 L,\n-- draws.csv --\ndate,item,quantity,reason\n")
	d := ask(t, g, "stock", offer.with("machine", "kiln", "cycles", "2"))
	worthFigures(t, d, map[string]string{"estimate.basis": "mean", "estimate.runs": "1", "estimate.kwh_per_cycle": "10"})
	d = ask(t, g, "stock", offer.with("cycles", "2")) // its latest run was on the old one
	worthFigures(t, d, map[string]string{"estimate.basis": "mean", "estimate.runs": "1", "estimate.kwh_per_cycle": "16"})
}

// Of an even number of runs the cycle is the middle between the two in the
// middle; what was packed last says how it is packed; bones were never dried.
func TestWorthTakesTheUsual(t *testing.T) {
	runs := strings.Replace(kiln[strings.Index(kiln, "-- runs.csv --"):strings.Index(kiln, "-- loads.csv --")],
		"k5,kiln,2025-01-12 08:00,2025-01-13 04:00", "k5,kiln,2025-01-12 08:00,2025-01-13 01:00", 1)
	g := kilnWith(t, runs+"-- packs.csv --\npack,run,item,date,count,each,with\np1,k5,peas,2025-01-16,2,500 g,\np2,k6,peas,2025-01-15,5,1 kg,\n"+
		strings.Replace(kiln[strings.Index(kiln, "-- receipts.csv --"):strings.Index(kiln, "-- shelf.csv --")],
			"b1,2025-01-02,Brook,3", "b2,2025-01-16,Brook,1,food,bones,3,1 kg,0.50,,,,\nb1,2025-01-02,Brook,3", 1))
	peas := facts{"price": "2", "size": "1 kg", "limit": "2", "start": "2025-01-16 16:30", "pack-cost": "0.10", "yield": "1"}
	d := ask(t, g, "peas", peas)
	// Runs of 17 and 20 h: 18.5 h, three of which end in 55.5 h, and 2 kg go into 4 containers.
	if have := allows(t, d, byMachine); have != "18" {
		t.Errorf("the machine allows %s packages: three runs of 18.5 h", have)
	}
	worthFigures(t, d, map[string]string{"cost": "12.400000"}) // 4.00 + 12 kWh at 0.25 + 5.00 + 4 x 0.10
	d = ask(t, g, "peas", peas.with("start", ""))
	if noted(d.Notes, "bones") {
		t.Error(d.Notes)
	}
}

// What comes back of what is dried is said, and by which runs, since the value is that
// of what comes back. By hand: 4.5 kg of 5 kg, so of 2 kg 1.8 kg; with the other run's
// 5 of 5 kg 0.95 of it.
func TestWorthSaysWhatComesBack(t *testing.T) {
	const packs = "-- packs.csv --\npack,run,item,date,count,each,with\np1,k5,peas,2025-01-15,9,500 g,\n"
	peas := facts{"price": "2", "size": "1 kg", "limit": "2", "start": "2025-01-16 16:30", "pack-cost": "0.10"}
	d := ask(t, kilnWith(t, packs), "peas", peas)
	worthFigures(t, d, map[string]string{"dried": "2", "made": "1.8"})
	if want := "of 1 kg of Peas that goes in, 0.9 kg comes back, as in k5 (--yield)"; !noted(d.Notes, want) {
		t.Errorf("%q, want %s", d.Notes, want)
	}
	d = ask(t, kilnWith(t, packs+"p2,k6,peas,2025-01-15,5,1 kg,\n"), "peas", peas)
	if worthFigures(t, d, map[string]string{"made": "1.9"}); !noted(d.Notes, "0.95 kg comes back, as in 2 runs") {
		t.Error(d.Notes)
	}
	d = ask(t, kilnWith(t, packs), "peas", peas.with("yield", "1"))
	if worthFigures(t, d, map[string]string{"made": "2"}); noted(d.Notes, "comes back") {
		t.Error(d.Notes)
	}
}

// allows is how many packages a limit allows.
func allows(t *testing.T, d report.Doc, limit string) string {
	t.Helper()
	tab := table(t, d, "bounds")
	return cell(t, tab, find(t, tab, "limit", limit), "packages").Exact(euro)
}

const byMachine = "the machine before the food turns"

// The hours left run from when the machine is free to so many days after the
// purchase; food in hand goes first.
func TestWorthCountsTheCyclesInTime(t *testing.T) {
	// The last record is of 15 January, so the purchase is; stock keeps 4 days:
	// 96 h. Left of the receipt are 10 kg of peas, long turned, and 10 L of stock, too.
	g := kilnWith(t, "")
	ask := func(f facts) report.Doc {
		t.Helper()
		return ask(t, g, "stock", offer.with("limit", "99").with(flat(f)...))
	}
	for _, c := range []struct {
		f    facts
		want string
	}{
		{facts{}, "24"},                                              // the last run ends at 4:00: 92 h / 20 h = 4 cycles of 6 L
		{facts{"turnaround": "4h"}, "18"},                            // free at 8:00: (88 + 4) / 24 = 3
		{facts{"as-of": "2025-01-16"}, "24"},                         // 96 h / 20 h = 4
		{facts{"start": "2025-01-15 00:00"}, "24"},                   // 96 h: 4
		{facts{"start": "2025-01-14 20:00"}, "30"},                   // 100 h: 5
		{facts{"start": "2025-01-14T19:00:00Z"}, "30"},               // the same with an offset
		{facts{"start": "2025-01-15 16:01"}, "18"},                   // a minute short of 80 h
		{facts{"start": "2025-02-01 00:00"}, "0"},                    // too late for any
		{facts{"fresh-days": "1", "start": "2025-01-15 00:00"}, "6"}, // 24 h: 1
		{facts{"fresh-days": "0"}, "0"},
		{facts{"use-by": "2025-01-17"}, "12"}, // 44 h: 2
		{facts{"frozen": "yes"}, "426"},       // 60 days: 1436 h: 71
		{facts{"cycles": "3", "frozen": "yes"}, "18"},
		{facts{"cycle-hours": "46h"}, "12"},
		{facts{"load": "2.5 L"}, "10"},
		{facts{"fresh": "1.5 L"}, "25"},
	} {
		if have := allows(t, ask(c.f), byMachine); have != c.want {
			t.Errorf("%v: the machine allows %s packages, want %s", c.f, have, c.want)
		}
	}
	// Clocks go forward on 30 March: 4 days are 95 h.
	if have := allows(t, ask(facts{"as-of": "2025-03-28", "cycle-hours": "24h"}), byMachine); have != "18" {
		t.Errorf("across the clock change the machine allows %s packages", have)
	}
	// 3 L of stock bought the same day and 7 kg of peas wait: 1 and 2 cycles.
	g = kilnWith(t, strings.Replace(kiln[strings.Index(kiln, "-- receipts.csv --"):strings.Index(kiln, "-- shelf.csv --")],
		"b1,2025-01-02,Brook,3", "b2,2025-01-14,Brook,1,food,peas,7,1 kg,2.00,,,,\nb1,2025-01-02,Brook,3", 1)+
		"-- draws.csv --\ndate,item,quantity,reason\n2025-01-14,peas,10 kg,used\n2025-01-14,stock,10 L,used\n"+
		"-- machines.csv --\nmachine,name,trays,load_volume,load_mass,cycles,residual,with\nkiln,Kiln,4,6 L,6 kg,100,,\nold,Old,4,3 L,6 kg,100,,\n")
	d := ask(facts{})
	if have := allows(t, d, byMachine); have != "12" || !noted(d.Notes, "7 kg of Peas in hand goes into the machine first: 2 runs") {
		t.Errorf("after the peas the machine allows %s packages; %v", have, d.Notes) // 92 - 40 h = 2 cycles
	}
	// The peas wait for the kiln, in which they were, not for the other machine.
	d = ask(facts{"machine": "old", "cycle-hours": "20h", "kwh": "5"})
	if noted(d.Notes, "in hand goes into the machine first") {
		t.Errorf("the peas wait for the other machine: %v", d.Notes)
	}
	if have := allows(t, ask(facts{"as-of": "2025-01-18"}), byMachine); have != "24" { // the peas have turned
		t.Errorf("after the peas turned the machine allows %s packages", have)
	}
}

// flat lists facts as pairs.
func flat(f facts) (pairs []string) {
	for k, v := range f {
		pairs = append(pairs, k, v)
	}
	return pairs
}

// A food that is dried as another: the ratio of its latest batch, its shelf
// price, what else the batch took, and how long it waits.
func TestWorthOfFoodDriedAsAnother(t *testing.T) {
	g := kilnWith(t, `-- batches.csv --
batch,date,item,quantity,from,cost,note
m1,2025-01-05,stock,4 L,"3 kg bones, 1 kg peas",0.60,
-- draws.csv --
date,item,quantity,reason
2025-01-15,stock,14 L,used
2025-01-15,peas,9 kg,used
`+strings.Replace(kiln[strings.Index(kiln, "-- receipts.csv --"):strings.Index(kiln, "-- shelf.csv --")],
		"b1,2025-01-02,Brook,3", "b1,2025-01-02,Brook,4,food,bones,3,1 kg,0.50,,,,\nb1,2025-01-02,Brook,3", 1))
	bones := facts{"price": "0.50", "size": "1 kg", "limit": "6", "as": "stock", "start": "2025-01-15 00:00", "stock": "0", "wear": "0"}
	// 1 kg makes 4/3 L. A litre takes (1 kg of peas at 9.00 + 0.60) / 4 = 2.40 more.
	// 6 kg make 8 L in 2 cycles, of 6 and 2 L: 8 x 6.00 - 3.00 - 19.20 - (20 + 12) x 0.25 = 17.80.
	d := ask(t, g, "bones", bones)
	worthFigures(t, d, map[string]string{"item": "bones", "unit": "L", "as": "stock", "shelf_per_unit": "6.000000000000",
		"offer.size": "1.333333333333", "buy": "6", "cycles": "2", "dried": "7.999999999998", "cost": "30.200000"})
	// What a package may cost: 0.50 + 17.80 / 6, but for the size's last digit.
	if off := sub(rat(figure(t, d, "break_even_price")), rat("3.466666666666")); off.Abs(off).Cmp(rat("0.000000001")) > 0 {
		t.Error(figure(t, d, "break_even_price"))
	}
	if off := sub(rat(figure(t, d, "offer_rank.per_unit")), rat("0.5")); off.Abs(off).Cmp(rat("0.000000001")) > 0 {
		t.Error("the offer ranks among prices of stock, not of bones")
	}
	if have := allows(t, d, byMachine); have != "18" || !noted(d.Notes, "Stock keeps 2 days longer than Bones") {
		t.Errorf("the machine allows %s: 4 days of stock are 4 runs of 6 L; %v", have, d.Notes)
	}
	// Of 8 L 3 are eaten fresh and take nothing else: 5 x 2.40 less, and 1 cycle.
	d = ask(t, g, "bones", bones.with("fresh", "3 L"))
	worthFigures(t, d, map[string]string{"fresh": "3", "dried": "4.999999999998", "cycles": "1", "cost": "19.500000"})
	// Drying: (5 x 6.00 - 18 x 0.25 - 5 x 2.40) x 4/3 / 5 a package.
	if off := sub(rat(figure(t, d, "drying_break_even_price")), rat("3.6")); off.Abs(off).Cmp(rat("0.000000001")) > 0 {
		t.Error(figure(t, d, "drying_break_even_price"))
	}
	// A package eaten fresh whole takes nothing: at 7.99 it saves a cent.
	d = ask(t, g, "bones", bones.with("fresh", "3 L", "price", "7.99"))
	wants(t, table(t, d, "table"), 1, map[string]string{"cost": "7.990000"})
	// A ratio that is given takes nothing else.
	d = ask(t, g, "bones", bones.with("ratio", "1.5 L", "limit", "4"))
	worthFigures(t, d, map[string]string{"dried": "6", "cost": "7.000000", "value": "36.000000000000"})
	// Marrow has no shelf price: it has that of what its batch took.
	d = ask(t, kilnWith(t, `-- batches.csv --
batch,date,item,quantity,from,cost,note
m1,2025-01-05,marrow,2 L,"3 kg peas",0.60,
`), "peas", facts{"price": "4", "size": "3 kg", "limit": "2", "as": "marrow", "cycles": "1", "kwh": "0", "wear": "0", "each": "1 L", "pack-cost": "0"})
	worthFigures(t, d, map[string]string{"shelf_per_unit": "13.500000000000", "buy": "2", "dried": "4", "saving": "46.000000000000"})
	if !noted(d.Notes, "no shop's price of Marrow is known: its shelf price is that of what batch m1 took") {
		t.Error(d.Notes)
	}
	d = ask(t, g, "bones", bones.with("ratio", "1 L", "shelf", "2", "limit", "6"))
	worthFigures(t, d, map[string]string{"shelf_per_unit": "2.000000000000"})
	d = ask(t, g, "bones", bones.with("shelf", "3.50/500mL", "limit", "6")) // a tag of the stock
	worthFigures(t, d, map[string]string{"shelf_per_unit": "7.000000000000", "cost": "30.200000"})
	d = ask(t, g, "bones", bones.with("shelf", "2/kg", "shelf", "2/1kg")) // a tag of the bones: 1.50 + 2.25 for the peas
	worthFigures(t, d, map[string]string{"shelf_per_unit": "3.750000000000"})
}

// What is used in time: the use of the last 12 months over the months recorded,
// times the months that it keeps, less the stock.
func TestWorthCountsTheUse(t *testing.T) {
	g := kilnWith(t, `-- packs.csv --
pack,run,item,date,count,each,with,cost
p0,,stock,2024-11-20,12,1 L,,24.00
-- draws.csv --
date,pack,item,quantity,reason
2024-12-01,p0,,3,used
2025-01-10,p0,,1,used
2025-01-11,p0,,2,given
2025-01-12,p0,,1,spoiled
`)
	// November to January are 3 months: 4 L, x 24 months = 32 L, less 5 in store
	// and the 1 + 2 + 3 + 4 L of four runs that await packing.
	d := ask(t, g, "stock", facts{"price": "1", "size": "1 L", "limit": "99", "frozen": "yes"})
	if have := allows(t, d, "what will be used before best-by"); have != "17" {
		t.Errorf("use allows %s packages, want 17", have)
	}
	worthFigures(t, d, map[string]string{"buy": "17"})
	if !noted(d.Notes, "~10 L of Stock that awaits packing counts as stock") {
		t.Error(d.Notes)
	}
	bounds := table(t, d, "bounds")
	for _, limit := range []string{"the shop's limit", byMachine, "what will be used before best-by"} {
		want := map[bool]string{true: "yes", false: "no"}[strings.HasPrefix(limit, "what")]
		wants(t, bounds, find(t, bounds, "limit", limit), map[string]string{"binds": want})
	}
	// A year on it counts no longer, for nothing was used in the year before.
	d = ask(t, g, "stock", facts{"price": "1", "size": "1 L", "limit": "9", "as-of": "2026-01-11"})
	if !noted(d.Notes, "no pack of Stock was used in the last 12 months") {
		t.Error(d.Notes)
	}
	d = ask(t, g, "stock", facts{"price": "1", "size": "1 L", "limit": "9", "as-of": "2026-01-09"})
	if have := allows(t, d, "what will be used before best-by"); have != "0" { // 1 L in 12 months: 2 L, less 15
		t.Errorf("use allows %s packages, want 0", have)
	}
	if !strings.Contains(d.Words[0], "what is in store already covers what will be used") {
		t.Error(d.Words)
	}
}

// Supplies cost what those in hand cost, and then their list price.
func TestWorthPricesTheContainers(t *testing.T) {
	const more = `-- supplies.csv --
supply,name,kind,uses,capacity,price
jar,Jar,jar,2,1 L,3.00
seal,Seal,other,1,,
-- receipts.csv --
receipt,date,shop,line,kind,item,count,size,price,discount,tax,on,note
b1,2025-01-02,Brook,1,food,stock,20,1 L,1.00,,,,
b1,2025-01-02,Brook,2,food,peas,20,1 kg,2.00,,,,
b1,2025-01-02,Brook,3,supply,jar,1,2 ea,4.00,,,,
b1,2025-01-02,Brook,4,supply,seal,1,5 ea,1.00,,,,
-- packs.csv --
pack,run,item,date,count,each,with
p1,k1,stock,2025-01-06,1,1 L,"1 jar, 1 seal"
`
	g := kilnWith(t, more)
	// 3 jar uses at 1.00 are left, and 4 seals at 0.20; then a use of a jar costs
	// 1.50 and a seal as the last ones did.
	d := ask(t, g, "stock", facts{"price": "0", "size": "1 L", "limit": "6", "kwh": "0"})
	tab := table(t, d, "table")
	for n, want := range []string{"0.000000", "1.200000", "2.400000", "3.600000", "5.300000", "7.000000", "8.700000"} {
		if have := cell(t, tab, n, "cost").Exact(euro); have != want {
			t.Errorf("%d containers cost %s, want %s", n, have, want)
		}
	}
	if !noted(d.Notes, "uses of jar not in hand: 3, charged at list price") || !noted(d.Notes, "2 of the 6 uses of seal are not in hand") {
		t.Error(d.Notes)
	}
	d = ask(t, g, "stock", facts{"price": "0", "size": "1 L", "limit": "6", "kwh": "0", "with": "2 seal", "each": "3 L"})
	worthFigures(t, d, map[string]string{"cost": "0.800000"})
}

// A time-of-use tariff and blocks price each cycle when it runs.
func TestWorthPricesEachCycleWhenItRuns(t *testing.T) {
	tou := `-- tariffs.csv --
tariff,from,start,end,rate,above_kwh,tax
flat,,22:00,06:00,0.10,,20
flat,,,,0.30,,20
`
	f := facts{"price": "0", "size": "6 L", "limit": "3", "kwh": "20", "wear": "0", "start": "2025-01-15 20:00"}
	// 20 kWh over 20 h from 20:00: 2 h and then 10 h dear, 8 h cheap: (12 x 0.30 + 8 x 0.10) x 1.2 = 5.28;
	// the second from 16:00: 6 + 6 h dear, 8 cheap: 5.28; the third from 12:00, ends at 8:00: 12 dear: 5.28.
	d := ask(t, kilnWith(t, tou), "stock", f)
	tab := table(t, d, "table")
	wants(t, tab, 3, map[string]string{"cost": "15.840000"})
	// With a turnaround of 6 h the second cycle begins at 22:00: 8 cheap hours and 12 dear, the
	// third at 0:00: 6 + 0 cheap, 14 dear: (14 x 0.30 + 6 x 0.10) x 1.2 = 5.76.
	d = ask(t, kilnWith(t, tou), "stock", f.with("turnaround", "6h", "fresh-days", "9"))
	wants(t, table(t, d, "table"), 3, map[string]string{"cost": "16.320000"})
	// Blocks: 76 kWh of January are used up; the first 24 of the cycles' cost 0.20, the rest 0.50.
	blocks := `-- tariffs.csv --
tariff,rate,above_kwh
flat,0.20,
flat,0.50,100
`
	d = ask(t, kilnWith(t, blocks), "stock", f)
	wants(t, table(t, d, "table"), 1, map[string]string{"cost": "4.000000"})
	wants(t, table(t, d, "table"), 2, map[string]string{"cost": "12.800000"}) // 4 x 0.20 + 16 x 0.50
	wants(t, table(t, d, "table"), 3, map[string]string{"cost": "22.800000"})
}

// An offer on each visit's packages, several visits, and another shop.
func TestWorthOverVisitsAndShops(t *testing.T) {
	g := bare(t)
	f := given.with("limit", "5", "kwh", "0", "wear", "0", "pack-cost", "0", "fresh", "99 L")
	// Pay for two of three: 5 cost 4 x 1.49.
	d := ask(t, g, "plum-sauce", f.with("offer", "3 for 2"))
	worthFigures(t, d, map[string]string{"buy": "5", "cost": "5.960000"})
	// Twice that; 6 visits of it would be the same each.
	d = ask(t, g, "plum-sauce", f.with("offer", "3 for 2", "visits", "2"))
	worthFigures(t, d, map[string]string{"buy": "10", "cost": "11.920000", "offer.limit": "10"})
	// Another shop has 4 at 1.10, any 2 for 2.00: 9 cost 4.00 and 5.96.
	d = ask(t, g, "plum-sauce", f.with("offer", "3 for 2", "also", "1.10x4, 2 for 2.00"))
	worthFigures(t, d, map[string]string{"buy": "9", "cost": "9.960000"})
	wants(t, table(t, d, "visits"), 0, map[string]string{"price": "1.490000", "limit": "5", "buy": "5"})
	wants(t, table(t, d, "visits"), 1, map[string]string{"price": "1.100000", "limit": "4", "buy": "4"})
	// 7 packages: 4 there and 3 here for the price of 2.
	wants(t, table(t, d, "table"), 7, map[string]string{"cost": "6.980000"})
	if !strings.Contains(d.Words[0], "Take 5 at 1.49 EUR and 4 at 1.10 EUR.") {
		t.Error(d.Words[0])
	}
	// Without a limit one visit buys as many as the other limits allow.
	d = ask(t, g, "plum-sauce", f.with("limit", "", "offer", "3 for 2", "fresh", "1.4 L", "use", ""))
	worthFigures(t, d, map[string]string{"buy": "19", "cost": "19.370000"}) // 3 cycles: 13.4 L; 13 of 19 are paid
}

// The latest batch by the day of purchase says what a unit makes.
func TestWorthTakesTheLatestBatch(t *testing.T) {
	g := kilnWith(t, `-- batches.csv --
batch,date,item,quantity,from,cost,note
m1,2025-01-05,marrow,2 L,4 kg peas,,
m2,2025-01-06,marrow,3 L,4 kg peas,,
-- draws.csv --
date,item,quantity,reason
2025-01-15,peas,2 kg,used
`)
	peas := facts{"price": "1", "size": "1 kg", "limit": "4", "as": "marrow", "cycles": "1", "kwh": "0", "wear": "0", "each": "1 L", "pack-cost": "0"}
	for asOf, want := range map[string]string{"": "0.75", "2025-01-06": "0.75", "2025-01-05": "0.5", "2025-01-04": "0.5"} {
		d := ask(t, g, "peas", peas.with("as-of", asOf))
		if have := figure(t, d, "offer.size"); have != want {
			t.Errorf("on %s a package makes %s L, want %s", asOf, have, want)
		}
	}
}

// A cycle takes the lesser of the machine's two limits; one that cannot be told
// in the food's unit is not applied, and that is said.
func TestWorthTakesTheLesserLoad(t *testing.T) {
	machines := "-- machines.csv --\nmachine,name,trays,load_volume,load_mass,cycles,residual,with\nkiln,Kiln,4,6 L,4 lb,100,,\nold,Old,4,3 L,,100,,\n"
	foods := func(stock, peas string) string {
		return "-- foods.csv --\nfood,name,basis,density,fresh_days,keep_months\nstock,Stock,volume," + stock + ",4,24\npeas,Peas,mass," + peas +
			",3,\nbones,Bones,mass,,2,\nmarrow,Marrow,volume,,6,\n"
	}
	cycles := facts{"price": "0", "limit": "99", "cycles": "9", "kwh": "0", "wear": "1", "yield": "1", "each": "1 L", "pack-cost": "0"}
	for _, c := range []struct {
		item, size, foods, load, note string
	}{
		{"stock", "10 L", foods("", ""), "6", "Kiln's limit of 4 lb is not applied to Stock: its density is not recorded"},
		{"stock", "10 L", foods("1", ""), "1.81436948", ""},
		{"stock", "10 L", foods("0.2", ""), "6", ""}, // 4 lb are 9.07 L
		{"peas", "10 kg", foods("", ""), "1.81436948", "Kiln's limit of 6 L is not applied to Peas: its density is not recorded"},
		{"peas", "10 kg", foods("", "0.25"), "1.5", ""}, // 6 L of light peas
		{"peas", "10 kg", foods("", "0.5"), "1.81436948", ""},
	} {
		each := map[string]string{"stock": "1 L", "peas": "1 kg"}[c.item]
		d := ask(t, kilnWith(t, machines+c.foods), c.item, cycles.with("size", c.size, "limit", "1", "each", each))
		worthFigures(t, d, map[string]string{"buy": "1", "cycles": halfEven(count(ceil(quo(rat("10"), rat(c.load)))), 0).FloatString(0)})
		if allows(t, d, byMachine) != count(floor(quo(mul(count(9), rat(c.load)), rat("10")))).FloatString(0) {
			t.Errorf("%s: 9 runs of %s allow %s packages of 10", c.item, c.load, allows(t, d, byMachine))
		}
		if noted(d.Notes, "is not applied") != (c.note != "") || !noted(d.Notes, c.note) {
			t.Errorf("%s: %q", c.item, d.Notes)
		}
	}
	// A limit that is given holds alone; a machine whose only limit cannot be told lacks one.
	d := ask(t, kilnWith(t, machines), "stock", cycles.with("size", "10 L", "limit", "1", "load", "5 L"))
	if figure(t, d, "cycles") != "2" || noted(d.Notes, "is not applied") {
		t.Error(figure(t, d, "cycles"), d.Notes)
	}
	only := strings.Replace(machines, "6 L,4 lb", ",4 lb", 1)
	_, err := question.Worth(kilnWith(t, only), cycles.with("size", "1 L").query(t, "marrow"))
	if err == nil || !strings.Contains(err.Error(), "the most that a run takes: give --load, or record the density of Marrow in foods.csv") {
		t.Error(err)
	}
}

// A load beyond those that the line rests on is told as such, and one just as large as the least
// or the most of them is not. At 20 a litre each package saves 18, a second cycle's 10 kWh and wear
// cost 7.50 or more.
func TestWorthTellsOfLoadsNeverSeen(t *testing.T) {
	g := kilnWith(t, "") // loads from 1 L to 4 L
	for _, c := range []struct {
		load, limit string
		beyond      bool
	}{
		{"4 L", "4", false}, // the most
		{"4 L", "1", false}, // the least
		{"4 L", "5", false}, // the most, then the least
		{"4.5 L", "5", true},
		{"5 L", "5", true},
	} {
		d := ask(t, g, "stock", offer.with("shelf", "20", "load", c.load, "limit", c.limit))
		worthFigures(t, d, map[string]string{"buy": c.limit})
		if noted(d.Notes, "had loads from 1 L to 4 L: beyond them") != c.beyond {
			t.Errorf("%s packages in loads of %s are beyond those seen: %t; %v", c.limit, c.load, !c.beyond, d.Notes)
		}
	}
}
