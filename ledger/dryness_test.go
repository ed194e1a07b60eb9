package ledger_test

import (
	"testing"

	"pgregory.net/rapid"

	"putby/ledger"
	"putby/pricing/exact"
)

// Dried to 3 % residual moisture a kilogram of egg (76.15 % water) weighs
// 245.8763 g and one of strawberries (90.95 %) 93.2990 g (USDA SR28, 01123 and
// 09316; dry = wet x solids / (1 - m)): so 3 % of those weights is water.
func TestWaterLeft(t *testing.T) {
	for _, want := range []struct{ wet, water, dry, left string }{
		{"1", "76.15", "0.2458763", "0.03"},
		{"1", "90.95", "0.0932990", "0.03"},
		{"1", "90.95", "1", "0.9095"}, // as fresh
		{"1", "90.95", "0.0905", "0"}, // bone dry
	} {
		w := weighing(want.wet, want.water, want.dry)
		if got := w.WaterLeft().Round(6, exact.HalfEven); got.String() != want.left {
			t.Errorf("%s kg of %s %% water, now %s kg: %v is left, want %s", want.wet, want.water, want.dry, got, want.left)
		}
	}
}

func weighing(wet, water, dry string) ledger.Weighing {
	return ledger.Weighing{Wet: exact.MustNumber(wet), Water: exact.MustNumber(water), Dry: exact.MustNumber(dry)}
}

// Ten per cent exactly is dry; the least bit more is not, and is not written as
// ten.
func TestMoistAboveTen(t *testing.T) {
	for _, want := range []struct {
		dry     string
		moist   bool
		percent int64
	}{{"0.1", false, 10}, {"0.100000001", true, 11}, {"0.09", false, 0}, {"0.36", true, 75}} {
		w := weighing("0.9", "90", want.dry)
		if w.Moist() != want.moist || !w.Percent().Equal(exact.Int(want.percent)) {
			t.Errorf("%s kg of 0.09 kg solids: moist %v, %v", want.dry, w.Moist(), w.Percent())
		}
	}
}

// Of food rich in fat what decides is the water in what is not fat, by hand (own
// numbers; common practice, from memory: fat takes up next to no water): 1.8144 kg of
// sausage, 51.08 % water and 31.33 % fat, have 0.8876 kg of solids, 0.5685 kg of which
// are fat. Of 0.9525 kg then 0.0649 kg are water: 6.8 %, but 16.9 % of the other 0.3841
// kg. At 0.9229 kg it is 0.0353 of 0.3544, 9.96 %; a gram more is 10.2 %. Food with
// less fat, or with more than it has solids, is judged by all of it.
func TestMoistBesideFat(t *testing.T) {
	number := exact.MustNumber
	for _, want := range []struct {
		fat, dry      string
		water, lean   string
		moist, counts bool
		percent       int64
	}{
		{"31.33", "0.9525", "0.068132", "0.168977", true, true, 17},
		{"31.33", "0.9229", "0.038244", "0.099579", false, true, 10},
		{"31.33", "0.9239", "0.039285", "0.102112", true, true, 11},
		{"9.78", "0.9525", "0.068132", "0.068132", false, false, 7},
		{"50", "0.9525", "0.068132", "0.068132", false, false, 7},
	} {
		food := ledger.Food{Water: exact.Some(number("51.08")), Fat: exact.Some(number(want.fat))}
		w, known := ledger.WeighingOf(&food, number("1.8144"), number(want.dry))
		round := func(r exact.Ratio) string { return r.Round(6, exact.HalfAway).Fixed(6) }
		if !known || round(w.WaterLeft()) != want.water || round(w.LeanWater()) != want.lean {
			t.Errorf("%s kg with %s %% fat: %s, of what is not fat %s", want.dry, want.fat, round(w.WaterLeft()), round(w.LeanWater()))
		}
		if w.Moist() != want.moist || w.Fat.IsZero() == want.counts || !w.Percent().Equal(exact.Int(want.percent)) {
			t.Errorf("%s kg with %s %% fat: moist %v, %v, fat %v", want.dry, want.fat, w.Moist(), w.Percent(), w.Fat)
		}
	}
}

// Solids do not leave: what is not water of the dry weight is what was not water
// of the wet one. And Moist, which does not divide, agrees with LeanWater.
func TestWaterLeftLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string, least, most int64, places int) exact.Number {
			return exact.New(rapid.Int64Range(least, most).Draw(t, name), places)
		}
		w := ledger.Weighing{Wet: number("wet g", 0, 50_000, 3), Dry: number("dry g", 1, 50_000, 3), Water: number("water %", 0, 10_000, 2)}
		w.Fat = exact.Int(100).Sub(w.Water).Mul(number("part of the solids that is fat", 0, 100, 2))
		one := exact.RatioOf(exact.Int(1))
		solids := one.Sub(w.WaterLeft()).Times(w.Dry)
		if fresh := exact.Int(100).Sub(w.Water).Over(exact.Int(100)).Times(w.Wet); !solids.Equal(fresh) {
			t.Errorf("%v kg of solids were %v", solids, fresh)
		}
		if tenth := exact.New(1, 1); w.Moist() != (w.LeanWater().Cmp(exact.RatioOf(tenth)) > 0) {
			t.Errorf("%v is left, moist: %v", w.LeanWater(), w.Moist())
		}
	})
}
