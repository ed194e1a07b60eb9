package report_test

import (
	"slices"
	"testing"

	"putby/ledger/report"
	"putby/pricing/exact"
)

// A report says how many records of later days it leaves out, and which is the
// first.
func TestLeftOut(t *testing.T) {
	dir := write(t, `-- foods.csv --
food,name,basis
pears,Pears,mass
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,pears,1,9 kg,9.00
-- draws.csv --
date,item,quantity
2025-01-02,pears,1 kg
2036-11-28,pears,1 kg
`)
	for day, want := range map[string][]string{
		"2036-11-28": nil,
		"2025-01-02": {"1 record is of a day after 2025-01-02 and is left out: the draw of pears of 2036-11-28 (draws.csv line 3)"},
		"2024-12-31": {"3 records are of days after 2024-12-31 and are left out, the first is receipt a of 2025-01-01 (receipts.csv line 2)"},
	} {
		if have := report.LeftOut(join(t, dir, date(day))); !slices.Equal(have, want) {
			t.Errorf("as of %s: %q, want %q", day, have, want)
		}
	}
	if have := report.LeftOut(join(t, dir, exact.NoDate)); have != nil {
		t.Errorf("the whole ledger leaves out %q", have)
	}
}
