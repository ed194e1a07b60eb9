package entry

import (
	"maps"
	"testing"

	"putby/ledger"
)

func TestParseBought(t *testing.T) {
	for _, test := range []struct {
		kind ledger.ReceiptKind
		text string
		want map[string]string
	}{
		{ledger.FoodLine, "strawberries at 1.99", map[string]string{"kind": "food", "item": "strawberries", "price": "1.99"}},
		{ledger.FoodLine, "2 x 500 g strawberries at 1.99 less 0.50 tax 0.10", map[string]string{
			"kind": "food", "count": "2", "size": "500 g", "item": "strawberries", "price": "1.99", "discount": "0.50", "tax": "0.10"}},
		{ledger.FoodLine, "1.234 x 1kg pears at 2.49", map[string]string{
			"kind": "food", "count": "1.234", "size": "1kg", "item": "pears", "price": "2.49"}},
		// 3 at 1.99 are 5.97; 3 for 5.00 takes 0.97 off.
		{ledger.FoodLine, "3 x 500 g strawberries at 1.99 offer 3 for 5.00", map[string]string{
			"kind": "food", "count": "3", "size": "500 g", "item": "strawberries", "price": "1.99", "discount": "0.97", "note": "offer 3 for 5.00"}},
		{ledger.OtherLine, "bus fare home at 2.40", map[string]string{"kind": "other", "item": "bus fare home", "price": "2.40"}},
	} {
		got, err := ParseBought(test.kind, test.text, 2)
		if err != nil || !maps.Equal(got, test.want) {
			t.Errorf("%q: %v, %v, want %v", test.text, got, err, test.want)
		}
	}
}

func TestParseBoughtRefuses(t *testing.T) {
	for text, why := range map[string]string{
		"":                               `"": it names no item: write it as 2 x 500 g strawberries at 1.99`,
		"strawberries":                   `"strawberries": it has no price: end it with at and the price of one, such as at 1.99`,
		"two nice pears at 1":            `"two nice pears at 1": "two nice pears" is not one identifier: write it as 2 x 500 g strawberries at 1.99`,
		"2 x 1 kg pears at 1 offer cake": "",
	} {
		_, err := ParseBought(ledger.FoodLine, text, 2)
		if err == nil || why != "" && err.Error() != why {
			t.Errorf("%q: %v, want %s", text, err, why)
		}
	}
}

func TestNextID(t *testing.T) {
	for _, test := range []struct {
		ids  []string
		want string
	}{
		{nil, "r1"}, {[]string{"c1", "c47"}, "c48"}, {[]string{"R-099"}, "R-100"}, {[]string{"a-9", "soup"}, "a-10"},
		{[]string{"b3", "b2"}, "b4"}, {[]string{"jam"}, "r1"},
	} {
		if got := NextID(test.ids, "r"); got != test.want {
			t.Errorf("after %v: %s, want %s", test.ids, got, test.want)
		}
	}
}
