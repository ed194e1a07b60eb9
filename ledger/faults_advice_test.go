package ledger_test

import (
	"strings"
	"testing"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/ledgertest"
	"putby/pricing/exact"
)

// TestFaultsAdvise holds faults that a record more would mend to what adds it: a hint
// that names a file alone is no help on a phone.
func TestFaultsAdvise(t *testing.T) {
	rec, read, err := ledgertest.Read(files(`-- settings.csv --
setting,value
currency,EUR
zone,Europe/Vienna
-- tariffs.csv --
tariff,rate
flat,0.25
-- foods.csv --
food,basis
leek,mass
-- machines.csv --
machine,cycles
dryer,10
-- supplies.csv --
supply,kind
lid,lid
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
r,2025-01-01,1,food,leeks,1,1 kg,1
-- runs.csv --
run,machine,start,kwh
d,dryer,2025-01-03 08:00,1
-- packs.csv --
pack,item,date,count,each,with
p,leek,2025-01-05,1,1 kg,1 lid
-- draws.csv --
date,pack,item,quantity
2025-01-06,,parsnip,1 kg
`))
	if err != nil {
		t.Fatal(err)
	}
	_, faults := ledger.Join(rec, ledger.Options{Read: read, Through: exact.NoDate, PricesThrough: exact.NoDate})
	var said []string
	for _, f := range faults {
		if f.Hint != "" && strings.Contains(f.Hint, "add it to ") {
			t.Errorf("%v: %s", f, f.Hint)
		}
		said = append(said, strings.ReplaceAll(advice.After(advice.Plain{}, f.Hint, f.Do), "\n", "; or "))
	}
	all := strings.Join(said, "\n")
	for _, want := range []string{
		"leek, which is near; or add a food: food add food leeks",
		"correct the name, or add a food: food add food parsnip; or add a supply: supply add supply parsnip",
		"record what it was bought for: receipt add; or give the price of one, for where no receipt covers it: edit supply lid price 0.50",
		"say what went in: load add run d",
		"name that of the run: edit run d tariff NAME; or name that of all runs: edit setting tariff value NAME",
	} {
		if !strings.Contains(all, want) {
			t.Errorf("nothing advises %q:\n%s", want, all)
		}
	}
}
