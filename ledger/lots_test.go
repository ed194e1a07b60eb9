package ledger_test

import (
	"strings"
	"testing"
)

// OpenStax, Principles of Accounting, Volume 1, chapter 10 ("Inventory", the
// example of section 10.2 on): opening 150 units at 21, sold 120, bought 225
// at 27, sold 180, bought 210 at 33. 285 are left; 16,155 was to account for.
const spyWidgets = `-- foods.csv --
food,basis
unit,count
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
opening,2025-01-01,1,food,unit,150,1 ea,21
second,2025-03-01,1,food,unit,225,1 ea,27
third,2025-05-01,1,food,unit,210,1 ea,33
-- runs.csv --
run,machine,start,kwh
sold-120,dryer,2025-02-01 08:00,0
sold-180,dryer,2025-04-01 08:00,0
`

const soldAny = "-- loads.csv --\nrun,item,quantity\nsold-120,unit,120\nsold-180,unit,180\n"

func TestOpenStaxFirstInFirstOut(t *testing.T) {
	g := book(t, spyWidgets+soldAny)
	figures(t, map[string]any{
		"first sale": run(t, g, "sold-120").Items[0].Good.Total(), "second sale": run(t, g, "sold-180").Items[0].Good.Total(),
		"sold": g.Flows.Food, "left": g.LeftInLots(), "units": foodStock(t, g, "unit").Left, "bought": g.Flows.Bought,
	}, map[string]string{
		"first sale": "2520", "second sale": "4680", "sold": "7200", "left": "8955", "units": "285", "bought": "16155",
	})
}

func TestOpenStaxMovingAverage(t *testing.T) {
	text := strings.Replace(spyWidgets+soldAny, "-- foods.csv --", settingsWith("costing,average")+"-- foods.csv --", 1)
	g := book(t, text)
	// After the second purchase 255 units cost 630 + 6,075 = 6,705; 180 of them
	// 6,705 x 180/255 = 4,732.941176..., posted at 6 places.
	figures(t, map[string]any{
		"sold": g.Flows.Food, "left": g.LeftInLots(), "units": foodStock(t, g, "unit").Left,
	}, map[string]string{"sold": "7252.941176", "left": "8902.058824", "units": "285"})
}

func TestOpenStaxNamedLots(t *testing.T) {
	g := book(t, spyWidgets+`-- loads.csv --
run,item,quantity,receipt
sold-120,unit,120,opening
sold-180,unit,20,opening
sold-180,unit,160,second
`)
	figures(t, map[string]any{
		"sold": g.Flows.Food, "left": g.LeftInLots(), "units": foodStock(t, g, "unit").Left,
	}, map[string]string{"sold": "7260", "left": "8895", "units": "285"})
}

// settingsWith are the settings of the base with more of them.
func settingsWith(rows ...string) string {
	return "-- settings.csv --\nsetting,value\nformat,1\ncurrency,EUR\nzone,UTC\ntariff,flat\n" + strings.Join(rows, "\n") + "\n"
}

// Averages that are rounded as they go lose money: 500 units for 1,200.00; 300
// out; 100 in at 3.50; 250 out; 300 in at 4.00 (own numbers). With
// the average rounded to 2.77 the parts come to 2,751.00 of 2,750.00.
func TestAveragesLoseNothing(t *testing.T) {
	g := book(t, settingsWith("costing,average")+`-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,egg,500,1 ea,2.40
b,2025-01-03,1,food,egg,100,1 ea,3.50
c,2025-01-05,1,food,egg,300,1 ea,4.00
-- draws.csv --
date,item,quantity
2025-01-02,egg,300
2025-01-04,egg,250
`)
	figures(t, map[string]any{"out": g.Flows.FreshDraws, "left": g.LeftInLots(), "moves": moved(g)}, map[string]string{
		"moves": "used 300 for 720, used 250 for 691.666667", "out": "1411.666667", "left": "1338.333333",
	})
}

