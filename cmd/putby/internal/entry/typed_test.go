package entry

import (
	"testing"

	"putby/ledger"
	"putby/pricing/exact"
)

// What a person types is read where it has one reading, and else left to the
// cell's own fault.
func TestTyped(t *testing.T) {
	rec := &ledger.Records{Foods: []ledger.Food{{ID: "squash-puree", Name: "Squash purée"}}}
	rec.Settings.Currency = exact.MustCurrency("CAD")
	for _, test := range []struct{ kind, column, text, want string }{
		{"load", "item", "SQUASH PUREE", "squash-puree"}, {"load", "item", "squash", "squash"},
		{"price", "price", "$3.99", "3.99"}, {"price", "price", "3,99", "3.99"}, {"price", "price", "3.99 CAD", "3.99"},
		{"price", "price", "cad 3.99", "3.99"}, {"price", "price", "3.99 EUR", "3.99 EUR"}, {"price", "price", "1,500", "1,500"},
		{"price", "price", "0,500", "0.500"}, {"price", "price", "1,2,3", "1,2,3"}, {"price", "price", "-0,25", "-0.25"},
		{"load", "quantity", "2 lbs", "2 lb"}, {"load", "quantity", "1 l", "1 L"}, {"load", "quantity", "1,5 Litres", "1.5 L"},
		{"load", "quantity", "500g", "500g"}, {"load", "quantity", "2 stone", "2 stone"}, {"load", "quantity", "6", "6"},
		{"load", "quantity", "12 pcs", "12 ea"}, {"load", "quantity", "1 fl oz", "1 floz"}, {"load", "quantity", "1,500 g", "1,500 g"},
		{"run", "hands", "25min", "25m"}, {"run", "hands", "25 minutes", "25m"}, {"phase", "duration", "22 hrs 30 mins", "22h30m"},
		{"phase", "duration", "1 day", "24h"}, {"phase", "duration", "8:24", "8:24"}, {"phase", "duration", "30 min 2 h", "30 min 2 h"},
		{"phase", "duration", "99999999 days", "99999999 days"}, {"phase", "duration", "a while", "a while"}, {"phase", "duration", "90 days", "90 days"},
		{"food", "water", "91 %", "91"}, {"food", "water", "90,95%", "90.95"}, {"draw", "note", "3,99", "3,99"},
	} {
		if got := (Moment{}).Typed(rec, ledger.MustKind(test.kind).Column(test.column), test.text); got != test.want {
			t.Errorf("%s %s %q: %q, want %q", test.kind, test.column, test.text, got, test.want)
		}
	}
}

// 16 November 2025 is a Sunday.
func TestPeriod(t *testing.T) {
	m := Moment{Today: exact.MustDate("2025-11-16")}
	for text, want := range map[string]string{
		"2025-03-04": "2025-03-04 2025-03-04", "today": "2025-11-16 2025-11-16", "yesterday": "2025-11-15 2025-11-15",
		"last sat": "2025-11-15 2025-11-15", "Saturday": "2025-11-15 2025-11-15", "last sunday": "2025-11-09 2025-11-09",
		"october": "2025-10-01 2025-10-31", "Feb": "2025-02-01 2025-02-28", "november": "2025-11-01 2025-11-30", "dec": "2024-12-01 2024-12-31",
		"2024-02": "2024-02-01 2024-02-29", "2024": "2024-01-01 2024-12-31", "2025": "2025-01-01 2025-12-31",
		"2025-13": "", "2025-1": "", "25-01": "", "2025-00": "", "20255": "", "-025": "", "ma": "", "soon": "", "": "",
	} {
		got := ""
		if first, last, ok := m.Period(text); ok {
			got = first.String() + " " + last.String()
		}
		if got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
	if got := m.Dated("last sat 8:05"); got != "2025-11-15 08:05" {
		t.Errorf("%s", got)
	}
}
