package ledger_test

import (
	"testing"

	"putby/ledger"
	"putby/pricing/exact"
)

// A quantity of the records is told in the unit that a household has chosen. By
// hand: 7 L at 0.946352946 L a quart, 454 g at 453.59237 g a pound.
func TestMeasure(t *testing.T) {
	for _, c := range []struct {
		show   ledger.Show
		q, say string
	}{
		{ledger.Show{}, "454 g", "454 g"},
		{ledger.Show{Mass: exact.Lb}, "7 L", "7 L"},
		{ledger.Show{Mass: exact.Lb}, "454 g", "1.001 lb"},
		{ledger.Show{Volume: exact.Qt}, "7 L", "7.397 qt"},
		{ledger.Show{Volume: exact.Qt}, "6 ea", "6 ea"},
	} {
		q, err := exact.ParseQuantity(c.q)
		if err != nil {
			t.Fatal(err)
		}
		if got := c.show.Measure(q); got != c.say {
			t.Errorf("%s is told as %q, want %q", c.q, got, c.say)
		}
	}
}
