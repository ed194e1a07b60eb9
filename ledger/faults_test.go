package ledger_test

import (
	"strings"
	"testing"

	"putby/ledger"
	"putby/ledger/ledgertest"
)

func TestDoubledIdentifiers(t *testing.T) {
	wantFaults(t, `-- foods.csv --
food,basis
egg,count
leek,mass
egg,mass
-- supplies.csv --
supply,kind,price
jar,jar,1
jar,jar,1
leek,bag,1
-- machines.csv --
machine,cycles
dryer,10
dryer,20
-- wattage.csv --
machine,phase,watts
dryer,primary,100
dryer,primary,200
dryer,hold,200
-- holidays.csv --
tariff,date
flat,2025-01-01
flat,2025-01-01
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
r,2025-01-01,1,food,egg,9,1 ea,1
-- batches.csv --
batch,date,item,quantity,from
b,2025-01-01,egg,1,1 egg
b,2025-01-02,egg,1,1 egg
r,2025-01-02,egg,1,1 egg
-- runs.csv --
run,machine,start,kwh
d,dryer,2025-01-03 08:00,
d,dryer,2025-01-04 08:00,1
-- phases.csv --
run,step,phase,duration,watts
d,2,primary,1h,100
d,1,primary,1h,100
d,2,primary,1h,100
-- loads.csv --
run,item,quantity
d,egg,1
-- packs.csv --
pack,run,item,date,count,each
p,d,egg,2025-01-05,1,1
p,d,egg,2025-01-06,1,1
`,
		"batches.csv:3 batch batch b is in line 2 too",
		"batches.csv:4 batch r is a receipt too",
		"foods.csv:4 food food egg is in line 2 too",
		"holidays.csv:3 date flat has 2025-01-01 already",
		"machines.csv:3 machine machine dryer is in line 2 too",
		"packs.csv:3 pack pack p is in line 2 too",
		"phases.csv:4 step run d has a step 2 in line 2 too",
		"runs.csv:3 run run d is in line 2 too",
		"supplies.csv:3 supply supply jar is in line 2 too",
		"supplies.csv:4 supply leek is a food too",
		"wattage.csv:3 phase dryer has a row for primary already",
	)
}

func TestUnknownIdentifiers(t *testing.T) {
	wantFaults(t, settingsWith("tariff,gone")[:0]+strings.Replace(settingsWith(), "tariff,flat", "tariff,gone", 1)+`-- machines.csv --
machine,cycles,with
dryer,10,"1 x, 1 jar"
-- wattage.csv --
machine,phase,watts
x,primary,100
-- holidays.csv --
tariff,date
x,2025-01-01
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
r,2025-01-01,1,food,x,9,1 ea,1
r,2025-01-01,2,supply,x,9,1 ea,1
r,2025-01-01,3,machine,x,1,,1
r,2025-01-01,4,service,x,1,,1
r,2025-01-01,5,food,egg,9,1 ea,1
-- shelf.csv --
date,shop,item,size,price
2025-01-01,s,x,1 kg,1
-- batches.csv --
batch,date,item,quantity,from
b,2025-01-01,x,1 kg,1 kg x
-- runs.csv --
run,machine,start,tariff,kwh
m,x,2025-01-03 08:00,flat,1
t,dryer,2025-01-03 08:00,x,1
-- phases.csv --
run,step,phase,duration,watts
x,1,primary,1h,100
-- loads.csv --
run,item,quantity,receipt,line
x,egg,1,,
m,x,1,,
m,egg,1,x,
m,egg,1,r,9
m,egg,1,b,
t,egg,1,,
-- packs.csv --
pack,run,item,date,count,each,with
p,x,egg,2025-01-05,1,1,1 x
q,,x,2025-01-05,1,1,
-- draws.csv --
date,pack,item,quantity
2025-01-06,x,,1
2025-01-06,,x,1
-- counts.csv --
date,pack,item,quantity
2025-01-06,x,,1
2025-01-06,,x,1
-- meter/x.csv --
time,watts
2025-01-03 08:00,100
-- rates/x.csv --
time,rate
2025-01-03 08:00,0.1
`,
		`batches.csv:2 from from: no food is called "x"`,
		`batches.csv:2 item item: no food is called "x"`,
		`counts.csv:2 pack pack: no pack is called "x"`,
		`counts.csv:3 item item: no food or supply is called "x"`,
		`draws.csv:2 pack pack: no pack is called "x"`,
		`draws.csv:3 item item: no food or supply is called "x"`,
		`holidays.csv:2 tariff tariff: no tariff is called "x"`,
		`loads.csv:2 run run: no run is called "x"`,
		`loads.csv:3 item item: no food is called "x"`,
		`loads.csv:4 receipt receipt: no receipt or batch is called "x"`,
		"loads.csv:5 receipt receipt: r line 9 has no egg",
		"loads.csv:6 receipt receipt: b has no egg",
		`machines.csv:2 with with: no supply is called "x"`,
		`meter/x.csv:0  no run is called "x"`,
		`packs.csv:2 run run: no run is called "x"`,
		`packs.csv:2 with with: no supply is called "x"`,
		`packs.csv:3 item item: no food is called "x"`,
		`phases.csv:2 run run: no run is called "x"`,
		`rates/x.csv:0  no tariff is called "x"`,
		`receipts.csv:2 item item: no food is called "x"`,
		`receipts.csv:3 item item: no supply is called "x"`,
		`receipts.csv:4 item item: no machine is called "x"`,
		`runs.csv:2 machine machine: no machine is called "x"`,
		`runs.csv:3 tariff tariff: no tariff is called "x"`,
		`settings.csv:5 value tariff: no tariff is called "gone"`,
		`shelf.csv:2 item item: no food is called "x"`,
		`wattage.csv:2 machine machine: no machine is called "x"`,
	)
}

