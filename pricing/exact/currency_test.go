package exact

import (
	"errors"
	"slices"
	"strings"
	"testing"
)

// ISO 4217, list one: the minor digits.
func TestMinorDigits(t *testing.T) {
	for code, want := range map[string]int{
		"JPY": 0, "KRW": 0, "UGX": 0, "ISK": 0, "VND": 0, "XOF": 0,
		"EUR": 2, "HUF": 2, "USD": 2, "GBP": 2, "CHF": 2, "MGA": 2, "MRU": 2,
		"BHD": 3, "KWD": 3, "TND": 3, "IQD": 3, "CLF": 4, "UYW": 4,
	} {
		c, err := ParseCurrency(code)
		if err != nil || c.Code() != code || c.Minor() != want || c.Places() != want+4 {
			t.Errorf("%s: %s with %d digits, posted at %d (%v); want %d", code, c.Code(), c.Minor(), c.Places(), err, want)
		}
	}
	if c := MustCurrency("EUR"); c.Places() != 6 {
		t.Errorf("EUR is posted at %d places, want 6", c.Places())
	}
}

func TestCurrencyTable(t *testing.T) {
	var all []string
	for _, codes := range currencyCodes {
		for _, code := range strings.Fields(codes) {
			if len(code) != 3 || strings.ToUpper(code) != code {
				t.Errorf("%q is no code", code)
			}
			all = append(all, code)
		}
	}
	slices.Sort(all)
	if unique := slices.Compact(slices.Clone(all)); len(unique) != len(all) {
		t.Error("a code stands twice")
	}
	// Debian's iso-codes 4.15 has 181 codes; of these 13 have no minor digits and
	// 5 were withdrawn by 2025, when XCG and ZWG had come.
	if want := 181 - 13 - 5 + 2; len(all) != want {
		t.Errorf("the table holds %d codes, want %d", len(all), want)
	}
}

func TestParseCurrencyRefuses(t *testing.T) {
	for _, code := range []string{
		"", "EU", "EURO", "eur", "Eur", "E R", "   ", "R U", "XXX", "XTS", "XAU", "UR ", " EU", "EUR ", "DEM", "€", "\x00\x00\x00",
	} {
		c, err := ParseCurrency(code)
		if !errors.Is(err, ErrCurrency) || c != (Currency{}) {
			t.Errorf("%q is taken as %v (%v)", code, c.Code(), err)
		}
	}
}
