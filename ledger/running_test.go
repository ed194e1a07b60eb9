package ledger_test

import (
	"strings"
	"testing"
)

// running is a run that has begun and not ended, with what is known so far in
// place of %.
const running = `-- supplies.csv --
supply,kind,uses,price
jar,jar,20,2.00
oil,oil,25,50.00
-- machines.csv --
machine,cycles,with
dryer,100,1 oil
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,stock,1,8 L,16.00
m,2025-01-01,1,machine,dryer,1,,1000.00
o,2025-01-01,1,supply,oil,1,1 ea,50.00
-- loads.csv --
run,item,quantity
r,stock,6 L
-- runs.csv --
run,machine,start,kwh,outcome
r,dryer,2025-01-02 08:00,%,running
`

func begun(kwh string) string { return strings.Replace(running, "%", kwh, 1) }

// Food, wear and the machine's supplies are in a run from its start, whatever
// is known of its electricity; all of it awaits packing.
func TestRunning(t *testing.T) {
	for _, c := range []struct{ name, text, kwh, power, length, note string }{
		{"nothing known", begun(""), "0", "0", "-1ns", "nothing yet"},
		{"metered so far", begun("4"), "4", "1", "-1ns", "priced at its start"},
		{"phases so far", begun("") + "-- phases.csv --\nrun,step,phase,duration,watts\nr,1,freezing,2h,600\nr,2,primary,3h,400\n", "12/5", "0.6", "5h0m0s", ""},
		{"a phase of which nothing is known", begun("") + "-- phases.csv --\nrun,step,phase,duration,watts\nr,1,freezing,2h,600\nr,2,primary,3h,\n", "6/5", "0.3", "5h0m0s",
			"phases yet"},
		{"phases of which nothing is known", begun("") + "-- phases.csv --\nrun,step,phase,duration,watts\nr,1,freezing,2h,\n", "0", "0", "2h0m0s",
			"nothing yet"},
	} {
		t.Run(c.name, func(t *testing.T) {
			g := book(t, c.text)
			r := run(t, g, "r")
			figures(t, map[string]any{
				"food": r.Loads[0].Costs[0], "wear": r.Wear, "oil": r.Supplies, "power": r.Electricity, "kwh": r.Energy,
				"length": r.Length.Or(-1), "notes": noted(g, r.Notes), "left": g.FoodStock(0).Left, "awaiting": g.AwaitingPacking().Sub(r.Electricity),
			}, map[string]string{
				"food": "12", "wear": "10", "oil": "2", "power": c.power, "kwh": c.kwh, "length": c.length,
				"notes": c.note, "left": "2", "awaiting": "24",
			})
		})
	}
}

// A running run needs no tariff while there is nothing to bill.
func TestRunningWithoutTariff(t *testing.T) {
	none := "-- settings.csv --\nsetting,value\nformat,1\ncurrency,EUR\nzone,UTC\n"
	book(t, begun("")+none)
	wantFaults(t, begun("4")+none, "runs.csv:2 tariff run r has no tariff")
}

// It holds the machine until it is finished, gives no pack, and has no end.
func TestRunningFaults(t *testing.T) {
	second := "s,dryer,2025-02-02 09:00,1,\n"
	loads := "-- loads.csv --\nrun,item,quantity\nr,stock,6 L\ns,stock,1 L\n"
	wantFaults(t, begun("")+second+loads, "runs.csv:3 start run s starts on dryer at 2025-02-02 09:00, and run r is running there since 2025-01-02 08:00")
	before := "s,dryer,2025-01-02 07:00,1,\n"
	book(t, begun("")+before+loads) // over when the other begins
	wantFaults(t, begun("")+"-- packs.csv --\npack,run,item,date,count,each\np,r,stock,2025-01-03,1,5 L\n",
		"packs.csv:2 run pack p comes from the run r, which is running since 2025-01-02 08:00")
	wantFaults(t, strings.NewReplacer("kwh,outcome", "end,outcome", "%", "2025-01-03 08:00").Replace(running), "runs.csv:2 end end: the run is running, and has an end")
}
