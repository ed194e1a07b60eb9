package ledger_test

import (
	"fmt"

	"putby/ledger"
	"putby/ledger/ledgertest"
)

// What the 2 kg of peas of a run cost: 6.00 at the shop and 10 kWh at 0.30. Half of
// them was lost with its share of everything.
func ExampleJoin() {
	rec, wrong, err := ledgertest.Read(map[string]string{
		"settings.csv": "setting,value\ncurrency,EUR\nzone,Europe/Lisbon\ntariff,flat\n",
		"foods.csv":    "food,basis\npeas,mass\n",
		"machines.csv": "machine,load_mass,cycles\ndryer,4 kg,1000\n",
		"tariffs.csv":  "tariff,rate\nflat,0.30\n",
		"receipts.csv": "receipt,date,shop,line,kind,item,count,size,price\nr1,2026-05-02,Stall,1,food,peas,4,500 g,1.50\n",
		"runs.csv":     "run,machine,start,end,kwh\nd1,dryer,2026-05-03 08:00,2026-05-04 06:00,10\n",
		"loads.csv":    "run,item,quantity,lost\nd1,peas,2 kg,1 kg\n",
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	g, faults := ledger.Join(rec, ledger.Options{Read: wrong})
	if len(faults) > 0 {
		fmt.Println(faults)
		return
	}
	run, _ := g.FindRun("d1")
	for _, load := range g.Runs[run].Loads {
		fmt.Println("food", load.Costs[ledger.FoodCost], "electricity", load.Costs[ledger.ElectricityCost], "in all", load.Costs.Total(), "lost", load.Lost.Total())
	}
	for _, identity := range g.Identities() {
		if !identity.Holds() {
			fmt.Println(identity.Name, "does not sum")
		}
	}
	// Output:
	// food 6 electricity 3 in all 9 lost 4.5
}
