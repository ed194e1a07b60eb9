package entry

import (
	"testing"
	"time"

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
		{"fr-FR", "1.5 kg", "1.5 kg", ""},
		{"fr-FR", "1.500 kg", "1.500 kg", `"1.500" can be read in two ways: write 1500 or 1,500`},
		{"de-DE", "CAD1.234,50", "CAD1234.50", ""},
		{"de-DE", "eur1.500", "eur1.500", `"1.500" can be read in two ways: write 1500 or 1,500`},
		{"de-DE", "lot1.500", "lot1.500", ""},
		{"de-DE", "5 kg apples from 12.345", "5 kg apples from 12.345", ""},
		{"de-DE", "2 pack 12.345", "2 pack 12.345", ""},
		{"sk-SK", "8. 2. 2025", "2025-02-08", ""},
		{"en-US", "Feb 8, 2025", "2025-02-08", ""},
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
			shown := CellAsTyped(rec, c, cell)
			if err := TwoWays(rec.Settings.Locale, shown); err != nil {
				t.Fatalf("%v: %s %q is shown as %q: %v", rec.Settings.Locale, column, cell, shown, err)
			}
			if got := (Moment{}).Typed(rec, c, shown); got != cell {
				t.Fatalf("%v: %s %q is shown as %q and read as %q", rec.Settings.Locale, column, cell, shown, got)
			}
		}
	})
}

// TestShownIsRead holds that money, a day, a time and a month are read as they are
// shown, by every locale, and refused where they could be something else.
func TestShownIsRead(t *testing.T) {
	price := ledger.MustKind("receipt").Column("price")
	for _, tag := range append(locale.Tags(), "") {
		rec := house()
		rec.Settings.Locale = locale.Must(tag)
		l, m := rec.Settings.Locale, At(rec, time.Date(2025, 11, 16, 12, 0, 0, 0, time.UTC))
		for _, code := range []string{"EUR", "CAD", "SEK", "BRL", "ZAR", "CZK", "HUF", "ISK", "CHF", "DKK", "PLN"} {
			rec.Settings.Currency = exact.MustCurrency(code)
			for _, sum := range []string{"3.99", "1234.50", "-3.99", "1234567.00", "0.50"} {
				shown := l.Money(sum, rec.Settings.Currency)
				if got := m.Typed(rec, price, shown); got != sum || TwoWays(l, shown) != nil {
					t.Errorf("%s: %s is shown as %q and read as %q, %v", tag, sum, shown, got, TwoWays(l, shown))
				}
			}
		}
		for day := exact.MustDate("2020-01-01"); day < exact.MustDate("2041-01-01"); day = day.AddDays(11) { // package locale tries every day
			shown := l.Date(day)
			for text, want := range map[string]string{
				shown: day.String(), day.Weekday().String()[:3] + " " + shown + " at 8:05": day.String() + " 08:05", shown + " 21:40": day.String() + " 21:40",
			} {
				if got := m.Dated(text); got != want || TwoWays(l, text) != nil {
					t.Fatalf("%s: %q is read as %q, %v", tag, text, got, TwoWays(l, text))
				}
			}
			begin := day.Month()
			if first, last, ok := m.Period(l.Month(day)); !ok || first != begin || last != begin.AddMonths(1).AddDays(-1) {
				t.Fatalf("%s: %q is read as from %v to %v", tag, l.Month(day), first, last)
			}
		}
	}
	if m := (Moment{Locale: locale.Must("de-DE")}); m.Dated("Mon 16.11.2025") != "Mon 16.11.2025" { // it was a Sunday
		t.Error("a wrong day of the week is passed over")
	}
}

// TestAsTyped holds that words as a locale types them are read as they were.
func TestAsTyped(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := locale.Must(rapid.SampledFrom(append(locale.Tags(), "")).Draw(t, "locale"))
		text := rapid.StringMatching(`([0-9]{1,4}(\.[0-9]{1,3})? x )?([0-9]{1,5}(\.[0-9]{1,4})? kg )?peas( from [0-9]{2}\.[0-9]{3})?( at [0-9]{1,5}\.[0-9]{1,3})?`).Draw(t, "text")
		typed := asTyped(l, text)
		if err := TwoWays(l, typed); err != nil || Native(l, typed) != text {
			t.Fatalf("%v: %q is typed as %q, and read as %q, %v", l, text, typed, Native(l, typed), err)
		}
	})
	if got := asTyped(locale.Must("de-DE"), "3 x 0.454 kg peas at 3.99/lb from 12.345"); got != "3 x 0,454 kg peas at 3,99/lb from 12.345" {
		t.Error(got)
	}
}
