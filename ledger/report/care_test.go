package report

import (
	"strings"
	"testing"
	"time"

	"putby/ledger"
	"putby/ledger/nutrients"
	"putby/pricing/exact"
)

// A fifth of the dry matter is where food begins to be called rich in fat (this
// project's own line): of 20 % dry matter, more than 4 g of fat in 100 g. Egg,
// whole, raw: 9.51 g of fat in 23.85 g of dry matter is 39.87 % (USDA SR28,
// 01123).
func TestFatCaution(t *testing.T) {
	for _, test := range []struct{ water, fat, want string }{
		{"80", "4", ""},
		{"80", "4.01", "(21 % of its dry matter)"},
		{"76.15", "9.51", "(40 % of its dry matter)"},
		{"0", "100", "(100 % of its dry matter)"},
		{"90", "11", "Rich in fat: turns"}, // figures that do not fit
		{"100", "1", "Rich in fat: turns"},
		{"100", "0", ""},
		{"", "9", ""},
		{"76", "", ""},
	} {
		f := ledger.Food{ID: "f"}
		if test.water != "" {
			f.Water = exact.Some(exact.MustNumber(test.water))
		}
		if test.fat != "" {
			f.Fat = exact.Some(exact.MustNumber(test.fat))
		}
		got := FatCaution(&f, ledger.Show{})
		if test.want == "" && got != "" || !strings.Contains(got, test.want) || got != "" && !strings.HasSuffix(got, ": turns rancid, often before its best-by. Eat soon, do not store on absorbers alone.") {
			t.Errorf("water %q, fat %q: %q, want %q", test.water, test.fat, got, test.want)
		}
	}
}

// What is rich in fat is told of food that is dried, wherever its own caution
// is; of food that is only eaten fresh it is not.
func TestFatIsToldOfDriedFood(t *testing.T) {
	rec := &ledger.Records{Settings: ledger.Settings{Currency: exact.MustCurrency("EUR"), Zone: time.UTC}}
	food, _ := ledger.KindOf("food")
	pack, _ := ledger.KindOf("pack")
	var faults ledger.Faults
	for _, r := range []struct {
		kind  ledger.Kind
		cells map[string]string
	}{
		{food, map[string]string{"food": "egg", "basis": "mass", "water": "76.15", "fat": "9.51", "caution": "Cook it."}},
		{food, map[string]string{"food": "cream", "basis": "mass", "water": "57.81", "fat": "36.08"}},
		{pack, map[string]string{"pack": "p", "item": "egg", "date": "2025-01-01", "count": "1", "each": "1 kg", "cost": "1"}},
	} {
		if rec, faults = rec.With(r.kind, r.cells); faults != nil {
			t.Fatal(faults)
		}
	}
	g, faults := ledger.Join(rec, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
	if faults != nil {
		t.Fatal(faults)
	}
	got := strings.Join(Lines(cautions(g, func(int) bool { return true })), "; ")
	if want := "Caution, egg: Cook it.; Caution, egg: Rich in fat (40 % of its dry matter): turns rancid, often before its best-by. Eat soon, do not store on absorbers alone."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := Lines(cautionsOf(g, 1, true)); len(got) != 1 || !strings.HasPrefix(got[0], "Caution, cream: Rich in fat (86 %") {
		t.Errorf("cream to be dried: %q", got)
	}
}

// Each group of the open table that wants care has a caution of its own, and no
// other food has one.
func TestTableCaution(t *testing.T) {
	seen := map[string]string{}
	for _, ndb := range []string{"13047", "05006", "15076", "01123", "01077", "11168", "06172"} {
		f, ok := nutrients.Get(ndb)
		words := TableCaution(f)
		if !ok || words == "" || seen[words] != "" {
			t.Errorf("%s %s: %q, as %s", ndb, f.Description, words, seen[words])
		}
		seen[words] = ndb
	}
	for _, ndb := range []string{"09316", "11529", "20444"} {
		if f, _ := nutrients.Get(ndb); TableCaution(f) != "" {
			t.Errorf("%s: %q", f.Description, TableCaution(f))
		}
	}
}
