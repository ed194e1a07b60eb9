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

// Solids do not leave: what is not water of the dry weight is what was not water
// of the wet one. And Moist, which does not divide, agrees with WaterLeft.
func TestWaterLeftLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string, least, most int64, places int) exact.Number {
			return exact.New(rapid.Int64Range(least, most).Draw(t, name), places)
		}
		w := ledger.Weighing{Wet: number("wet g", 0, 50_000, 3), Dry: number("dry g", 1, 50_000, 3), Water: number("water %", 0, 10_000, 2)}
		one := exact.RatioOf(exact.Int(1))
		solids := one.Sub(w.WaterLeft()).Times(w.Dry)
		if fresh := exact.Int(100).Sub(w.Water).Over(exact.Int(100)).Times(w.Wet); !solids.Equal(fresh) {
			t.Errorf("%v kg of solids were %v", solids, fresh)
		}
		if tenth := exact.New(1, 1); w.Moist() != (w.WaterLeft().Cmp(exact.RatioOf(tenth)) > 0) {
			t.Errorf("%v is left, moist: %v", w.WaterLeft(), w.Moist())
		}
	})
}
