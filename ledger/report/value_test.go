package report_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"putby/ledger/report"
	"putby/pricing/exact"
)

var (
	eur = exact.MustCurrency("EUR")
	jpy = exact.MustCurrency("JPY")
	bhd = exact.MustCurrency("BHD")
)

func num(s string) exact.Number { return exact.MustNumber(s) }

func price(n, d string, u exact.Unit) report.Value { return report.PriceOf(num(n).Over(num(d)), u) }

func ExampleValue_Shown() {
	show := report.Show{Volume: exact.Qt}
	litres := report.AmountOf(num("3.785411784"), exact.L)
	fmt.Println(litres.Exact(eur), "L is", litres.ShownWithUnit(eur, show))
	third := report.PriceOf(num("10").Over(num("3")), exact.L).Estimated()
	fmt.Println(third.Exact(eur), "a litre is", third.ShownWithUnit(eur, show))
	// Output:
	// 3.785411784 L is 4 qt
	// 3.333333333333 a litre is ~3.1545 per qt
}

// The rounding of shown figures: half away from zero, at the digits of the
// kind. ISO 4217 gives the yen no minor digits, the euro two, the dinar three.
func TestShown(t *testing.T) {
	us := report.Show{Volume: exact.Gal, Mass: exact.Lb}
	for _, c := range []struct {
		v    report.Value
		c    exact.Currency
		show report.Show
		want string
	}{
		{report.None, eur, us, "-"},
		{report.None.Estimated(), eur, us, "-"},
		{report.MoneyOf(exact.MustMoney("2.345")), eur, us, "2.35"},
		{report.MoneyOf(exact.MustMoney("-2.345")), eur, us, "-2.35"},
		{report.MoneyOf(exact.MustMoney("2.3449999")), eur, us, "2.34"},
		{report.MoneyOf(exact.MustMoney("-0.004999")), eur, us, "0.00"},
		{report.MoneyOf(exact.MustMoney("12.5")).Estimated(), jpy, us, "~13"},
		{report.MoneyOf(exact.MustMoney("12.5")), bhd, us, "12.500"},
		{report.PostedOf(exact.MustMoney("2.5")), eur, us, "2.500000"},
		{report.PostedOf(exact.MustMoney("-0.1234565")), eur, us, "-0.1234565"},
		{report.PostedOf(exact.MustMoney("12")), jpy, us, "12.0000"},
		{report.MoneyQuotient(num("-5").Over(num("8"))), eur, us, "-0.63"},
		// ACCC, Unit Pricing Code: 5 L at 6.00 is 1.20 per L, 1.5 L at 3.00 is 2.00 per L.
		{price("6.00", "5", exact.L), eur, report.Show{}, "1.2000"},
		{price("3.00", "1.5", exact.L), eur, report.Show{}, "2.0000"},
		// NIST Handbook 44: a US gallon is 3.785411784 L; so 1 per L is 3.7854 per gal.
		{price("1", "1", exact.L), eur, us, "3.7854"},
		{price("1", "1", exact.Kg), eur, us, "0.4536"},
		{price("1", "3", exact.Ea), jpy, us, "0.33"},
		{report.AmountOf(num("3.785411784"), exact.L), eur, us, "1"},
		{report.AmountOf(num("0.45359237"), exact.Kg), eur, us, "1"},
		{report.AmountOf(num("1.2345"), exact.KWh), eur, us, "1.235"},
		{report.AmountOf(num("1.2005"), exact.L), eur, report.Show{}, "1.201"},
		{report.AmountOf(num("1.2004"), exact.L), eur, report.Show{}, "1.2"},
		{report.AmountOf(num("12000"), exact.Ea), eur, us, "12000"},
		{report.QuotientOf(num("1").Over(num("8")), 2), eur, us, "0.13"},
		{report.QuotientOf(num("-1").Over(num("8")), 0), eur, us, "0"},
		{report.PlainOf(num("1.230")), eur, us, "1.23"},
		{report.CountOf(-3), eur, us, "-3"},
		{report.UnitOf(exact.L), eur, us, "gal"},
		{report.UnitOf(exact.Ea), eur, us, "ea"},
		{report.DateOf(exact.MustDate("2025-02-28")), eur, us, "2025-02-28"},
		{report.DateOf(exact.NoDate), eur, us, "-"},
		{report.MomentOf(time.Date(2025, 3, 1, 18, 5, 0, 0, time.UTC)), eur, us, "2025-03-01 18:05"},
		{report.MomentOf(time.Date(2025, 3, 1, 18, 5, 9, 0, time.UTC)), eur, us, "2025-03-01 18:05:09"},
		{report.SpanOf(30*time.Hour + 5*time.Minute), eur, us, "30h5m"},
		{report.YesNoOf(true), eur, us, "yes"},
		{report.TextOf("a\tb"), eur, us, "a\tb"},
	} {
		if got := c.v.Shown(c.c, c.show); got != c.want {
			t.Errorf("%s (kind %d) is shown as %s, not as %s", c.v.Exact(c.c), c.v.Kind(), got, c.want)
		}
	}
}

