package locale

import (
	"errors"
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
		if got, ok, err := l.ReadNumber(l.Typed(n)); (got != n || !ok) && !errors.As(err, new(*AmbiguousError)) {
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
		if two := new(AmbiguousError); errors.As(err, &two) {
			got = "two: write " + two.First + " or " + two.Second
		} else if !ok {
			got = ""
		}
		if got != tt.want {
			t.Errorf("%s: %q is read as %q, want %q", tt.tag, tt.text, got, tt.want)
		}
	}
}

// TestReadDate reads every date back as it was written, where numbers alone do.
func TestReadDate(t *testing.T) {
	for _, tag := range Tags() {
		l := Must(tag)
		for d := exact.MustDate("2023-12-28"); d < exact.MustDate("2025-03-02"); d = d.AddDays(1) {
			got, ok := l.ReadDate(l.Date(d))
			if named := strings.Contains(l.date, "MMM"); ok == named || !named && got != d {
				t.Fatalf("%s: %s is read as %v, %v", tag, l.Date(d), got, ok)
			}
		}
	}
	for _, text := range []string{"31.02.2025", "8.2.25", "8.2", "2025-02-08", "08/02/2025", "8.2.2025.1", ""} {
		if got, ok := Must("de-DE").ReadDate(text); ok {
			t.Errorf("%s is read as %v", text, got)
		}
	}
	if got, ok := Must("de-DE").ReadDate("8.2.2025"); !ok || got != exact.MustDate("2025-02-08") {
		t.Errorf("8.2.2025 is read as %v", got)
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
