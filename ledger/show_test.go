package ledger_test

import (
	"strings"
	"testing"

	"putby/ledger"
	"putby/pricing/exact"
)

// People read amounts in their own units; what a sentence compares must differ
// in it too.
func TestShowAmounts(t *testing.T) {
	us := ledger.Show{Volume: exact.Qt, Mass: exact.Oz}
	for _, test := range []struct {
		show    ledger.Show
		unit    exact.Unit
		amounts string
		want    string
	}{
		{ledger.Show{}, exact.L, "6.2", "6.2 L"},
		{us, exact.L, "22.712470704", "24 qt"},                // 6 US gallons
		{us, exact.Kg, "0.028349523 0.181", "1 oz, 6.385 oz"}, // 28.349523125 g (NIST Handbook 44)
		{us, exact.L, "-0.946352946", "-1 qt"},
		{us, exact.Ea, "6", "6 ea"},
		{ledger.Show{}, exact.NoUnit, "3", "3"},
		{ledger.Show{}, exact.Kg, "0.0004", "0.0004 kg"},                           // not 0 kg
		{ledger.Show{}, exact.Kg, "2 1.9999 0.0001", "2 kg, 1.9999 kg, 0.0001 kg"}, // not 2 kg of 2 kg
		{ledger.Show{}, exact.Kg, "0 0.5 0.5", "0 kg, 0.5 kg, 0.5 kg"},
		{us, exact.L, "1 0.9999", "1.0567 qt, 1.0566 qt"},
	} {
		var amounts []exact.Number
		for text := range strings.FieldsSeq(test.amounts) {
			amounts = append(amounts, exact.MustNumber(text))
		}
		if got := strings.Join(test.show.Amounts(test.unit, amounts...), ", "); got != test.want {
			t.Errorf("%s in %v: %s, want %s", test.amounts, test.show, got, test.want)
		}
	}
}
