package figures_test

import (
	"fmt"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/ledgertest"
	"putby/pricing/exact"
)

// Two kilograms of peas for 6.00, dried with 10 kWh at 0.30, come to 4.50 a kilogram. A
// program that has the ledger in a folder reads it by package folder instead.
func ExampleCost() {
	rec, wrong, err := ledgertest.Read(map[string]string{
		"settings.csv": "setting,value\nformat,1\ncurrency,EUR\nzone,Europe/Lisbon\ntariff,flat\n",
		"foods.csv":    "food,name,basis\npeas,Peas,mass\n",
		"machines.csv": "machine,name,trays,load_volume,load_mass,cycles,residual,with\ndryer,Dryer,4,,4 kg,1000,,\n",
		"tariffs.csv":  "tariff,from,months,days,start,end,above_kwh,rate,tax\nflat,,,,,,,0.30,\n",
		"receipts.csv": "receipt,date,shop,line,kind,item,count,size,price\nr1,2026-05-02,Stall,1,food,peas,4,500 g,1.50\n",
		"runs.csv":     "run,machine,start,end,kwh,outcome\nd1,dryer,2026-05-03 08:00,2026-05-04 06:00,10,good\n",
		"loads.csv":    "run,item,quantity\nd1,peas,2 kg\n",
		"packs.csv":    "pack,run,item,date,count,each\nd1-a,d1,peas,2026-05-04,4,500 g\n",
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	g, faults := ledger.Join(rec, ledger.Options{Read: wrong, Through: exact.NoDate, PricesThrough: exact.NoDate})
	if len(faults) > 0 {
		fmt.Println(faults)
		return
	}
	r, err := figures.Cost(g, figures.CostQuery{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, row := range r.Rows {
		each := row.PerUnit().Or(exact.Ratio{})
		fmt.Println(g.Foods[row.Food].Name, row.Made, row.Unit, "for", row.Good.Total(), "=", each.Round(2, exact.HalfAway).Fixed(2), "each")
	}
	// Output: Peas 2 kg for 9 = 4.50 each
}
