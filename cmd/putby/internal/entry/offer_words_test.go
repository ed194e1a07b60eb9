package entry

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"putby/ledger"
	"putby/pricing/exact"
)

// Offers are read in the shop's words, as the options of worth that they give.
func TestReadOffer(t *testing.T) {
	rec := &ledger.Records{Settings: ledger.Settings{Currency: exact.MustCurrency("EUR")}}
	rec.Foods = []ledger.Food{{ID: "peas", Name: "Garden peas", Basis: exact.Kg}, {ID: "oat-milk", Name: "Oat milk", Basis: exact.L}}
	rec.Supplies = []ledger.Supply{{ID: "jar"}}
	x := NewItemNames(rec, nil)
	for text, want := range map[string]string{
		"peas 3.99 454 g limit 12":  "peas [[price 3.99] [size 454 g] [limit 12]]",
		"garden peas 454 g 3.99":    "peas [[price 3.99] [size 454 g]]",
		"oat milk 2 for 5.00 1 L":   "oat-milk [[price 2.5] [size 1 L] [offer 2 for 5.00]]",
		"oat milk 3 for 5.00 1 L":   "oat-milk [[price 1.67] [size 1 L] [offer 3 for 5.00]]",
		"peas 2.40 1 kg 25% off":    "peas [[price 2.40] [size 1 kg] [offer 25% off]]",
		"oat milk 1.89 1 L limit 6": "oat-milk [[price 1.89] [size 1 L] [limit 6]]",
	} {
		o, err := x.ReadOffer(rec, exact.LastDate, text)
		if have := fmt.Sprint(o.Item, " ", o.Options); err != nil || have != want {
			t.Errorf("%q is %s, want %s (%v)", text, have, want, err)
		}
	}
	for text, says := range map[string]string{
		"caviar 3.99 454 g":         "names no food",
		"jar 3.99":                  "names no food",
		"peas 454 g":                "lacks the price",
		"peas 3.99":                 "lacks the price or the size",
		"peas 3.99 454 g less 0.50": "a price for one package",
		"":                          "it does not say of what",
	} {
		_, err := x.ReadOffer(rec, exact.LastDate, text)
		if !errors.Is(err, ErrTyped) || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v, want %s", text, err, says)
		}
	}
}
