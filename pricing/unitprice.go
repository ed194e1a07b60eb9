package pricing

import (
	"errors"
	"fmt"

	"putby/pricing/exact"
)

// ErrSize is what [UnitPrice] says of an amount that is not above 0.
var ErrSize = errors.New("the amount must be above 0")

// UnitPrice returns what one unit costs when size units (L, kg or ea) cost
// price. It is exact; round it once, for display. As Directive 98/6/EC and the
// Australian unit pricing code have it, a unit price includes all taxes, so
// give the price with them.
func UnitPrice(price, size exact.Number) (exact.Ratio, error) {
	if size.Sign() <= 0 {
		return exact.Ratio{}, fmt.Errorf("unit price of %v for %v: %w", price, size, ErrSize)
	}
	return price.Over(size), nil
}

// DisplayPlaces returns the digits at which money per unit is displayed:
// rounded half away from zero, as shops do, at two more than minor digits.
func DisplayPlaces(minor int) int { return minor + 2 }