// Under average costing amounts leave the oldest lots first, for use-by dates,
// and the pool carries the cost.
func TestAverageLeavesOldestFirst(t *testing.T) {
	g := book(t, settingsWith("costing,average")+`-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,egg,6,1 ea,1.00
b,2025-01-02,1,food,egg,6,1 ea,2.00
-- draws.csv --
date,item,quantity
2025-01-03,egg,8
`)
	oldest := g.OldestLeft(foodStock(t, g, "egg"))
	figures(t, map[string]any{"oldest": oldest.Receipt(), "left": oldest.Left, "cost": foodStock(t, g, "egg").Cost, "takes": g.Takes},
		map[string]string{"oldest": "b", "left": "4", "cost": "6", "takes": "[{0 6 9} {1 2 3}]"})
}

// What a pool's draw cost is shared by the lots that gave it, each its part of
// what is left of it: 1.00 by three lots is a third, half of 0.666667 (a tie to
// even) and the rest.
func TestAverageSharesADrawOverItsLots(t *testing.T) {
	g := book(t, settingsWith("costing,average")+`-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,egg,1,1 ea,0.10
b,2025-01-02,1,food,egg,1,1 ea,0.70
c,2025-01-03,1,food,egg,1,1 ea,0.20
-- draws.csv --
date,item,quantity
2025-01-04,egg,3
`)
	figures(t, map[string]any{"moves": moved(g), "takes": g.Takes}, map[string]string{
		"moves": "used 3 for 1", "takes": "[{0 1 0.333333} {1 1 0.333334} {2 1 0.333333}]"})
}

// Whoever takes the last of a lot takes all that is left of its cost: a third
// of 1.00 three times is 0.333333, 0.333334 (of the 0.666667 left, a tie to
// even) and the rest.
func TestTheLastTakesAllThatIsLeft(t *testing.T) {
	g := book(t, `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,egg,3,1 ea,0.333
-- draws.csv --
date,item,quantity
2025-01-02,egg,1
2025-01-02,egg,1
2025-01-02,egg,1
`)
	if have, want := moved(g), "used 1 for 0.333333, used 1 for 0.333334, used 1 for 0.333333"; have != want {
		t.Errorf("have %s, want %s", have, want)
	}
	if !g.LeftInLots().IsZero() {
		t.Errorf("%v is left in an empty lot", g.LeftInLots())
	}
}

// A named load leaves the older lots alone, and the next load takes them
// first; a line picks one lot of a receipt, without it all of them serve.
func TestNamedLots(t *testing.T) {
	g := book(t, `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,egg,6,1 ea,1.00
b,2025-01-02,1,food,egg,6,1 ea,2.00
b,2025-01-02,2,food,egg,6,1 ea,3.00
-- runs.csv --
run,machine,start,kwh
line,dryer,2025-01-03 08:00,0
whole,dryer,2025-01-04 08:00,0
oldest,dryer,2025-01-05 08:00,0
-- loads.csv --
run,item,quantity,receipt,line
line,egg,2,b,2
whole,egg,9,b,
oldest,egg,6,,
`)
	figures(t, map[string]any{
		"line": run(t, g, "line").Loads[0].Costs[0], "whole": run(t, g, "whole").Loads[0].Costs[0], "oldest": run(t, g, "oldest").Loads[0].Costs[0],
	}, map[string]string{"line": "6", "whole": "21", "oldest": "6"}) // 6 x 2 + 3 x 3
}

// Garden produce is a receipt at price 0: it is there and costs nothing.
func TestGardenProduce(t *testing.T) {
	g := book(t, `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
garden,2025-07-01,1,food,leek,1,5 kg,0
-- runs.csv --
run,machine,start,kwh
r,dryer,2025-07-02 08:00,2
-- loads.csv --
run,item,quantity
r,leek,4 kg
`)
	figures(t, map[string]any{"good": run(t, g, "r").Items[0].Good, "left": foodStock(t, g, "leek").Left},
		map[string]string{"good": "[0 0.5 0 0 0]", "left": "0"}) // 5 kg less 20 % refuse; 2 kWh at 0.25
}

