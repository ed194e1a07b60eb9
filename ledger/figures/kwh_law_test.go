package figures_test

import (
	"fmt"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/ledgertest"
	"putby/pricing/exact"
)

// sameKWh asks what a full cycle of a food uses where a sale is judged, and where
// a start is looked for. It reports whether both could say.
func sameKWh(t rapid.TB, g *ledger.Ledger, food, machine string) bool {
	worth := figures.WorthQuery{
		Item: food, Machine: machine, AsOf: g.AsOf, Price: exact.Some(num("1")), Shelf: exact.Some(num("4")), Limit: exact.Some(3),
		Cycles: exact.Some(3), PackCost: exact.Some(money("0.1")),
	}
	at, ok := g.FindFood(food)
	if !ok {
		t.Fatalf("no food %s", food)
	}
	unit := " " + g.Foods[at].Basis.String()
	worth.Size, worth.Each = amount("1"+unit), amount("1"+unit)
	f, _, err := figures.Answer(g, worth)
	if err != nil {
		return false
	}
	w, err := figures.When(g, figures.WhenQuery{
		Item: food, Machine: machine, Load: amount(f.Load.Most.String() + unit), From: g.AsOf.Midnight(g.Settings.Zone), Step: time.Hour,
	})
	if err != nil {
		return false
	}
	worths := f.Energy.KWh(f.Load.Most)
	if !worths.Equal(w.Cycle.KWh) || f.Energy.Basis != w.Cycle.Energy.Basis || f.Energy.Unphased != w.Cycle.Energy.Unphased {
		t.Errorf("a cycle of %s uses %v kWh where a sale is judged (%+v), and %v where a start is looked for (%+v)", food, worths, f.Energy, w.Cycle.KWh, w.Cycle.Energy)
	}
	if !w.Cycle.OtherDryer && fmt.Sprint(f.Price.Phases) != fmt.Sprint(w.Cycle.Phases) {
		t.Errorf("a cycle of %s has the phases %v where a sale is judged, and %v where a start is looked for", food, f.Price.Phases, w.Cycle.Phases)
	}
	return true
}

// A household with two machines, each of whose runs has a meter, phases or both,
// an end or neither, and one food or two.
func drawMachines(t *rapid.T) map[string]string {
	files := map[string]string{
		"settings.csv": "setting,value\nformat,1\ncurrency,EUR\nzone,UTC\ntariff,home\n",
		"tariffs.csv":  "tariff,rate\nhome,0.20\n",
		"foods.csv":    "food,basis\npears,mass\npeas,mass\n",
		"machines.csv": "machine,load_mass,cycles\nold,5 kg,100\nbig,9 kg,100\n",
		"wattage.csv":  "machine,phase,watts\nold,freezing,500\nold,primary,600\nbig,freezing,700\nbig,primary,900\n",
		"receipts.csv": "receipt,date,line,kind,item,count,size,price\na,2025-01-01,1,food,pears,1,90 kg,9\na,2025-01-01,2,food,peas,1,90 kg,9\n",
		"runs.csv":     "run,machine,start,end,kwh\n", "phases.csv": "run,step,phase,duration\n", "loads.csv": "run,item,quantity\n",
	}
	pick := func(label string, of ...string) string { return rapid.SampledFrom(of).Draw(t, label) }
	for n := range rapid.IntRange(1, 6).Draw(t, "runs") {
		end, kwh := "", pick("kwh", "12", "15.5")
		switch pick("length", "phases", "end", "none") {
		case "phases":
			files["phases.csv"] += fmt.Sprintf("r%d,1,freezing,%sh\nr%d,2,primary,%sh\n", n, pick("freezing", "4", "7"), n, pick("primary", "20", "25"))
			kwh = pick("metered", "", kwh)
		case "end":
			end = fmt.Sprintf("2025-01-%02d %s:00", 3+2*n, pick("until", "08", "17"))
		}
		files["runs.csv"] += fmt.Sprintf("r%d,%s,2025-01-%02d 08:00,%s,%s\n", n, pick("machine", "old", "big"), 2+2*n, end, kwh)
		for _, food := range rapid.SampledFrom([][]string{{"pears"}, {"peas"}, {"pears", "peas"}}).Draw(t, "foods") {
			files["loads.csv"] += fmt.Sprintf("r%d,%s,%s kg\n", n, food, pick("load", "2", "4", "5"))
		}
	}
	return files
}

