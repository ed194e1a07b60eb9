package locale

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"putby/pricing/exact"
)

// TestWritten has texts as CLDR's patterns and symbols give them (version 41;
// the narrow and the plain no-break space are written _ and ~ here), but of months
// whose digits a point would join.
func TestWritten(t *testing.T) {
	tests := []struct{ tag, currency, number, sum, owed, percent, date, month string }{
		{"", "EUR", "1234567.5", "1234.50 EUR", "-3.99 EUR", "12.5 %", "2025-02-08", "2025-02"},
		{"en-US", "USD", "1,234,567.5", "$1,234.50", "-$3.99", "12.5%", "Feb 8, 2025", "Feb 2025"},
		{"en-US", "CAD", "1,234,567.5", "CAD~1,234.50", "-CAD~3.99", "12.5%", "Feb 8, 2025", "Feb 2025"},
		{"en-GB", "GBP", "1,234,567.5", "£1,234.50", "-£3.99", "12.5%", "8 Feb 2025", "Feb 2025"},
		{"en-IN", "INR", "12,34,567.5", "₹1,234.50", "-₹3.99", "12.5%", "08-Feb-2025", "Feb 2025"},
		{"en-ZA", "ZAR", "1~234~567,5", "R~1~234,50", "-R~3,99", "12,5%", "08 Feb 2025", "Feb 2025"},
		{"de-DE", "EUR", "1.234.567,5", "1.234,50~€", "-3,99~€", "12,5~%", "08.02.2025", "02/2025"},
		{"de-DE", "CHF", "1.234.567,5", "1.234,50~CHF", "-3,99~CHF", "12,5~%", "08.02.2025", "02/2025"},
		{"de-AT", "EUR", "1~234~567,5", "€~1.234,50", "-€~3,99", "12,5~%", "08.02.2025", "02/2025"},
		{"de-CH", "CHF", "1’234’567.5", "CHF~1’234.50", "CHF-3.99", "12.5%", "08.02.2025", "02/2025"},
		{"fr-FR", "EUR", "1_234_567,5", "1_234,50~€", "-3,99~€", "12,5~%", "08/02/2025", "02/2025"},
		{"fr-CH", "CHF", "1_234_567,5", "1_234.50~CHF", "-3.99~CHF", "12,5%", "08.02.2025", "02/2025"},
		{"es-ES", "EUR", "1.234.567,5", "1234,50~€", "-3,99~€", "12,5~%", "8/2/2025", "2/2025"},
		{"nl-NL", "EUR", "1.234.567,5", "€~1.234,50", "€~-3,99", "12,5%", "08-02-2025", "2-2025"},
		{"sv-SE", "SEK", "1~234~567,5", "1~234,50~kr", "−3,99~kr", "12,5~%", "2025-02-08", "2025-02"},
		{"nb-NO", "NOK", "1~234~567,5", "kr~1~234,50", "kr~−3,99", "12,5~%", "08.02.2025", "02/2025"},
		{"ja-JP", "JPY", "1,234,567.5", "￥1,234.50", "-￥3.99", "12.5%", "2025/02/08", "2025/2"},
		{"hu-HU", "HUF", "1~234~567,5", "1~234,50~Ft", "-3,99~Ft", "12,5%", "2025. 02. 08.", "2025. 2."},
	}
	day := exact.MustDate("2025-02-08")
	for _, tt := range tests {
		l := Must(tt.tag)
		c, err := exact.ParseCurrency(tt.currency)
		if err != nil {
			t.Fatal(err)
		}
		got := []string{l.Number("1234567.5"), l.Money("1234.50", c), l.Money("-3.99", c), l.Percent("12.5"), l.Date(day), l.Month(day)}
		want := []string{tt.number, tt.sum, tt.owed, tt.percent, tt.date, tt.month}
		for i, text := range want {
			if text = strings.NewReplacer("~", nbsp, "_", narrow).Replace(text); got[i] != text {
				t.Errorf("%s, %s: %q, want %q", tt.tag, tt.currency, got[i], text)
			}
		}
	}
}

