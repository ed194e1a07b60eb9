package ledger_test

import (
	"fmt"
	"strings"
	"testing"

	"putby/pricing/exact"
)

// twoFoods is a run of 4 kWh, 1.00, with two loads, whose rows follow.
const twoFoods = `-- foods.csv --
food,basis,density,piece_kg
stock,volume,1.02,
leek,mass,,
soup,volume,,
egg,count,,0.05
bean,count,,
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,leek,1,9 kg,0
a,2025-01-01,2,food,egg,90,1 ea,0
a,2025-01-01,3,food,stock,9,1 L,0
a,2025-01-01,4,food,soup,9,1 L,0
a,2025-01-01,5,food,bean,90,1 ea,0
-- runs.csv --
run,machine,start,kwh
r,dryer,2025-01-02 08:00,4
-- loads.csv --
run,item,quantity,trays,wet,dry
`

// Costs of a run go by water removed when all loads tell of it, else by mass,
// by trays, by quantity in one unit; the settings say which is tried first. A
// way whose weights sum to zero is passed over.
func TestShareOrder(t *testing.T) {
	for _, c := range []struct{ name, share, loads, by, want string }{
		{"water", "", "r,leek,1 kg,1,1 kg,0.25 kg\nr,stock,1 L,4,1 kg,0.75 kg\n", "water", "0.75 0.25"},
		{"no dry weight: mass, wet where there is one", "", "r,leek,3 kg,1,1 kg,\nr,stock,2 L,1,3 kg,1 kg\n", "mass", "0.25 0.75"},
		{"mass through density and pieces", "", "r,stock,1 L,9,,\nr,egg,20,1,,\n", "mass", "0.50495 0.49505"}, // 1.02 kg and 1 kg
		{"no density: trays", "", "r,soup,3 L,1,,\nr,leek,1 kg,3,,\n", "trays", "0.25 0.75"},
		{"no trays: quantity of one unit", "", "r,soup,3 L,,,\nr,stock,1 L,1,,\n", "quantity", "0.75 0.25"},
		{"pieces without weight: quantity", "", "r,egg,3,,,\nr,bean,1,,,\n", "quantity", "0.75 0.25"},
		{"trays first when the settings say so", "trays", "r,leek,1 kg,1,1 kg,0.25 kg\nr,stock,1 L,4,1 kg,0.75 kg\n", "trays", "0.2 0.8"},
		{"mass first", "mass", "r,leek,1 kg,1,1 kg,0.25 kg\nr,stock,1 L,4,3 kg,0.75 kg\n", "mass", "0.25 0.75"},
		{"trays first, but not all have them: water", "trays", "r,leek,1 kg,1,1 kg,0.25 kg\nr,stock,1 L,,1 kg,0.75 kg\n", "water", "0.75 0.25"},
		{"no water came out: mass", "", "r,leek,1 kg,1,1 kg,1 kg\nr,stock,1 L,4,3 kg,3 kg\n", "mass", "0.25 0.75"},
		{"a load that lost no water costs no power", "", "r,leek,1 kg,1,1 kg,1 kg\nr,stock,1 L,4,3 kg,1 kg\n", "water", "0 1"},
		{"two loads of one food", "", "r,leek,1 kg,,,\nr,leek,3 kg,,,\n", "mass", "0.25 0.75"},
		{"a single load needs no weight", "", "r,soup,1 L,,,\n", "quantity", "1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			settings := ""
			if c.share != "" {
				settings = settingsWith("share," + c.share)
			}
			r := run(t, book(t, settings+twoFoods+c.loads), "r")
			var parts []string
			for _, l := range r.Loads {
				parts = append(parts, l.Costs[1].String())
			}
			if have := strings.Join(parts, " "); have != c.want || r.SharedBy.String() != c.by {
				t.Errorf("by %v: %s; want by %s: %s", r.SharedBy, have, c.by, c.want)
			}
		})
	}
}

// Nothing tells how litres and kilograms share: a fault that says what to add.
func TestNothingToShareBy(t *testing.T) {
	wantFaults(t, twoFoods+"r,soup,1 L,1,,\nr,leek,1 kg,,,\n",
		"loads.csv:2 wet run r has several foods, and nothing says how they share its costs")
}

