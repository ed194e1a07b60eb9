package pricing_test

import (
	"fmt"

	"putby/pricing"
	"putby/pricing/exact"
)

// Directive 98/6/EC: the unit price is the final price, taxes in. Two cartons
// of 1.75 L at 4.20 before 5 % tax cost 8.82, so 2.52 a litre.
func ExampleDisplayPlaces() {
	lines := []pricing.Line{{Count: exact.Int(2), Price: num("4.20"), Tax: eur("0.42")}}
	costs, _ := pricing.Post(lines, nil, 2)
	perLitre := costs[0].Per(num("3.5"))
	fmt.Println(perLitre.Round(pricing.DisplayPlaces(2), exact.HalfAway).Fixed(4))
	// Output: 2.5200
}
