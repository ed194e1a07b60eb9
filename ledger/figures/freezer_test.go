package figures_test

import (
	"testing"

	"putby/ledger/figures"
	"putby/pricing/exact"
)

// By hand: 3 kg of berries at 0.5 kg/L take 6 of 20 litres, and how much 2 kg of plums take, of which no
// density is known, nobody can tell. Without the setting nothing is known of the room.
func TestFreezer(t *testing.T) {
	files := map[string]string{
		"foods.csv":  "food,name,basis,density,fresh_days,frozen_days\nberries,Berries,mass,0.5,3,270\nplums,Plums,mass,,5,270\nonions,Onions,mass,,1,\n",
		"frozen.csv": "date,item,quantity\n2025-06-10,berries,3 kg\n2025-06-10,plums,2 kg\n",
	}
	if f := figures.FreezerOf(kitchenWith(t, "2025-06-11", files)); f.Holds.Given() || !f.Free().IsZero() || f.Untold != nil {
		t.Errorf("without the setting: %+v", f)
	}
	files["settings.csv"] = kitchen["settings.csv"] + "freezer_volume,20 L\n"
	g := kitchenWith(t, "2025-06-11", files)
	f := figures.FreezerOf(g)
	plums, _ := g.FindFood("plums")
	if !f.Holds.Or(exact.Number{}).Equal(num("20")) || !f.Taken.Equal(num("6")) || !f.Free().Equal(num("14")) || len(f.Untold) != 1 || f.Untold[0] != plums {
		t.Errorf("%+v, want 14 of 20 litres free, but for the plums", f)
	}
	files["settings.csv"] = kitchen["settings.csv"] + "freezer_volume,5 L\n"
	if f := figures.FreezerOf(kitchenWith(t, "2025-06-11", files)); !f.Free().IsZero() {
		t.Errorf("of 5 litres, with 6 in them, %v are free", f.Free())
	}
}
