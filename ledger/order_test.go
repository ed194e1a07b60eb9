package ledger_test

import (
	"testing"

	"putby/ledger"
	"putby/pricing/exact"
)

// Within a day come receipts, then batches, runs, packs, draws, and last the
// stocktakes, whatever the order of the files' rows.
func TestOrderWithinADay(t *testing.T) {
	g := book(t, `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-02,1,food,leek,1,5 kg,8.00
-- batches.csv --
batch,date,item,quantity,from
b,2025-01-02,soup,4 L,4 kg leek
-- runs.csv --
run,machine,start,kwh
r,dryer,2025-01-02 00:00,0
-- loads.csv --
run,item,quantity
r,soup,3 L
-- packs.csv --
pack,run,item,date,count,each
p,r,soup,2025-01-02,3,1 L
-- draws.csv --
date,pack,item,quantity
2025-01-02,p,,1
2025-01-02,,soup,0.5 L
-- counts.csv --
date,pack,item,quantity
2025-01-02,p,,1
2025-01-02,,soup,0.25 L
2025-01-02,,leek,0 kg
`)
	if have, want := moved(g), "used 1 for 2, used 0.5 for 1, missing 1 for 2, missing 0.25 for 0.5"; have != want {
		t.Errorf("have %s, want %s", have, want)
	}
}

// Rows need not stand in order of time: lots are drawn on by date, and those of
// a day in file order.
func TestOrderOfDays(t *testing.T) {
	g := book(t, `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
c,2025-01-03,1,food,egg,1,1 ea,3.00
a,2025-01-01,1,food,egg,1,1 ea,1.00
d,2025-01-03,1,food,egg,1,1 ea,4.00
b,2025-01-02,1,food,egg,1,1 ea,2.00
-- draws.csv --
date,item,quantity
2025-01-05,egg,2
2025-01-04,egg,2
`)
	if have, want := moved(g), "used 2 for 3, used 2 for 7"; have != want {
		t.Errorf("have %s, want %s", have, want)
	}
}

// Days far apart are put in order too.
func TestOrderOfFarDays(t *testing.T) {
	g := book(t, `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
b,2999-12-31,1,food,egg,1,1 ea,2.00
a,1900-01-01,1,food,egg,1,1 ea,1.00
`)
	if oldest := g.OldestLeft(foodStock(t, g, "egg")); oldest.Receipt() != "a" {
		t.Errorf("%s is the oldest", oldest.Receipt())
	}
}

// A run counts whole as of the day on which it begins, by the ledger's clock.
func TestRunsCountFromTheirStart(t *testing.T) {
	text := settingsWith("hour_value,1") + `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,egg,2,1 ea,1.00
-- runs.csv --
run,machine,start,end,kwh
r,dryer,2025-01-02 23:00,2025-01-04 23:00,8
-- loads.csv --
run,item,quantity
r,egg,2
`
	before, after := bookAt(t, text, asOf("2025-01-01")), bookAt(t, text, asOf("2025-01-02"))
	figures(t, map[string]any{"before": before.Flows.Electricity, "done before": before.Runs[0].Done, "after": after.Flows.Electricity, "done after": after.Runs[0].Done},
		map[string]string{"before": "0", "done before": "false", "after": "2", "done after": "true"})
}

// Faults count whatever their date: no report is made from half of the truth.
func TestFaultsCountWhateverTheirDate(t *testing.T) {
	rec := records(t, "-- draws.csv --\ndate,item,quantity\n2025-06-01,egg,1\n")
	if _, faults := ledger.Join(rec, asOf("2025-01-01")); len(faults) != 1 {
		t.Errorf("faults: %v", faults)
	}
}

