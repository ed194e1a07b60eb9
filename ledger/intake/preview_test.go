package intake

import (
	"slices"
	"testing"
)

// The preview shows how each column is filled, and which columns of the file
// fill none: a till's total of each line, say, beside the price of one.
func TestPreview(t *testing.T) {
	text := "Kaufdatum;Markt;Artikel;Preis;Summe;;Kasse\n\n03.02.2025;Hofladen;soap;1,99;3,98;x;\n14.02.2025;Hofladen;candles 6 pcs;4,00;;;\nSumme;;;5,99;;;\n"
	p := planOf(t, text, Receipts, nil, PlanOptions{Records: household()})
	if p.Form.String() != "utf-8, separated by semicolon" || p.Header != 1 || p.Dates != DayMonthYear || p.Decimal != Comma || p.Rows() != 2 || len(p.Bad) != 1 {
		t.Errorf("%+v", p)
	}
	for _, want := range []Filled{{"price", "Preis", "1,99", "1.99"}, {"size", "Artikel", "candles 6 pcs", "6 ea"}, {"shop", "Markt", "Hofladen", "Hofladen"}} {
		if !slices.Contains(p.Fills, want) {
			t.Errorf("%+v, want %+v", p.Fills, want)
		}
	}
	if want := []Unread{{"Summe", "3,98"}, {"", "x"}}; !slices.Equal(p.Unread, want) {
		t.Errorf("unread: %+v, want %+v", p.Unread, want)
	}
}

// Dates of the standard, ISO 8601, read the same in every order, so that the map
// made from them leaves the order of the next file open.
func TestISODatesSettleNothing(t *testing.T) {
	p := planOf(t, "Date,Item,Price\n2025-11-18,tea,2.79\n2025-11-19,tea,2.79\n", Receipts, nil, PlanOptions{})
	if m := p.Definite(); m.Dates != AnyOrder || p.Dates != AnyOrder {
		t.Errorf("the order is settled as %v", m.Dates)
	}
	p = planOf(t, "Date,Item,Price\n2025-11-18,tea,2.79\n19/11/2025,tea,2.79\n", Receipts, nil, PlanOptions{})
	if m := p.Definite(); m.Dates != DayMonthYear {
		t.Errorf("the order is settled as %v", m.Dates)
	}
}