// What a run uses is the same figure for a sale and for a start: of the sample's
// foods, of a food whose own runs have no phases where another's on the machine
// have, and of households as they are drawn.
func TestWorthAndWhenSayTheSameKWh(t *testing.T) {
	sample, said := whole(t, "sample"), 0
	for i := range sample.Foods {
		if sameKWh(t, sample, sample.Foods[i].ID, "") {
			said++
		}
	}
	if said < 5 {
		t.Errorf("%d foods of the sample have one", said)
	}
	said = 0
	rapid.Check(t, func(rt *rapid.T) {
		rec, faults, err := ledgertest.Read(drawMachines(rt))
		if err != nil || len(faults) > 0 {
			rt.Fatal(err, faults)
		}
		g, faults := ledger.Join(rec, ledger.Options{Through: exact.MustDate("2025-02-01"), PricesThrough: exact.NoDate})
		if len(faults) > 0 {
			rt.Fatal(faults)
		}
		for _, food := range []string{"pears", "peas"} {
			for _, machine := range []string{"", "old", "big"} {
				if sameKWh(rt, g, food, machine) {
					said++
				}
			}
		}
	})
	if said == 0 {
		t.Error("no household drawn has one")
	}
}

// By hand. Pears were dried for 30 h, with peas beside them and without phases, so that
// no run of theirs alone has a meter; a run of peas froze for 4 h and dried for 16, at the machine's 500 and
// 600 W. So 30 h of pears freeze for 6 and dry for 24: 3 + 14.4 =
// 17.4 kWh, and not 30 h at the 600 W of drying, 18.
func TestPhasesOfAnotherFoodTellTheKWh(t *testing.T) {
	rec, faults, err := ledgertest.Read(map[string]string{
		"settings.csv": "setting,value\nformat,1\ncurrency,EUR\nzone,UTC\ntariff,home\n",
		"tariffs.csv":  "tariff,rate\nhome,0.20\n",
		"foods.csv":    "food,basis\npears,mass\npeas,mass\n",
		"machines.csv": "machine,load_mass,cycles\nold,5 kg,100\n",
		"wattage.csv":  "machine,phase,watts\nold,freezing,500\nold,primary,600\n",
		"receipts.csv": "receipt,date,line,kind,item,count,size,price\na,2025-01-01,1,food,pears,1,9 kg,9\na,2025-01-01,2,food,peas,1,9 kg,9\n",
		"runs.csv":     "run,machine,start,end,kwh\nr1,old,2025-01-02 08:00,2025-01-03 14:00,19\nr2,old,2025-01-05 08:00,,\n",
		"phases.csv":   "run,step,phase,duration\nr2,1,freezing,4h\nr2,2,primary,16h\n",
		"loads.csv":    "run,item,quantity\nr1,pears,2 kg\nr1,peas,2 kg\nr2,peas,4 kg\n",
	})
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	g, faults := ledger.Join(rec, ledger.Options{Through: exact.MustDate("2025-02-01"), PricesThrough: exact.NoDate})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if !sameKWh(t, g, "pears", "") {
		t.Error("they do not both say")
	}
	w, err := figures.When(g, figures.WhenQuery{Item: "pears", From: g.AsOf.Midnight(time.UTC), Step: time.Hour})
	if err != nil || !w.Cycle.KWh.Equal(num("17.4")) || w.Cycle.Energy.Unphased {
		t.Errorf("%v kWh (%v)", w.Cycle.KWh, err)
	}
}