// TestEveryDigit writes and reads a number longer than any float holds.
func TestEveryDigit(t *testing.T) {
	const long = "123456789012345.123456789"
	for _, tag := range Tags() {
		l := Must(tag)
		for _, text := range []string{l.Number(long), l.Amount(long), l.Typed(long)} {
			if got, ok, err := l.ReadNumber(text); got != long || !ok || err != nil {
				t.Errorf("%s: %q is read as %q, %v, %v", tag, text, got, ok, err)
			}
		}
	}
}

// TestReadBack holds that what is proposed for typing is read as the same number,
// and that what is shown is never read as another: as the same, or refused.
func TestReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Must(rapid.SampledFrom(append(Tags(), "")).Draw(t, "locale"))
		n := exact.New(rapid.Int64Range(-1e12, 1e12).Draw(t, "digits"), rapid.IntRange(0, 6).Draw(t, "places")).String()
		if got, ok, err := l.ReadNumber(l.Typed(n)); (got != n || !ok) && !errors.Is(err, ErrTwoWays) {
			t.Fatalf("%v: typed %q is read as %q, %v", l, l.Typed(n), got, err)
		}
		for _, shown := range []string{l.Number(n), l.Amount(n)} {
			if got, ok, err := l.ReadNumber(shown); err == nil && (got != n || !ok) {
				t.Fatalf("%v: shown %q is read as %q", l, shown, got)
			}
		}
	})
}

func TestReadNumber(t *testing.T) {
	tests := []struct{ tag, text, want string }{
		{"de-DE", "3,99", "3.99"},
		{"de-DE", "3.99", "3.99"},
		{"de-DE", "1.234,50", "1234.50"},
		{"de-DE", "1.234.567", "1234567"},
		{"de-DE", "1,500", "1.500"},
		{"de-DE", "1.500", "two: write 1500 or 1,500"},
		{"de-DE", "-1.500", "two: write -1500 or -1,500"},
		{"de-DE", "1.5", "1.5"},
		{"de-DE", "1.2345", "1.2345"},
		{"de-DE", "12.34,50", ""},
		// No thousand begins with 0: half a kilogram is not five hundred.
		{"en-US", "0,500", ""},
		{"en-US", "0,454", ""},
		{"de-DE", "0.500", "0.500"},
		{"en-US", "1,500", "1500"},
		{"de-DE", "1,234.50", ""},
		{"de-DE", "1,", ""},
		{"de-DE", "", ""},
		{"en-US", "1,234.50", "1234.50"},
		{"en-US", "1,500", "1500"},
		{"en-US", "1.500", "1.500"},
		{"en-US", "3,99", ""},
		{"en-IN", "12,34,567.5", "1234567.5"},
		{"en-IN", "1,234,567.5", ""},
		{"fr-FR", "1 234,50", "1234.50"},
		{"fr-FR", "1\u00a0234,50", "1234.50"},
		{"fr-CH", "1 234.50", "1234.50"},
		{"fr-CH", "3,99", "3.99"},
		{"de-CH", "1'234.50", "1234.50"},
		{"de-AT", "1.234,50", "1234.50"},
		{"de-AT", "1.500", "two: write 1500 or 1,500"},
		{"sv-SE", "−3,99", "-3.99"},
		{"sv-SE", "-3,99", "-3.99"},
		{"", "3,99", ""},
		{"", "3.99", "3.99"},
	}
	for _, tt := range tests {
		got, ok, err := Must(tt.tag).ReadNumber(tt.text)
		if errors.Is(err, ErrTwoWays) {
			got = strings.Replace(err.Error(), fmt.Sprintf("%q can be read in two ways", tt.text), "two", 1)
		} else if !ok {
			got = ""
		}
		if got != tt.want {
			t.Errorf("%s: %q is read as %q, want %q", tt.tag, tt.text, got, tt.want)
		}
	}
}