// Two runs of one machine must not overlap, [start, end) of each; back to back
// is fine, and so is another machine. The fault is at the later run.
func TestOverlaps(t *testing.T) {
	const head = `-- machines.csv --
machine,cycles
a,100
b,100
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
e,2025-01-01,1,food,egg,9,1 ea,0
-- loads.csv --
run,item,quantity
1,egg,1
2,egg,1
3,egg,1
-- runs.csv --
run,machine,start,end,kwh
`
	for _, c := range []struct {
		name, rows string
		want       []string
	}{
		{"back to back", "1,a,2025-01-02 08:00,2025-01-02 10:00,1\n2,a,2025-01-02 10:00,2025-01-02 11:00,1\n3,b,2025-01-02 09:00,2025-01-02 11:00,1\n", nil},
		{"a minute early", "1,a,2025-01-02 08:00,2025-01-02 10:00,1\n2,a,2025-01-02 09:59,2025-01-02 11:00,1\n3,b,2025-01-02 09:00,,1\n",
			[]string{"runs.csv:3 start run 2 starts on a at 2025-01-02 09:59 while run 1 is on until 2025-01-02 10:00"}},
		{"the later one is placed, wherever it stands", "2,a,2025-01-02 09:00,2025-01-02 11:00,1\n1,a,2025-01-02 08:00,2025-01-02 10:00,1\n3,b,2025-01-02 09:00,,1\n",
			[]string{"runs.csv:2 start run 2 starts on a at 2025-01-02 09:00 while run 1 is on"}},
		{"equal starts: the later row", "1,a,2025-01-02 08:00,2025-01-02 10:00,1\n2,a,2025-01-02 08:00,2025-01-02 09:00,1\n3,b,2025-01-02 09:00,,1\n",
			[]string{"runs.csv:3 start run 2 starts on a at 2025-01-02 08:00 while run 1 is on"}},
		{"inside a long one, two of them", "1,a,2025-01-02 08:00,2025-01-02 20:00,1\n2,a,2025-01-02 09:00,2025-01-02 10:00,1\n3,a,2025-01-02 12:00,2025-01-02 13:00,1\n",
			[]string{"runs.csv:3 start run 2 starts on a at 2025-01-02 09:00 while run 1 is on", "runs.csv:4 start run 3 starts on a at 2025-01-02 12:00 while run 1 is on"}},
		{"of no length, at a start", "1,a,2025-01-02 08:00,2025-01-02 10:00,1\n2,a,2025-01-02 08:00,,1\n3,a,2025-01-02 08:00,,1\n", nil},
		{"of no length, inside", "1,a,2025-01-02 08:00,2025-01-02 10:00,1\n2,a,2025-01-02 09:00,,1\n3,a,2025-01-02 10:00,,1\n",
			[]string{"runs.csv:3 start run 2 starts on a at 2025-01-02 09:00 while run 1 is on"}},
	} {
		t.Run(c.name, func(t *testing.T) { wantFaults(t, head+c.rows, c.want...) })
	}
}

