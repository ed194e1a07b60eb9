package intake_test

import (
	"fmt"
	"strings"
	"time"

	"putby/ledger"
	"putby/ledger/intake"
	"putby/pricing/exact"
)

// A farm shop's export, read without being told anything but what its goods
// are called in the ledger.
func Example() {
	export := strings.NewReader("Kaufdatum;Beleg;Markt;Artikel;Menge;Summe\n" +
		"14.03.2025;118;Hof am Bach;Porree;1,5 kg;3,75 €\n" +
		"14.03.2025;118;Hof am Bach;Haferdrink 1 l;3;5,00 €\n" +
		"31.03.2025;121;Hof am Bach;Kerzen;1;4,20 €\n")
	rec := &ledger.Records{
		Settings: ledger.Settings{Currency: exact.MustCurrency("EUR")},
		Foods:    []ledger.Food{{ID: "leeks", Basis: exact.Kg}, {ID: "oat-drink", Basis: exact.L}},
	}
	names, _ := intake.ParseNames("map,name,kind,item,size\n,Porree,,leeks,\n,Haferdrink*,,oat-drink,\n")

	table, err := intake.Read(export, intake.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	m, err := intake.Propose(table, intake.Receipts, "hof", rec)
	if err != nil {
		fmt.Println(err)
		return
	}
	plan, err := m.Plan(table, intake.PlanOptions{Records: rec, Names: names})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(plan.Form, "- dates", plan.Dates, "- decimal", plan.Decimal)
	for row := range plan.Add[0].Rows() {
		fmt.Println(row.Line, strings.Join(row.Cells, ","))
	}
	fmt.Print(string(intake.PrintMaps([]intake.Map{plan.Definite()})))
	// Output:
	// utf-8, separated by semicolon - dates dmy - decimal comma
	// 2 118,2025-03-14,Hof am Bach,1,food,leeks,1.5,1 kg,2.50,,,,
	// 3 118,2025-03-14,Hof am Bach,2,food,oat-drink,3,1 L,1.667,,,,
	// 4 121,2025-03-31,Hof am Bach,1,other,Kerzen,1,,4.20,,,,
	// map,for,column,from,value,how
	// hof,receipts,decimal,,comma,
	// hof,receipts,dates,,dmy,
	// hof,receipts,receipt,Beleg,,
	// hof,receipts,date,Kaufdatum,,
	// hof,receipts,shop,Markt,,
	// hof,receipts,item,Artikel,,
	// hof,receipts,count,Menge,,
	// hof,receipts,size,Artikel,,within
	// hof,receipts,price,Summe,,total
}

// A plug meter's log with a decimal comma, in kilowatts and local time.
func ExampleReadLog() {
	zone, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		fmt.Println(err)
		return
	}
	file := "Zeit;Leistung (kW)\n" +
		"03.02.2025 18:00:00;0,4\n" +
		"03.02.2025 18:06:00;0,4\n" +
		"03.02.2025 18:12:00;0,9\n"
	log, report, err := intake.ReadLog(strings.NewReader(file), intake.LogOptions{Zone: zone})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(report.Rows, "rows,", log.Energy(log.First(), log.Last()).Round(3, exact.HalfEven), "kWh")
	// Output:
	// 3 rows, 0.105 kWh
}