// TestReadDate holds that what is shown of any day is read as that day, and of any
// month as that month, in every locale.
func TestReadDate(t *testing.T) {
	for _, tag := range append(Tags(), "") {
		l := Must(tag)
		for d := exact.MustDate("2020-01-01"); d < exact.MustDate("2041-01-01"); d = d.AddDays(1) {
			if got, ok := l.ReadDate(l.Date(d)); (!ok || got != d) && tag != "" {
				t.Fatalf("%s: %s is read as %v, %v", tag, l.Date(d), got, ok)
			}
			if got, ok := ReadMonth(l.Month(d)); d == d.Month() && (!ok || got != d) {
				t.Fatalf("%s: %s is read as the month %v, %v", tag, l.Month(d), got, ok)
			}
		}
	}
	for _, tt := range []struct{ tag, text, want string }{
		{"de-DE", "8.2.2025", "2025-02-08"},
		{"de-DE", "08 . 02 . 2025", "2025-02-08"},
		{"de-DE", "31.02.2025", ""},
		{"de-DE", "8.2.25", ""},
		{"de-DE", "8.2", ""},
		{"de-DE", "8.2.2025.1", ""},
		{"de-DE", "8.002.2025", ""},
		{"de-DE", "08/02/2025", ""},
		{"de-DE", "2025-02-08", ""}, // which needs no locale
		{"de-DE", "", ""},
		{"de-DE", "8 Feb 2025", "2025-02-08"},
		{"hu-HU", "2025. 2. 8", "2025-02-08"},
		{"fr-FR", "5/6/2025", "2025-06-05"},
		{"en-NZ", "5/6/2025", "2025-06-05"},
		{"en-US", "5/6/2025", "2025-05-06"},
		{"en-US", "09/01/2026", "2026-09-01"},
		{"en-US", "13/1/2026", ""},
		{"en-US", "5-6-2025", ""},
		{"en-US", "5/6/25", ""},
		{"en-GB", "5/6/2025", "2025-06-05"},
		{"en-ZA", "2025/06/05", "2025-06-05"},
		// Which of the two is the month, these do not settle.
		{"en-CA", "5/6/2025", ""},
		{"en-ZA", "5/6/2025", ""},
		{"sv-SE", "5/6/2025", ""},
		{"", "5/6/2025", ""},
		{"", "28.02.2025", ""},
		{"en-US", "february 8 2025", "2025-02-08"},
		{"en-US", "Feb\u00a08, 2025", "2025-02-08"},
		{"en-US", "Feb 30, 2025", ""},
		{"en-US", "Fe 8, 2025", ""},
		{"en-US", "Febr 8, 25", ""},
		{"", "8-SEPT-2025", "2025-09-08"},
	} {
		got, ok := Must(tt.tag).ReadDate(tt.text)
		if got.String() != tt.want || ok != (tt.want != "") {
			t.Errorf("%s: %q is read as %v, %v", tt.tag, tt.text, got, ok)
		}
	}
	for text, want := range map[string]string{
		"2/2025": "2025-02-01", "02.2025": "2025-02-01", "2025-02": "2025-02-01", "2-2025": "2025-02-01", "2025. 2.": "2025-02-01", "feb 2025": "2025-02-01", "2025 february": "2025-02-01",
		"13/2025": "", "2/25": "", "2 2025": "", "2025-2": "", "002/2025": "", "2025": "", "feb": "", "2.20255": "",
	} {
		if got, ok := ReadMonth(text); got.String() != want || ok != (want != "") {
			t.Errorf("%q is read as the month %v, %v", text, got, ok)
		}
	}
}

