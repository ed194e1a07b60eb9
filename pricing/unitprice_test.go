package pricing_test

import (
	"errors"
	"fmt"
	"testing"

	"putby/pricing"
	"putby/pricing/exact"
)

func TestUnitPrice(t *testing.T) {
	tests := []struct{ source, price, size, want string }{
		// ACCC, Retail Grocery Industry (Unit Pricing) Code.
		{"ACCC, 5 L at 6.00", "6.00", "5", "1.20"},
		{"ACCC, 1.5 L at 3.00", "3.00", "1.5", "2.00"},
		// Own figures: halves go up, at the tie and around it.
		{"tie", "1.00", "8", "0.13"},
		{"below the tie", "0.9992", "8", "0.12"},
	}
	for _, test := range tests {
		got, err := pricing.UnitPrice(num(test.price), num(test.size))
		if err != nil {
			t.Fatalf("%s: %v", test.source, err)
		}
		// The code asks for cents, nearest.
		if cents := got.Round(2, exact.HalfAway); !cents.Equal(num(test.want)) {
			t.Errorf("%s: %v, want %s", test.source, cents, test.want)
		}
	}
}

func TestUnitPriceOfNothing(t *testing.T) {
	for _, size := range []string{"0", "-1"} {
		if _, err := pricing.UnitPrice(num("1"), num(size)); !errors.Is(err, pricing.ErrSize) {
			t.Errorf("size %s: error %v, want %v", size, err, pricing.ErrSize)
		}
	}
}

// Directive 98/6/EC: the unit price is the final price, taxes in. Two cartons
// of 1.75 L at 4.20 before 5 % tax cost 8.82, so 2.52 a litre.
func ExampleUnitPrice() {
	lines := []pricing.Line{{Count: exact.Int(2), Price: num("4.20"), Tax: eur("0.42")}}
	costs, _ := pricing.Post(lines, nil, 2)
	perLitre, _ := pricing.UnitPrice(costs[0].Number(), num("3.5"))
	fmt.Println(perLitre.Round(pricing.DisplayPlaces(2), exact.HalfAway).Fixed(4))
	// Output: 2.5200
}
