package figures

import (
	"testing"

	"putby/pricing/exact"
)

// Freeze-dried food is mostly pores, so the gas in a 1 L jar of 120 g is 1 L
// less 120 g at 1.5 kg/L of solids (memory), 920 mL, of which 20.9 % is oxygen
// (air, common knowledge of chemistry): 192.28 cc.
func TestGasIn(t *testing.T) {
	for _, test := range []struct{ volume, dry, gas, oxygen string }{
		{"1", "0.12", "0.92", "0.19228"},
		{"1", "0", "1", "0.209"},
		{"0.5", "0.75", "0", "0"},
		{"0.5", "0.8", "0", "0"}, // more than fits: no gas, not less than none
	} {
		gas := gasIn(exact.MustNumber(test.volume), exact.MustNumber(test.dry))
		if !gas.Equal(exact.RatioOf(exact.MustNumber(test.gas))) {
			t.Errorf("%s L with %s kg: %v L of gas, want %s", test.volume, test.dry, gas, test.gas)
		}
		if oxygen := gas.Times(oxygenPart); !oxygen.Equal(exact.RatioOf(exact.MustNumber(test.oxygen))) {
			t.Errorf("%s L with %s kg: %v L of oxygen, want %s", test.volume, test.dry, oxygen, test.oxygen)
		}
	}
}
