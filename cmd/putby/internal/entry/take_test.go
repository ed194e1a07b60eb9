package entry_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/ledgertest"
)

// stocked has three packs of peas: one due first, one later, one that nobody
// knows the date of; and one packed later than the others.
func stocked(t *testing.T) *entry.Base {
	t.Helper()
	rec, faults, err := ledgertest.Read(map[string]string{
		ledger.SettingsFile: "setting,value\ncurrency,EUR\nzone,UTC\n",
		ledger.FoodsFile:    "food,basis\npeas,mass\npears,mass\n",
		ledger.PacksFile: "pack,item,date,count,each,cost,best_by\nnever,peas,2025-01-01,2,1 kg,1,\nlater,peas,2025-01-01,3,1 kg,1,2027-01-01\n" +
			"first,peas,2025-02-01,3,1 kg,1,2026-01-01\nnew,peas,2025-06-01,9,1 kg,1,2025-12-01\n",
		ledger.DrawsFile: "date,pack,quantity,reason\n2025-02-02,first,1,used\n",
	})
	if err != nil || faults != nil {
		t.Fatal(err, faults)
	}
	return entry.NewBase(rec, entry.At(rec, time.Date(2025, 7, 1, 12, 0, 0, 0, time.UTC)))
}

func TestTakeSoonestDue(t *testing.T) {
	b := stocked(t)
	for _, test := range []struct{ thing, day, want string }{
		{"1 peas", "2025-03-01", "[first:1]"},
		{"4 peas", "2025-03-01", "[first:2 later:2]"},
		{"7 peas", "2025-03-01", "[first:2 later:3 never:2]"},
		{"1 peas", "2025-07-01", "[new:1]"}, // by then it is there
	} {
		d, err := entry.Take(b, entry.TakeIn{Things: []string{test.thing}, Date: test.day})
		if err != nil {
			t.Errorf("%s on %s: %v", test.thing, test.day, err)
			continue
		}
		var got []string
		for _, r := range d.Rows {
			got = append(got, fmt.Sprintf("%s:%s", r.Cells["pack"], r.Cells["quantity"]))
		}
		if fmt.Sprint(got) != test.want {
			t.Errorf("%s on %s: %v, want %s", test.thing, test.day, got, test.want)
		}
	}
	g, err := b.Ledger()
	if err != nil {
		t.Fatal(err)
	}
	for food, want := range map[string]int{"peas": 16, "pears": 0} {
		at, _ := g.FindFood(food)
		if n := figures.InStore(g, at); n != want {
			t.Errorf("%d of %s in store, want %d", n, food, want)
		}
	}
}

func TestTakeRefuses(t *testing.T) {
	b := stocked(t)
	for _, test := range []struct{ thing, why string }{
		{"1 peaz", `no food, supply or pack is called "peaz"`},
		{"8 peas", `only 7 containers of peas are in store`},
		{"1 pears", "no container of pears is in store"},
		{"1.5 peas", "1.5 is not a whole number of containers"},
		{"0 peas", "0 is not a whole number of containers"},
		{"1 kg peas", "no peas is in hand fresh"},
	} {
		if d, err := entry.Take(b, entry.TakeIn{Things: []string{test.thing}, Date: "2025-03-01"}); err == nil || !strings.Contains(err.Error(), test.why) {
			t.Errorf("%s: %v, %v, want %s", test.thing, d, err, test.why)
		}
	}
}