// A machine's cycles wear it from its price down to its residual, to the last
// digit, and then no more; the residual stays.
func TestWear(t *testing.T) {
	text := `-- machines.csv --
machine,cycles,residual
dryer,3,100
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
m,2025-01-01,1,machine,dryer,1,,300
e,2025-01-01,1,food,egg,10,1 ea,0
-- runs.csv --
run,machine,start,kwh
1,dryer,2025-01-02 08:00,0
2,dryer,2025-01-03 08:00,0
3,dryer,2025-01-04 08:00,0
4,dryer,2025-01-05 08:00,0
-- loads.csv --
run,item,quantity
1,egg,1
2,egg,1
3,egg,1
4,egg,1
`
	g := book(t, text)
	figures(t, map[string]any{
		"1": run(t, g, "1").Wear, "2": run(t, g, "2").Wear, "3": run(t, g, "3").Wear, "4": run(t, g, "4").Wear,
		"left": g.LeftInLots(), "notes": noted(g, run(t, g, "4").Notes),
	}, map[string]string{
		"1": "66.666667", "2": "66.666666", "3": "66.666667", "4": "0", "left": "100",
		"notes": "priced at its start|no cycle left of dryer",
	})
	// What is worth more at its end than it cost does not wear, and earns
	// nothing either.
	g = book(t, strings.Replace(text, "dryer,3,100", "dryer,3,400", 1))
	figures(t, map[string]any{"wear": g.Flows.Wear, "left": g.LeftInLots()}, map[string]string{"wear": "0", "left": "300"})
}

// A repair is added to what is left of the machine's newest lot, and so
// reaches the cycles that follow; with no lot or no cycle left it is spending
// only.
func TestRepair(t *testing.T) {
	g := book(t, `-- machines.csv --
machine,cycles
dryer,4
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
early,2024-12-31,1,service,dryer,1,,5
m,2025-01-01,1,machine,dryer,1,,400
fix,2025-01-03,1,service,dryer,1,,90
advice,2025-01-03,1,service,a lesson in drying,1,,70
late,2025-01-09,1,service,dryer,1,,11
e,2025-01-01,1,food,egg,10,1 ea,0
-- runs.csv --
run,machine,start,kwh
1,dryer,2025-01-02 08:00,0
2,dryer,2025-01-03 08:00,0
3,dryer,2025-01-04 08:00,0
4,dryer,2025-01-05 08:00,0
-- loads.csv --
run,item,quantity
1,egg,1
2,egg,1
3,egg,1
4,egg,1
`)
	figures(t, map[string]any{
		"1": run(t, g, "1").Wear, "2": run(t, g, "2").Wear, "3": run(t, g, "3").Wear, "4": run(t, g, "4").Wear,
		"bought": g.Flows.Bought, "early": noted(g, g.SpendNotes(0)), "advice": noted(g, g.SpendNotes(3)), "late": noted(g, g.SpendNotes(4)),
	}, map[string]string{
		"1": "100", "2": "130", "3": "130", "4": "130", "bought": "490", "advice": "",
		"early": "repair of no cycle of dryer",
		"late":  "repair of no cycle of dryer",
	})
}

// A second machine of one name is a second lot; cycles go oldest first, and a
// repair reaches the newest.
func TestTwoMachinesOfOneName(t *testing.T) {
	g := book(t, `-- machines.csv --
machine,cycles,residual
dryer,2,10
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
m1,2025-01-01,1,machine,dryer,1,,30
m2,2025-01-02,1,machine,dryer,1,,50
fix,2025-01-02,1,service,dryer,1,,4
e,2025-01-01,1,food,egg,10,1 ea,0
-- runs.csv --
run,machine,start,kwh
1,dryer,2025-01-03 08:00,0
2,dryer,2025-01-04 08:00,0
3,dryer,2025-01-05 08:00,0
-- loads.csv --
run,item,quantity
1,egg,1
2,egg,1
3,egg,1
`)
	figures(t, map[string]any{
		"1": run(t, g, "1").Wear, "2": run(t, g, "2").Wear, "3": run(t, g, "3").Wear, "left": g.LeftInLots(),
	}, map[string]string{"1": "10", "2": "10", "3": "22", "left": "42"}) // 10 of the first; 54 - 22 - 10 + 10 of the second
}

