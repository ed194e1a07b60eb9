package entry

import (
	"maps"
	"strings"
	"testing"

	"putby/ledger"
)

func TestParseLine(t *testing.T) {
	for _, test := range []struct {
		kind ledger.ReceiptKind
		text string
		want map[string]string
	}{
		{ledger.FoodLine, "500 g strawberries at 1.99", map[string]string{"kind": "food", "item": "strawberries", "size": "500 g", "price": "1.99"}},
		{ledger.FoodLine, "2 x 500 g strawberries at 1.99 less 0.50 tax 0.10", map[string]string{
			"kind": "food", "count": "2", "size": "500 g", "item": "strawberries", "price": "1.99", "discount": "0.50", "tax": "0.10"}},
		{ledger.FoodLine, "2x 1.5L cream at 4", map[string]string{"kind": "food", "count": "2", "size": "1.5 L", "item": "cream", "price": "4"}},
		{ledger.FoodLine, "1.234 x 1 kg pears at 2.49", map[string]string{
			"kind": "food", "count": "1.234", "size": "1 kg", "item": "pears", "price": "2.49"}},
		// The same pears, as a scale prints them.
		{ledger.FoodLine, "1.234 kg pears at 2.49/kg", map[string]string{
			"kind": "food", "count": "1.234", "size": "1 kg", "item": "pears", "price": "2.49"}},
		{ledger.FoodLine, "250 g chives at 12/kg", map[string]string{"kind": "food", "count": "0.25", "size": "1 kg", "item": "chives", "price": "12"}},
		// As people type it.
		{ledger.FoodLine, "2 lbs pears at $3,99", map[string]string{"kind": "food", "size": "2 lb", "item": "pears", "price": "3.99"}},
		{ledger.FoodLine, "1,5 Litres cream at 2.49/l", map[string]string{"kind": "food", "count": "1.5", "size": "1 L", "item": "cream", "price": "2.49"}},
		{ledger.SupplyLine, "3 jar-1l at 3.20", map[string]string{"kind": "supply", "count": "3", "item": "jar-1l", "price": "3.20"}},
		// 3 at 1.99 are 5.97; 3 for 5.00 takes 0.97 off.
		{ledger.FoodLine, "3 x 500 g strawberries at 1.99 offer 3 for 5.00", map[string]string{
			"kind": "food", "count": "3", "size": "500 g", "item": "strawberries", "price": "1.99", "discount": "0.97", "note": "offer 3 for 5.00"}},
		{ledger.FoodLine, "4 x 1 kg onions at 2.00 less 0.10 offer 25% off note bruised, at the back", map[string]string{
			"kind": "food", "count": "4", "size": "1 kg", "item": "onions", "price": "2.00", "discount": "2.10", "note": "bruised, at the back; offer 25% off"}},
		{ledger.OtherLine, "bus fare home at 2.40", map[string]string{"kind": "other", "item": "bus fare home", "price": "2.40"}},
		{ledger.OtherLine, "3 in 1 oil at 5", map[string]string{"kind": "other", "item": "3 in 1 oil", "price": "5"}},
		{ledger.DiscountLine, "2.00 on 1, 2 note card", map[string]string{"kind": "discount", "price": "2.00", "on": "1,2", "note": "card"}},
		{ledger.TotalLine, "12.34", map[string]string{"kind": "total", "price": "12.34"}},
		{ledger.DepositLine, "-0.25", map[string]string{"kind": "deposit", "price": "-0.25"}},
	} {
		l, err := ParseLine(test.kind, test.text)
		if err != nil {
			t.Errorf("%q: %v", test.text, err)
			continue
		}
		if got, err := l.Cells(2); err != nil || !maps.Equal(got, test.want) {
			t.Errorf("%q: %v, %v, want %v", test.text, got, err, test.want)
		}
	}
}

func TestParseLineRefuses(t *testing.T) {
	for _, test := range []struct {
		kind      ledger.ReceiptKind
		text, why string
	}{
		{ledger.FoodLine, "", "it does not say of what"},
		{ledger.FoodLine, "pears at 1,990", `the price "1,990" is not a number such as 1.99`},
		{ledger.FoodLine, "two x pears at 1.99", `the count "two" is not a number`},
		{ledger.FoodLine, "2 x 1 kg pears at 1 offer cake", "not an offer"},
		{ledger.FoodLine, "pears at 2/kg", "needs the amount bought"},
		{ledger.FoodLine, "2 x 1 kg pears at 2/kg", "leave the count out"},
		{ledger.FoodLine, "1 L pears at 2/kg", "1 L is not sold by the kg"},
		{ledger.FoodLine, "1 kg pears at 2/stone", `unknown unit "stone"`},
		{ledger.TotalLine, "", "it has no amount"},
		{ledger.TotalLine, "a lot", `the amount "a lot" is not a number`},
		{ledger.TotalLine, "2 on 1", "a total is for no line"},
		{ledger.DiscountLine, "2 on ", "after on stand the lines"},
	} {
		_, err := ParseLine(test.kind, test.text)
		if err == nil || !strings.Contains(err.Error(), test.why) {
			t.Errorf("%q: %v, want %s", test.text, err, test.why)
		}
	}
}

func TestLacks(t *testing.T) {
	for text, want := range map[string]string{
		"carrots": "size price", "2 carrots": "size price", "2 kg carrots": "price", "carrots at 2": "size", "2 kg carrots at 2": "",
	} {
		l, err := ParseLine(ledger.FoodLine, text)
		if got := strings.Join(l.Lacks(), " "); err != nil || got != want {
			t.Errorf("%q lacks %q, %v, want %q", text, got, err, want)
		}
		if bare := text == "carrots"; l.Bare() != bare {
			t.Errorf("%q bare: %v", text, l.Bare())
		}
	}
}

// A line that is read prints what reads as the same line.
func FuzzLine(f *testing.F) {
	for i, text := range []string{"2 x 500 g strawberries at 1.99 less 0.5 offer 3 for 5.00 tax 0.1 note a b", "1.2 kg pears at 2/kg", "2.00 on 1,2 note x",
		"bus fare at 2", "2 2 x at 1", "3 carrots", "note at x at 1", "x × 2 at"} {
		f.Add(i, text)
	}
	f.Fuzz(func(t *testing.T, kind int, text string) {
		kinds := ledger.ReceiptKinds()
		l, err := ParseLine(kinds[(kind%len(kinds)+len(kinds))%len(kinds)], text)
		if err != nil {
			return
		}
		again, err := ParseLine(l.Kind, l.String())
		if err != nil || again != l {
			t.Errorf("%q is %+v, which prints as %q, which is %+v, %v", text, l, l.String(), again, err)
		}
		if l.Lacks() == nil {
			if _, err := l.Cells(2); err != nil && !strings.Contains(err.Error(), "negative") {
				t.Errorf("%q has no cells: %v", text, err)
			}
		}
	})
}
