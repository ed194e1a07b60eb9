package figures_test

import (
	"slices"
	"testing"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing"
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

// By hand: 5 kg of berries for 5.00 are 10 L of the freezer's 200, for 270 days of the year's
// 365, at 30 kWh a month: 10/200 x 12 x 270/365 x 30 = 13.315 kWh, at 0.20 that is 2.663014. Left
// out of drying, electricity is left out of freezing too: 5.00.
func TestFreezingWithoutElectricity(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"settings.csv": kitchen["settings.csv"] + "freezer_volume,200 L\nfreezer_kwh_month,30\n",
		"foods.csv":    "food,name,basis,density,fresh_days,frozen_days\nberries,Berries,mass,0.5,3,270\nplums,Plums,mass,,5,270\nonions,Onions,mass,,1,\n",
	})
	q := figures.WorthQuery{Item: "berries", Price: exact.Some(num("1")), Size: amount("1 kg"), Limit: exact.Some(5), Shelf: exact.Some(num("20")),
		Start: exact.Some(moment(t, g, "2025-06-11 00:00")), Each: amount("1 kg"), PackCost: exact.Some(money("0"))}
	for want, without := range map[string][]ledger.Element{"7.663014": nil, "5.000000": {ledger.ElectricityCost}} {
		q.Without = without
		w, err := figures.Worth(g, q)
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(w.Ways.List, func(w pricing.Way) bool { return w.Kind == pricing.BuyAndFreeze })
		if i < 0 || !w.Ways.List[i].Cost.Round(6, exact.HalfEven).Equal(num(want)) {
			t.Errorf("without %v: %+v, want %s frozen", without, w.Ways, want)
		}
	}
}

// By hand: nothing is dried within a day. 5 kg of berries at 0.5 kg/L take 10 L, of which the freezer
// has 8: 4 kg are worth 80 less 4 for them and 11.40 for their run, 64.60, where all 5 would save 83.60.
func TestWorthWithinTheFreezer(t *testing.T) {
	for volume, packages := range map[string]int{"8 L": 4, "10 L": 5, "": 5, "1 L": 0} {
		g := kitchenWith(t, "2025-06-11", map[string]string{
			"settings.csv": kitchen["settings.csv"] + "freezer_volume," + volume + "\n",
			"foods.csv":    "food,name,basis,density,fresh_days,frozen_days\nberries,Berries,mass,0.5,1,270\nplums,Plums,mass,,5,270\nonions,Onions,mass,,1,\n",
		})
		q := figures.WorthQuery{Item: "berries", Price: exact.Some(num("1")), Size: amount("1 kg"), Limit: exact.Some(5), Shelf: exact.Some(num("20")),
			Start: exact.Some(moment(t, g, "2025-06-11 00:00")), Each: amount("1 kg"), PackCost: exact.Some(money("0"))}
		w, err := figures.Worth(g, q)
		if err != nil || w.Best.Packages != 0 || w.Crowding.Given() || w.IfFrozen.Given() != (packages > 0) {
			t.Fatalf("of %q: %+v (%v)", volume, w, err)
		}
		if f, ok := w.IfFrozen.Get(); ok {
			saves := map[int]string{4: "64.6", 5: "83.6"}[packages]
			if f.Best.Packages != packages || f.Best.Saving.Cmp(exact.RatioOf(num(saves))) != 0 {
				t.Errorf("of %q it would pay to buy %d, want %d that save %s", volume, f.Best.Packages, packages, saves)
			}
		}
		q.Frozen = true
		w, err = figures.Worth(g, q)
		if err != nil || w.Best.Packages != 5 || w.IfFrozen.Given() || w.Crowding.Given() != (packages < 5) {
			t.Fatalf("of %q, frozen: %+v (%v)", volume, w, err)
		}
		if c, ok := w.Crowding.Get(); ok && (c.Packages != max(packages, 0) || !c.Litres.Equal(num("10"))) {
			t.Errorf("of %q, frozen: %+v, want room for %d", volume, c, packages)
		}
	}
}