// Two loads of one food are one food's cost, and a food's part of the run's
// energy is the same as of its cost; the hours are the whole run's.
func TestSeveralLoadsOfOneFood(t *testing.T) {
	text := strings.Replace(twoFoods, "r,dryer,2025-01-02 08:00,4", "r,dryer,2025-01-02 08:00,5", 1)
	r := run(t, book(t, text+"r,leek,1 kg,,,\nr,egg,40,,,\nr,leek,2 kg,,,\n"), "r")
	figures(t, map[string]any{
		"items": len(r.Items), "leek": r.Items[0].Loaded, "leek cost": r.Items[0].Good, "egg cost": r.Items[1].Good,
		"leek kWh": r.Items[0].Energy, "egg kWh": r.Items[1].Energy, "length": r.Length.Given(),
	}, map[string]string{
		"items": "2", "leek": "3", "leek cost": "[0 0.75 0 0 0]", "egg cost": "[0 0.5 0 0 0]", "leek kWh": "3", "egg kWh": "2", "length": "false",
	})
}

// Each of a run's four totals is split once over its loads in file order, by
// largest remainder: 0.000001 three ways goes to the first.
func TestTotalsAreSplitOnce(t *testing.T) {
	g := book(t, settingsWith("hour_value,0.0036")+`-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,egg,3,1 ea,0
-- runs.csv --
run,machine,start,kwh,hands
r,dryer,2025-01-02 08:00,0,1s
-- loads.csv --
run,item,quantity
r,egg,1
r,egg,1
r,egg,1
`)
	var parts []string
	for _, l := range run(t, g, "r").Loads {
		parts = append(parts, l.Costs[4].String())
	}
	if have := fmt.Sprint(parts); have != "[0.000001 0 0]" {
		t.Errorf("labour is split %s", have)
	}
}

const lostRun = `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
e,2025-01-01,1,food,egg,1,6 ea,1.00
-- runs.csv --
run,machine,start,kwh,outcome
r,dryer,2025-01-02 08:00,4,good
-- loads.csv --
run,item,quantity,lost
r,egg,6,1
-- packs.csv --
pack,run,item,date,count,each
p,r,egg,2025-01-03,1,5
`

// What spilled is loss, beside the good cost and never inside it: each element
// times lost / quantity, rounded half to even; the load keeps the rest.
func TestLostPart(t *testing.T) {
	g := book(t, lostRun)
	item := run(t, g, "r").Items[0]
	figures(t, map[string]any{
		"lost": *item.Lost, "good": item.Good, "part": item.LostPart, "flow": g.Flows.Lost, "pack": pack(t, g, "p").Total(),
	}, map[string]string{
		"lost": "[0.166667 0.166667 0 0 0]", "good": "[0.833333 0.833333 0 0 0]", "part": "1", "flow": "0.333334", "pack": "1.666666",
	})
}

// IAS 2, paragraph 16: abnormal amounts of waste are expensed, not put into
// what is left. All of a spoiled run is.
func TestSpoiledRun(t *testing.T) {
	text := strings.Replace(lostRun, ",good", ",spoiled", 1)
	g := book(t, text[:strings.Index(text, "-- packs")])
	item := run(t, g, "r").Items[0]
	figures(t, map[string]any{"lost": *item.Lost, "good": item.Good.Total(), "part": item.LostPart, "flow": g.Flows.Lost},
		map[string]string{"lost": "[1 1 0 0 0]", "good": "0", "part": "6", "flow": "2"})
}

func TestLossFaults(t *testing.T) {
	wantFaults(t, strings.Replace(lostRun, "egg,6,1", "egg,6,7", 1), "loads.csv:2 lost lost: 7 is more than the 6 loaded")
	wantFaults(t, strings.Replace(lostRun, "egg,6,1", "egg,6,1 kg", 1), "loads.csv:2 lost lost: egg is counted in pieces, and 1 kg is a mass")
	wantFaults(t, strings.Replace(lostRun, ",good", ",spoiled", 1), "packs.csv:2 run pack p comes from the run r, which spoiled")
}

// By hand: a US quart is 0.946352946 L (NIST Handbook 44, appendix C), 1 qt at
// 1.0482 kg/L 0.9919671579972 kg, of 13 decimals. Of 20 kWh beside 1 kg of leek
// it takes 9.95967382308151..., which a weight rounded at 12 decimals makes
// 9.95967382308146...
func TestShareByUnroundedMass(t *testing.T) {
	text := strings.NewReplacer("1.02,", "1.0482,", "08:00,4", "08:00,20").Replace(twoFoods)
	items := run(t, book(t, text+"r,leek,1 kg,,,\nr,stock,1 qt,,,\n"), "r").Items
	for i, want := range []string{"10.040326176918", "9.959673823082"} {
		if have := items[i].Energy.Round(exact.QuantityPlaces, exact.HalfEven).Fixed(exact.QuantityPlaces); have != want {
			t.Errorf("load %d has %s kWh, want %s", i, have, want)
		}
	}
}
