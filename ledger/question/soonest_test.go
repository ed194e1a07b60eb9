package question_test

import (
	"errors"
	"fmt"
	"testing"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/ledgertest"
	"putby/ledger/question"
	"putby/pricing/exact"
)

// stocked has three packs of peas: one due first, one later, one that nobody
// knows the date of; and one packed later than the others.
func stocked(t *testing.T) *ledger.Ledger {
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
	g, faults := ledger.Join(rec, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
	if faults != nil {
		t.Fatal(faults)
	}
	return g
}

func TestSoonestDue(t *testing.T) {
	g := stocked(t)
	for _, test := range []struct{ quantity, day, want string }{
		{"1", "2025-03-01", "[first:1]"},
		{"4", "2025-03-01", "[first:2 later:2]"},
		{"7", "2025-03-01", "[first:2 later:3 never:2]"},
		{"1", "2025-07-01", "[new:1]"}, // by then it is there
	} {
		takings, err := question.SoonestDue(g, "peas", test.quantity, exact.MustDate(test.day))
		var got []string
		for _, taking := range takings {
			got = append(got, fmt.Sprintf("%s:%d", taking.Pack, taking.Count))
		}
		if err != nil || fmt.Sprint(got) != test.want {
			t.Errorf("%s on %s: %v, %v, want %s", test.quantity, test.day, got, err, test.want)
		}
	}
	peas, _ := g.FindFood("peas")
	pears, _ := g.FindFood("pears")
	if n := figures.InStore(g, peas); n != 16 {
		t.Errorf("%d in store", n)
	}
	if n := figures.InStore(g, pears); n != 0 {
		t.Errorf("%d in store of what there is not", n)
	}
}

func TestSoonestDueRefuses(t *testing.T) {
	g := stocked(t)
	for _, test := range []struct{ food, quantity, why, hint string }{
		{"peaz", "1", `--food: no food is called "peaz"`, "peas"},
		{"plums", "1", `--food: no food is called "plums"`, "foods are listed in foods.csv"},
		{"peas", "8", "--quantity: only 7 containers of peas in store, not 8", "7 takes all of them; putby onhand shows what else there is"},
		{"pears", "1", "--food: there are no packs of pears in store", "putby onhand shows what there is; what was never packed is --item pears"},
		{"peas", "1.5", `--quantity: "1.5" is not a whole number of containers`, "write how many containers, such as 2; for fresh food in hand name it under --item: peas"},
		{"peas", "0", `--quantity: "0" is not a whole number of containers`, "write how many containers, such as 2; for fresh food in hand name it under --item: peas"},
		{"peas", "1 kg", `--quantity: "1 kg" is not a whole number of containers`, "write how many containers, such as 2; for fresh food in hand name it under --item: peas"},
	} {
		_, err := question.SoonestDue(g, test.food, test.quantity, exact.MustDate("2025-03-01"))
		query := (*question.Error)(nil)
		if !errors.As(err, &query) || err.Error() != test.why || query.Hint != test.hint {
			t.Errorf("%s of %s: %v, want %s; %s", test.quantity, test.food, err, test.why, test.hint)
		}
	}
}