// What a run used must be known, at each of its hours there must be a price,
// and it must have been loaded.
func TestRunFaults(t *testing.T) {
	const text = `-- tariffs.csv --
tariff,from,start,end,rate
flat,2025-01-01,,,0.25
gap,2025-01-01,6:00,22:00,0.25
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
e,2025-01-01,1,food,egg,9,1 ea,0
-- runs.csv --
run,machine,start,end,tariff,kwh
nothing,dryer,2025-01-02 08:00,,,
early,dryer,2024-12-31 23:00,2025-01-01 01:00,,1
night,dryer,2025-01-03 21:00,2025-01-03 23:00,gap,1
both,dryer,2025-01-04 08:00,2025-01-04 10:00,,1
phase,dryer,2025-01-05 08:00,,,
empty,dryer,2025-01-06 08:00,,,1
-- phases.csv --
run,step,phase,duration,watts,kwh
both,1,primary,1h,100,
phase,1,freezing,1h,100,
phase,2,primary,1h,,
-- loads.csv --
run,item,quantity
nothing,egg,1
early,egg,1
night,egg,1
both,egg,1
phase,egg,1
`
	wantFaults(t, text,
		"loads.csv:3 quantity run early takes 1 ea of egg on 2024-12-31, but none is in hand",
		"phases.csv:4 watts nothing says how much electricity the primary of run phase used",
		"runs.csv:2 kwh run nothing: nothing says how much electricity it used",
		`runs.csv:3 start run early: tariff "flat" has no band for Tue 2024-12-31 23:00`,
		`runs.csv:4 start run night: tariff "gap" has no band for Fri 2025-01-03 22:00`,
		"runs.csv:5 end run both has an end beside phases",
		"runs.csv:7 run run empty has no load",
	)
	wantFaults(t, strings.Replace(settingsWith(), "tariff,flat\n", "", 1)+oneRun, "runs.csv:2 tariff run r has no tariff")
	wantFaults(t, settingsWith("costing,average")+strings.Replace(oneRun, "run,item,quantity\nr,egg,4", "run,item,quantity,receipt\nr,egg,4,e", 1),
		"loads.csv:2 receipt under average costing a load cannot name its lot")
}

// A supply of the machine that nothing covers is a fault of the run that asks
// for it.
func TestMachineSupplyWithoutPrice(t *testing.T) {
	wantFaults(t, "-- machines.csv --\nmachine,cycles,with\ndryer,10,1 oil\n"+oneRun,
		"runs.csv:2 machine 1 use of oil is covered by no receipt, and it has no list price")
}

// A load on a lot that is too small, or not bought yet, says what is missing.
func TestLoadsBeyondTheirLots(t *testing.T) {
	wantFaults(t, `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,egg,4,1 ea,1
b,2025-01-04,1,food,egg,4,1 ea,1
-- runs.csv --
run,machine,start,kwh
r,dryer,2025-01-02 08:00,0
s,dryer,2025-01-03 08:00,0
-- loads.csv --
run,item,quantity,receipt,line
r,egg,3,a,1
r,egg,2,a,
s,egg,1,b,
s,egg,1,,
`,
		"loads.csv:3 quantity run r from a takes 2 ea of egg on 2025-01-02, but only 1 ea is in hand: 1 ea missing",
		"loads.csv:4 quantity run s from b takes 1 ea of egg on 2025-01-03, but none is in hand",
		"loads.csv:5 quantity run s takes 1 ea of egg on 2025-01-03, but none is in hand",
	)
}

