package ledger_test

import (
	"fmt"
	"strings"
	"testing"

	"putby/ledger"
	"putby/pricing/exact"
)

// laterRecords has a record of every kind on 1 January, and on a later day
// each.
const laterRecords = `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,leek,1,9 kg,9.00
late,2025-02-06,1,food,leek,1,1 kg,1.00
late,2025-02-06,2,other,soap,1,,1.00
-- shelf.csv --
date,shop,item,size,price
2025-01-01,a,leek,1 kg,2.00
2025-02-05,a,leek,1 kg,2.50
-- batches.csv --
batch,date,item,quantity,from
b,2025-01-01,soup,4 L,1 kg leek
c,2025-02-04,soup,4 L,1 kg leek
-- runs.csv --
run,machine,start,kwh
r,dryer,2025-01-01 08:00,0
s,dryer,2025-02-03 08:00,0
-- loads.csv --
run,item,quantity
r,soup,2 L
s,soup,1 L
-- packs.csv --
pack,run,item,date,count,each
p,r,soup,2025-01-01,1,1 L
q,r,soup,2025-02-02,1,1 L
-- draws.csv --
date,pack,item,quantity
2025-01-01,,leek,1 kg
2025-02-01,p,,1
-- counts.csv --
date,item,quantity
2025-01-01,soup,2 L
2025-02-07,leek,4 kg
`

// What is of days after one is known by kind, name and place, the earliest
// first; a receipt is one record. A report on whole runs counts their later
// packs.
func TestRecordsOfLaterDays(t *testing.T) {
	named := func(list []ledger.Dated) string {
		var names []string
		for _, d := range list {
			names = append(names, fmt.Sprintf("%v %s %s %s:%d", d.Date, d.Kind, d.Name, d.File, d.Line))
		}
		return strings.Join(names, "; ")
	}
	const all = "2025-02-01 draw p draws.csv:3; 2025-02-02 pack q packs.csv:3; 2025-02-03 run s runs.csv:3; 2025-02-04 batch c batches.csv:3; " +
		"2025-02-05 price leek shelf.csv:3; 2025-02-06 receipt late receipts.csv:3; 2025-02-07 count leek counts.csv:3"
	day := exact.MustDate("2025-01-31")
	for what, c := range map[string]struct {
		o    ledger.Options
		want string
	}{
		"by the day": {ledger.Options{Through: day, PricesThrough: day}, all},
		"whole runs": {ledger.Options{Through: exact.NoDate, PricesThrough: day}, strings.Replace(all, "2025-02-02 pack q packs.csv:3; ", "", 1)},
		"the last":   {ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate}, ""},
		"beyond it":  {ledger.Options{Through: exact.MustDate("2026-01-01"), PricesThrough: exact.NoDate}, ""},
	} {
		if have := named(bookAt(t, laterRecords, c.o).LeftOut()); have != c.want {
			t.Errorf("%s leaves out\n%s\nwant\n%s", what, have, c.want)
		}
	}
}

// Beyond the last record nothing happens, so every sum stays as it was then.
func TestStandingBeyondTheLastRecord(t *testing.T) {
	last, later := bookAt(t, laterRecords, asOf("2025-02-07")), bookAt(t, laterRecords, asOf("2036-02-07"))
	if later.Day() != exact.MustDate("2036-02-07") {
		t.Errorf("it stands at %v", later.Day())
	}
	if have, want := standing(later), standing(last); have != want {
		t.Errorf("have\n%s\nwant\n%s", have, want)
	}
}
