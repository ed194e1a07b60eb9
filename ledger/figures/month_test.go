package figures_test

import (
	"testing"

	"putby/ledger/figures"
)

// The months go from the first to the last record that moves money, whatever its kind: all
// of the kitchen's are of June, and one of July makes them two. A run's month is that of its
// start, and what shops ask moves nothing.
func TestMonthsGoToTheLastRecord(t *testing.T) {
	for _, c := range []struct {
		file, row string
		months    int
	}{
		{"receipts.csv", "", 1},
		{"receipts.csv", "z,2025-07-02,Mill Lane,food,onions,1,1 kg,1\n", 2},
		{"batches.csv", "batch,date,item,quantity,from\nb1,2025-07-02,onions,1 kg,1 kg plums\n", 2},
		{"runs.csv", "r2,box,2025-07-02 08:00,12\n", 2},
		{"runs.csv", "r2,box,2025-06-30 20:00,12\n", 1},
		{"packs.csv", "p2,r1,plums,2025-07-02,1,600 g,\n", 2},
		{"draws.csv", "date,pack,item,quantity\n2025-07-02,p1,,1\n", 2},
		{"draws.csv", "date,pack,item,quantity\n2025-07-02,,plums,1 kg\n", 2},
		{"shelf.csv", "date,shop,item,size,price\n2025-07-02,Mill Lane,plums,1 kg,8\n", 1},
	} {
		files := map[string]string{c.file: kitchen[c.file] + c.row}
		if c.file == "runs.csv" {
			files["loads.csv"] = kitchen["loads.csv"] + "r2,plums,1 kg\n"
			files["phases.csv"] = kitchen["phases.csv"] + "r2,1,primary,30h,400\n"
		}
		r, err := figures.Month(kitchenWith(t, "2025-07-31", files), figures.MonthQuery{})
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Rows) != c.months || r.Rows[0].Key != "2025-06" {
			t.Errorf("%s with %q: %d months from %s, want %d", c.file, c.row, len(r.Rows), r.Rows[0].Key, c.months)
		}
	}
}
