package report

import (
	"maps"
	"testing"

	"putby/ledger/nutrients"
	"putby/pricing/exact"
)

// Figures of USDA SR28 (public domain), as it prints them; densities are its
// grams of a cup over 236.5882365 mL (NIST Handbook 44, appendix C): of broth
// 240 g, of beaten egg 243 g, of whole strawberries 144 g, of cut corn 149 g.
func TestTableCells(t *testing.T) {
	for _, test := range []struct {
		number, basis string
		want          map[string]string
	}{
		{"09316", "mass", map[string]string{"name": "Strawberries, raw", "water": "90.95", "kcal": "32", "protein": "0.67", "fat": "0.3", "refuse": "6", "density": "0.6087"}},
		{"01123", "count", map[string]string{"name": "Egg, whole, raw, fresh", "water": "76.15", "kcal": "143", "protein": "12.56", "fat": "9.51", "density": "1.0271", "piece_kg": "0.05"}},
		{"01123", "volume", map[string]string{"name": "Egg, whole, raw, fresh", "water": "76.15", "kcal": "143", "protein": "12.56", "fat": "9.51", "density": "1.0271", "refuse": "12"}},
		{"11168", "mass", map[string]string{"water": "73.41", "kcal": "96", "protein": "3.41", "fat": "1.5", "refuse": "45", "density": "0.6298"}},
		{"06172", "volume", map[string]string{"water": "92.15", "kcal": "36", "protein": "2.52", "fat": "1.2", "density": "1.0144"}},
	} {
		food, ok := nutrients.Get(test.number)
		if !ok {
			t.Fatalf("the table has no %s", test.number)
		}
		got := TableCells(food, test.basis)
		if test.want["name"] == "" {
			delete(got, "name")
		}
		if !maps.Equal(got, test.want) {
			t.Errorf("%s by %s: %v, want %v", test.number, test.basis, got, test.want)
		}
	}
}

func TestFoodTable(t *testing.T) {
	d := FoodTable("strawberr", 3, nil)
	table := d.Fields[0].Node.(*Table)
	if err := d.Check(); err != nil || len(table.Rows) != 3 || table.Rows[0].Cells[0].Text() != "09316" {
		t.Errorf("%v: %v", err, table.Rows)
	}
	// 100 g x solids / (1 - 3 %), with the water of SR28: 9.05 / 0.97.
	if dry := table.Rows[0].Cells[3].Exact(exact.Currency{}); dry != "9.329896907216" {
		t.Errorf("100 g of strawberries leave %s g", dry)
	}
	if len(d.Notes) != 3 || d.Notes[0] != "Source: "+nutrients.Source+"." {
		t.Errorf("notes: %q", d.Notes)
	}
	if d = FoodTable("strawberr freeze unheard", 3, nil); len(d.Fields[0].Node.(*Table).Rows) != 0 || len(d.Notes) != 2 {
		t.Errorf("found %v", d)
	}
}
