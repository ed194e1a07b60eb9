package pricing

import (
	"errors"
	"fmt"

	"putby/pricing/exact"
)

// An Offer is a rule by which a shop takes something off a line.
type Offer struct {
}

// ErrOffer is what every error of [ParseOffer] is.
var ErrOffer = errors.New("not an offer")

// ParseOffer reads an offer such as "3 for 5.00".
func ParseOffer(s string) (Offer, error) {
	return Offer{}, fmt.Errorf("%s is %w", exact.Quote(s), ErrOffer)
}

// Discount returns what the offer takes off a line of count packages at a
// price each, at minor digits.
func (o Offer) Discount(count, price exact.Number, minor int) (exact.Money, error) {
	return exact.Money{}, nil
}