// Without a receipt a machine does not wear, with a note.
func TestNoMachineReceipt(t *testing.T) {
	g := book(t, oneRun)
	if r := run(t, g, "r"); !r.Wear.IsZero() || !strings.HasSuffix(noted(g, r.Notes), "|no receipt of dryer") {
		t.Errorf("wear %v, notes %q", r.Wear, noted(g, r.Notes))
	}
}

// oneRun is a run of 2 kWh that dries 4 eggs, which cost 1.00 each.
const oneRun = `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
e,2025-01-01,1,food,egg,1,4 ea,4.00
-- runs.csv --
run,machine,start,kwh
r,dryer,2025-01-02 08:00,2
-- loads.csv --
run,item,quantity
r,egg,4
`

// A dozen jars that each serve 20 times are a lot of 240 uses: after 20 uses of
// one its cost is gone, whatever the steps (common practice).
func TestJarsReused(t *testing.T) {
	var packs strings.Builder
	for i := range 20 {
		packs.WriteString("p" + string(rune('a'+i)) + ",,egg,2025-02-01,1,1,1 jar,0\n")
	}
	g := book(t, `-- supplies.csv --
supply,kind,uses
jar,jar,20
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
j,2025-01-01,1,supply,jar,1,,1.99
-- packs.csv --
pack,run,item,date,count,each,with,cost
`+packs.String())
	jar, _ := g.FindSupply("jar")
	stock := g.SupplyStock(jar)
	figures(t, map[string]any{
		"first": pack(t, g, "pa").Own, "last": pack(t, g, "pt").Own, "all": g.Flows.PackSupplies, "left": stock.Left, "cost": stock.Cost,
	}, map[string]string{"first": "0.0995", "last": "0.0995", "all": "1.99", "left": "0", "cost": "0"})
}

// A change of oil that is good for 25 cycles is drawn on once a cycle.
func TestOilByTheCycle(t *testing.T) {
	g := book(t, `-- machines.csv --
machine,cycles,with
dryer,100,1 oil
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
o,2025-01-01,1,supply,oil,1,1 ea,12.00
e,2025-01-01,1,food,egg,2,1 ea,0
-- runs.csv --
run,machine,start,kwh
1,dryer,2025-01-02 08:00,0
2,dryer,2025-01-03 08:00,0
-- loads.csv --
run,item,quantity
1,egg,1
2,egg,1
`)
	figures(t, map[string]any{"1": run(t, g, "1").Supplies, "2": run(t, g, "2").Supplies, "left": g.LeftInLots()},
		map[string]string{"1": "0.48", "2": "0.48", "left": "11.04"})
}

// What lots do not cover of a supply is charged at its list price by the use,
// with a note.
func TestSuppliesBeyondTheLots(t *testing.T) {
	g := book(t, `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
l,2025-01-01,1,supply,lid,1,3 ea,0.25
-- packs.csv --
pack,run,item,date,count,each,with,cost
p,,egg,2025-02-01,5,1,"1 lid, 1 jar",0
`)
	p := pack(t, g, "p")
	figures(t, map[string]any{"own": p.Own, "charges": g.Flows.Charges, "notes": noted(g, p.Notes()), "takes": g.Takes},
		map[string]string{
			"own": "0.95", "charges": "0.7", // 0.25 for 3 lids, 2 at 0.10; 5 uses of a jar at 2.00 for 20
			"notes": "list price of lid|list price of jar",
			"takes": "[{0 3 0.25} {-1 2 0.2} {-1 5 0.5}]",
		})
}

// A supply's size is a number of pieces; none is one piece.
func TestSupplySizes(t *testing.T) {
	g := book(t, `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
j,2025-01-01,1,supply,jar,2,,1
j,2025-01-01,2,supply,jar,1,1 doz,1
j,2025-01-01,3,supply,jar,1,6,1
`)
	jar, _ := g.FindSupply("jar")
	if left := g.SupplyStock(jar).Left.String(); left != "400" { // (2 + 12 + 6) x 20
		t.Errorf("%s uses of jars", left)
	}
}