// Machine formats keep all digits.
func TestExact(t *testing.T) {
	for _, c := range []struct {
		v    report.Value
		want string
	}{
		{report.None, ""},
		{report.MoneyOf(exact.MustMoney("2.3")), "2.300000"},
		{report.MoneyOf(exact.MustMoney("2.123456789")), "2.123456789"},
		{report.PostedOf(exact.MustMoney("2.3")), "2.300000"},
		{price("10", "3", exact.L), "3.333333333333"},
		{report.QuotientOf(num("-1").Over(num("8")), 0), "-0.125000000000"},
		{report.MoneyQuotient(num("2").Over(num("3"))), "0.666666666667"},
		{report.AmountOf(num("0.750"), exact.Kg), "0.75"},
		{report.SpanOf(90 * time.Minute), "1.5"},
		{report.SpanOf(20 * time.Minute), "0.333333333333"},
		{report.MomentOf(time.Date(2025, 3, 1, 18, 5, 0, 0, time.FixedZone("", 3600))), "2025-03-01T18:05:00+01:00"},
		{report.UnitOf(exact.Kg), "kg"},
		{report.MoneyOf(exact.MustMoney("1")).Estimated(), "1.000000"},
	} {
		if got := c.v.Exact(eur); got != c.want {
			t.Errorf("got %s, want %s", got, c.want)
		}
	}
}

// All digits, too, are told in the unit that people are shown: 1 qt is
// 0.946352946 L and 1 lb 0.45359237 kg (NIST SP 811).
func TestDigits(t *testing.T) {
	quarts := report.Show{Volume: exact.Qt, Mass: exact.Lb}
	for _, c := range []struct {
		v    report.Value
		show report.Show
		want string
	}{
		{price("10", "1", exact.L), quarts, "9.463529460000"},
		{price("10", "1", exact.L), report.Show{}, "10.000000000000"},
		{price("10", "1", exact.Kg), quarts, "4.535923700000"},
		{price("10", "1", exact.Ea), quarts, "10.000000000000"},
		{report.AmountOf(num("1.892705892"), exact.L), quarts, "2"},
		{report.AmountOf(num("1"), exact.Kg), quarts, "2.204622621849"},
		{report.AmountOf(num("1"), exact.Kg), report.Show{}, "1"},
		{report.MoneyOf(exact.MustMoney("2.3")), quarts, "2.300000"},
		{report.None, quarts, ""},
	} {
		if got := c.v.Digits(eur, c.show); got != c.want {
			t.Errorf("got %s, want %s", got, c.want)
		}
	}
}

func TestShownUnit(t *testing.T) {
	show := report.Show{Volume: exact.Qt}
	for want, v := range map[string]report.Value{
		"qt": report.AmountOf(num("1"), exact.L), "kWh": report.AmountOf(num("1"), exact.KWh), "per kg": price("1", "1", exact.Kg),
		"": report.MoneyOf(exact.MustMoney("1")),
	} {
		if got := v.ShownUnit(show); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

func TestSeriesRange(t *testing.T) {
	s := &report.Series{Points: []report.Point{{Value: report.None}, {Value: report.CountOf(3)}, {Value: report.CountOf(-1)}, {Value: report.CountOf(2)}}}
	low, high, ok := s.Range()
	if !ok || low.Exact(eur) != "-1" || high.Exact(eur) != "3" {
		t.Errorf("range %s to %s, %v", low.Exact(eur), high.Exact(eur), ok)
	}
	if _, _, ok := (&report.Series{Points: s.Points[:1]}).Range(); ok {
		t.Error("a series of gaps has a range")
	}
}

// Check names the part that a builder of reports got wrong.
func TestCheck(t *testing.T) {
	columns := []report.Column{{Key: "a"}, {Key: "notes"}, {Key: "b"}}
	row := report.Row{Cells: []report.Value{report.None, report.None}}
	good := &report.Table{Columns: columns, Rows: []report.Row{row}, Totals: []report.Row{row}}
	for want, fields := range map[string][]report.Field{
		"":                                     {{Key: "rows", Node: good}, {Node: report.None}, {Node: report.None}, {Key: "o", Node: report.Object{{Key: "rows", Node: good}}}},
		"report rows: no node":                 {{Key: "rows"}},
		"report x: the key is there twice":     {{Key: "x", Node: report.None}, {Key: "x", Node: report.None}},
		"report o rows: row 2 has 1 cells":     {{Key: "o", Node: report.Object{{Key: "rows", Node: &report.Table{Columns: columns, Rows: []report.Row{row, {Cells: row.Cells[:1]}}}}}}},
		"report rows: total 1 has 0 cells":     {{Key: "rows", Node: &report.Table{Columns: columns, Totals: []report.Row{{}}}}},
		"report rows: column a is there twice": {{Key: "rows", Node: &report.Table{Columns: append(columns, columns[0])}}},
	} {
		err := report.Doc{Fields: fields}.Check()
		if (err == nil) != (want == "") || err != nil && !strings.HasPrefix(err.Error(), want) {
			t.Errorf("got %v, want %s", err, want)
		}
	}
}