// The ledger's own date is that of the last record of any kind that has one.
func TestLastDate(t *testing.T) {
	for _, c := range []struct{ file, want string }{
		{"-- receipts.csv --\nreceipt,date,kind,item,price\nr,2025-01-07,other,x,1\n", "2025-01-07"},
		{"-- shelf.csv --\ndate,shop,item,size,price\n2025-01-07,s,egg,1 ea,1\n", "2025-01-07"},
		{"-- runs.csv --\nrun,machine,start\nr,dryer,2025-01-07 23:59\n", "2025-01-07"},
		{"-- batches.csv --\nbatch,date,item,quantity,from\nb,2025-01-07,soup,1 L,1 egg\n", "2025-01-07"},
		{"-- packs.csv --\npack,item,date,count,each\np,egg,2025-01-07,1,1\n", "2025-01-07"},
		{"-- draws.csv --\ndate,item,quantity\n2025-01-07,egg,1\n", "2025-01-07"},
		{"-- frozen.csv --\ndate,item,quantity\n2025-01-07,egg,1\n", "2025-01-07"},
		{"-- counts.csv --\ndate,item,quantity\n2025-01-07,egg,1\n", "2025-01-07"},
		{"", ""},
	} {
		if have := ledger.LastDate(records(t, c.file)).String(); have != c.want {
			t.Errorf("%q: have %q, want %q", c.file, have, c.want)
		}
	}
	if g := book(t, ""); g.AsOf != exact.NoDate {
		t.Errorf("a ledger without dates is as of %v", g.AsOf)
	}
}

// A stocktake that finds less than the books draws the difference as missing;
// one that finds more is a fault that says which record may be lacking.
func TestStocktakes(t *testing.T) {
	const text = `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,egg,6,1 ea,1.00
a,2025-01-01,2,supply,jar,2,,2.00
-- packs.csv --
pack,item,date,count,each,cost
p,egg,2025-01-01,4,1,4.00
-- counts.csv --
date,pack,item,quantity
`
	g := book(t, text+"2025-01-02,,egg,4\n2025-01-02,p,,3\n2025-01-02,,jar,1\n2025-01-03,p,,3\n")
	if have, want := moved(g), "missing 2 for 2, missing 1 for 1, missing 1 for 2"; have != want {
		t.Errorf("have %s, want %s", have, want)
	}
	wantFaults(t, text+"2025-01-02,,egg,7\n2025-01-02,p,,5\n2025-01-02,,jar,3\n2024-12-31,p,,1\n2025-01-02,q,,1\n2025-01-02,,pie,1\n2025-01-02,,jar,1 kg\n",
		"counts.csv:2 quantity 7 ea of egg are counted, but the books have 6 ea",
		"counts.csv:3 quantity 5 of pack p are counted, but the books have 4",
		"counts.csv:4 quantity 3 of jar are counted empty, but the books have 2: 2 owned, less 0 full in store",
		"counts.csv:5 date pack p was packed on 2025-01-01, after this stocktake of 2024-12-31",
		`counts.csv:6 pack pack: no pack is called "q"`,
		`counts.csv:7 item item: no food or supply is called "pie"`,
		"counts.csv:8 quantity quantity: 1 kg is no number of pieces of jar",
	)
}

// What is drawn of fresh food and of supplies leaves their lots; a supply that
// no lot covers goes at its list price.
func TestFreshDraws(t *testing.T) {
	g := book(t, `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,stock,1,2 L,4.00
a,2025-01-01,2,supply,jar,1,,2.00
-- draws.csv --
date,item,quantity,reason
2025-01-02,stock,510 g,given
2025-01-02,jar,1,spoiled
2025-01-02,lid,2,
`)
	figures(t, map[string]any{"fresh": g.Flows.FreshDraws, "supplies": g.Flows.SupplyDraws, "moves": moved(g), "left": foodStock(t, g, "stock").Left},
		map[string]string{"fresh": "1", "supplies": "2.2", "moves": "given 0.5 for 1, spoiled 1 for 2, used 2 for 0.2", "left": "1.5"})
	wantFaults(t, "-- draws.csv --\ndate,item,quantity\n2025-01-02,egg,1\n2025-01-02,pie,1\n2025-01-02,oil,1\n2025-01-02,jar,1 L\n",
		"draws.csv:2 quantity this draw takes 1 ea of egg on 2025-01-02, but none is in hand",
		`draws.csv:3 item item: no food or supply is called "pie"`,
		"draws.csv:4 quantity 25 uses of oil, as many as 1 new one has, are covered by no receipt, and it has no list price",
		"draws.csv:5 quantity quantity: 1 L is no number of pieces of jar",
	)
}