// TestReadShortDate holds what is read of dates without their whole year, on 29
// November 2026.
func TestReadShortDate(t *testing.T) {
	for _, tt := range []struct{ tag, text, want string }{
		{"en-US", "11/5/26", "2026-11-05"},
		{"en-US", "11/5/2026", "2026-11-05"},
		{"en-US", "11/5", "2026-11-05"},
		{"en-US", "12/5", "2025-12-05"},
		{"en-US", "13/5", ""},
		{"en-US", "5-11", ""},
		{"en-GB", "5/11/26", "2026-11-05"},
		{"en-GB", "5/11", "2026-11-05"},
		{"en-GB", "29/11", "2026-11-29"},
		{"en-GB", "30/11", "2025-11-30"},
		{"en-GB", "29/2", "2024-02-29"},
		{"en-GB", "30/2", ""},
		{"de-DE", "5.11.26", "2026-11-05"},
		{"de-DE", "5.11.", "2026-11-05"},
		{"de-DE", "5.11", "2026-11-05"},
		{"de-DE", "5/11", ""},
		{"sk-SK", "5. 11.", "2026-11-05"},
		// Where the year comes first, 5 or 25 may be its end.
		{"hu-HU", "25. 11. 05.", ""},
		{"en-CA", "5/11", ""},
		{"en-ZA", "11/05", ""},
		{"sv-SE", "11-05", ""},
		{"", "5/11", ""},
		{"", "5/11/26", ""},
		{"", "Nov 5", "2026-11-05"},
		{"", "5 november", "2026-11-05"},
		{"", "5. Dec", "2025-12-05"},
		{"", "Nov 5, 26", "2026-11-05"},
		{"", "dec-5", ""},
		{"", "Nov 31", ""},
		{"", "Nov 2026", ""},
		{"", "Nov 0", ""},
	} {
		got, ok := Must(tt.tag).ReadShortDate(tt.text, exact.MustDate("2026-11-29"))
		if got.String() != tt.want || ok != (tt.want != "") {
			t.Errorf("%s: %q is read as %v, %v, want %q", tt.tag, tt.text, got, ok, tt.want)
		}
	}
	if got, ok := Must("en-GB").ReadShortDate("5/11", exact.NoDate); ok {
		t.Errorf("up to no day 5/11 is read as %v", got)
	}
}

// TestPoints holds what each locale makes of a point before three digits, and of
// one before fewer or more, or behind a zero: labels have those.
func TestPoints(t *testing.T) {
	plain := map[string]bool{} // where decimals stand behind a point, in sums at least
	for _, tag := range strings.Fields("de-CH en-AU en-CA en-GB en-IE en-IN en-NZ en-US es-MX fr-CH ja-JP") {
		plain[tag] = true
	}
	for _, tag := range Tags() {
		l := Must(tag)
		for _, sign := range []string{"", "-"} {
			got, ok, err := l.ReadNumber(sign + "1.500")
			two := fmt.Sprintf(`"%s1.500" can be read in two ways: write %s1500 or %s1,500`, sign, sign, sign)
			switch {
			case plain[tag] && (got != sign+"1.500" || !ok || err != nil):
				t.Errorf("%s: %s1.500 is read as %s, %v, %v", tag, sign, got, ok, err)
			case !plain[tag] && (!errors.Is(err, ErrTwoWays) || err.Error() != two):
				t.Errorf("%s: %s1.500 is read as %s, %v, %v", tag, sign, got, ok, err)
			}
			for _, one := range []string{"1.5", "1.50", "0.500", "1.5000", "1500.5", "1500.500", "12.34"} {
				if got, ok, err := l.ReadNumber(sign + one); got != sign+one || !ok || err != nil {
					t.Errorf("%s: %s is read as %s, %v, %v", tag, sign+one, got, ok, err)
				}
			}
		}
	}
}

func TestNamed(t *testing.T) {
	for _, tag := range []string{"de-DE", "de_de", "DE-de"} {
		if l, ok := Named(tag); !ok || l.String() != "de-DE" {
			t.Errorf("%s is %v, %v", tag, l, ok)
		}
	}
	if l, ok := Named("xx-XX"); ok || !l.IsPlain() {
		t.Errorf("xx-XX is %v", l)
	}
}
