package entry

import (
	"testing"

	"pgregory.net/rapid"

	"putby/ledger"
	"putby/pricing/exact"
	"putby/pricing/locale"
)

func TestNative(t *testing.T) {
	for _, test := range []struct{ tag, text, want, two string }{
		{"de-DE", "2 kg strawberries 1.234,50", "2 kg strawberries 1234.50", ""},
		{"de-DE", "3 x 0,454 kg peas €3,99", "3 x 0.454 kg peas €3.99", ""},
		{"de-DE", "coupon 1,00 on 2,3", "coupon 1.00 on 2,3", ""},
		{"de-DE", "1,500 kg", "1.500 kg", ""},
		{"de-DE", "1.500 kg", "1.500 kg", `"1.500" can be read in two ways: write 1500 or 1,500`},
		{"de-DE", "28.02.2025 18:30", "2025-02-28 18:30", ""},
		{"de-DE", "2025-02-28", "2025-02-28", ""},
		{"de-DE", "3,99/454g", "3.99/454g", ""},
		{"de-DE", "jar-0,5l", "jar-0,5l", ""},
		{"de-DE", "1 jar-1l, 1 lid", "1 jar-1l, 1 lid", ""},
		{"de-DE", "(3,99).", "(3.99).", ""},
		{"en-US", "2 lb peas $1,234.50", "2 lb peas $1234.50", ""},
		{"en-US", "2 lb peas 3,99", "2 lb peas 3,99", ""},
		{"en-US", "3 x soap for 1,200", "3 x soap for 1200", ""},
		{"en-US", "discount 1.00 for 1,2", "discount 1.00 for 1,2", ""},
		{"fr-FR", "2 500 g", "2 500 g", ""},
		{"fr-FR", "1\u202f234,50 €", "1234.50 €", ""},
		{"", "1.234,50", "1.234,50", ""},
	} {
		l, two := locale.Must(test.tag), ""
		if err := TwoWays(l, test.text); err != nil {
			two = err.Error()
		}
		if got := Native(l, test.text); got != test.want || two != test.two {
			t.Errorf("%s: %q is read as %q, %q; want %q, %q", test.tag, test.text, got, two, test.want, test.two)
		}
	}
}

// TestNativeTwice holds that what was read is read as the same again: a cell may
// go through it more than once.
func TestNativeTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := locale.Must(rapid.SampledFrom(locale.Tags()).Draw(t, "locale"))
		text := rapid.StringMatching(`[-€]?[0-9]{1,4}([.,][0-9]{1,3}){0,2}( kg)?`).Draw(t, "text")
		once := Native(l, text)
		if TwoWays(l, text) == nil && Native(l, once) != once {
			t.Fatalf("%v: %q is read as %q, and that as %q", l, text, once, Native(l, once))
		}
	})
}

// TestShownIsTyped holds that what a form shows of a cell is read as the cell.
func TestShownIsTyped(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rec := house()
		rec.Settings.Locale = locale.Must(rapid.SampledFrom(locale.Tags()).Draw(t, "locale"))
		n := exact.New(rapid.Int64Range(0, 1e9).Draw(t, "digits"), rapid.IntRange(0, 4).Draw(t, "places")).String()
		k := ledger.MustKind("receipt")
		for column, cell := range map[string]string{"price": n, "count": n, "size": n + " kg"} {
			c := k.Column(column)
			shown := Shown(rec, c, cell)
			if err := TwoWays(rec.Settings.Locale, shown); err != nil {
				t.Fatalf("%v: %s %q is shown as %q: %v", rec.Settings.Locale, column, cell, shown, err)
			}
			if got := (Moment{}).Typed(rec, c, shown); got != cell {
				t.Fatalf("%v: %s %q is shown as %q and read as %q", rec.Settings.Locale, column, cell, shown, got)
			}
		}
	})
}