// All faults come at once. Only what may follow from a record that could not be
// read is left out: the shortage of leek, the total of r, the draw from p.
func TestFaultsBesideThoseOfReading(t *testing.T) {
	wantFaults(t, `-- foods.csv --
food,basis
egg,count
leek,mass
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
r,2025-01-01,1,food,leek,1,1e3 g,1.00
r,2025-01-01,2,food,egg,1,1 ea,1.00
r,2025-01-01,3,total,,,,9.00
s,2025-01-01,1,food,egg,1,1 ea,1.00
s,2025-01-01,2,total,,,,9.00
-- packs.csv --
pack,item,date,count,each,cost
p,egg,2025-02-30,1,1,0
q,egg,2025-02-03,1,1,0
-- draws.csv --
date,pack,item,quantity
2025-03-01,,leek,1 kg
2025-03-01,,egg,3
2025-03-01,p,,2
2025-03-01,q,,2
2025-03-01,x,,2
`,
		"draws.csv:3 quantity this draw takes 3 ea of egg on 2025-03-01, but only 2 ea is in hand: 1 ea missing",
		"draws.csv:5 quantity 2 of pack q are drawn on 2025-03-01, but 1 of its 1 containers are left",
		`draws.csv:6 pack pack: no pack is called "x"`,
		"packs.csv:2 date date:",
		"receipts.csv:2 size size:",
		"receipts.csv:6 price receipt s adds up to 1.00, its printed total is 9.00: 8.00 too little",
	)
}

// A row that could not be told from another, or a file without a column, may
// have held anything that is asked for.
func TestFaultsBesideLostRows(t *testing.T) {
	wantFaults(t, `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
r,2025-01-01,1,food,egg,1,1 ea
s,2025-01-01,1,other,x,1,,1
s,2025-01-01,2,total,,1,,9
-- draws.csv --
date,pack,item,quantity
2025-03-01,,egg,3
2025-03-01,p,,3
`, "draws.csv:3 pack pack: no pack is called", "receipts.csv:2  the row has 7 cells, the header 8",
		"receipts.csv:4 price receipt s adds up to 1.00, its printed total is 9.00")
	wantFaults(t, "-- foods.csv --\nfood\negg\n-- draws.csv --\ndate,item,quantity\n2025-03-01,egg,3\n2025-03-01,jar,3 kg\n",
		"draws.csv:3 quantity quantity: 3 kg is no number of pieces of jar", `foods.csv:1  the column "basis" is missing`)
	wantFaults(t, strings.Replace(settingsWith(), "tariff,flat", "tariff,no good", 1)+oneRun, "settings.csv:5 value tariff:")
	wantFaults(t, strings.Replace(settingsWith(), "currency,EUR", "currency,DOLLAR", 1)+`-- receipts.csv --
receipt,date,line,kind,item,count,size,price
r,2025-01-01,1,other,x,1,,1.50
r,2025-01-01,2,total,,1,,1.50
`, "settings.csv:3 value currency:")
	wantFaults(t, "-- runs.csv --\nrun,machine,start,kwh\nr,dryer,2025-02-30 08:00,1\n-- loads.csv --\nrun,item,quantity\n-- packs.csv --\npack,run,item,date,count,each\np,r,egg,2025-01-01,1,1\n",
		"runs.csv:2 start start:")
}

// Whatever the faults of a ledger, the join ends and returns them.
func TestFaultyLedgersAreJoined(t *testing.T) {
	all := files(spyWidgets + soldAny)
	for name, text := range all {
		lines := strings.Split(strings.TrimSpace(text), "\n")
		for i := 1; i < len(lines); i++ {
			for _, cell := range []string{"", "x", "-1", "0", "9999999999999", "a,b", "2025-02-30"} {
				cells := strings.Split(lines[i], ",")
				for j := range cells {
					broken := files(spyWidgets + soldAny)
					changed := append([]string(nil), cells...)
					changed[j] = cell
					with := append([]string(nil), lines...)
					with[i] = strings.Join(changed, ",")
					broken[name] = strings.Join(with, "\n") + "\n"
					rec, read, err := ledgertest.Read(broken)
					if err != nil {
						t.Fatal(err)
					}
					o := whole
					o.Read = read
					if _, faults := ledger.Join(rec, o); len(faults) < len(read) {
						t.Fatalf("%s, line %d: %d faults of %d", name, i+1, len(faults), len(read))
					}
				}
			}
		}
	}
}

// A million faults are not told one by one.
func TestMoreFaultsThanAreTold(t *testing.T) {
	rec := records(t, "-- draws.csv --\ndate,item,quantity\n"+strings.Repeat("2025-01-01,pie,1\n", 10_005))
	_, faults := ledger.Join(rec, whole)
	if want := "draws.csv:1:1: 5 more faults than are told one by one"; len(faults) != 10_001 || faults[0].Error() != want {
		t.Errorf("%d faults, the first %v; want 10001, the first %s", len(faults), faults[0], want)
	}
}
