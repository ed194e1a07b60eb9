package pricing_test

import (
	"fmt"
	"testing"

	"putby/pricing"
)

// The words that records and reports use.
func TestNames(t *testing.T) {
	for got, want := range map[fmt.Stringer]string{
		pricing.Regular:      "regular",
		pricing.OnOffer:      "offer",
		pricing.Fresh:        "fresh",
		pricing.Preserved:    "preserved",
		pricing.AskedRegular: "regular",
		pricing.AskedOffer:   "offer",
		pricing.Paid:         "paid",
		pricing.UseLimit:     "what will be used before best-by",
		pricing.BuyPreserved: "the shop's preserved equivalent",
	} {
		if got.String() != want {
			t.Errorf("%T is named %q, want %q", got, got, want)
		}
	}
}
