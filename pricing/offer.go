package pricing

import (
	"errors"
	"fmt"

	"putby/pricing/exact"
)

// An Offer is a rule by which a shop takes something off a line of equal
// packages. Its zero value takes nothing off. See [ParseOffer] for the rules
// there are.
type Offer struct {
	rule  rule
	take  int          // packages in a group; for off rules, which one of a group it is (1: each)
	pay   int          // packages of a group that are paid for
	money exact.Number // price of a group, or what is taken off a package
	rate  exact.Number // part of the price taken off, in percent
	from  int          // fewest packages that the offer needs; 0 for any number
}

// A rule is a kind of offer.
type rule uint8

const (
	noRule     rule = iota
	groupPrice      // "3 for 5.00"
	groupFree       // "3 for 2"
	percentOff      // "25% off", "every 2nd half price"
	moneyOff        // "0.50 off"
)

// ErrNegative is what an offer says of a count or price below 0.
var ErrNegative = errors.New("a count and a price must not be negative")

// Discount returns what the offer takes off a line of count packages at a
// price each (money per package), at minor digits; the line is the rounded
// count times price of [Line]. It is never below 0 and never more than the
// line: an offer that would make a line dearer does not apply. Groups are made
// of whole packages; loose goods have percentages and money off, as a till
// gives them.
func (o Offer) Discount(count, price exact.Number, minor int) (exact.Money, error) {
	if count.Sign() < 0 || price.Sign() < 0 {
		return exact.Money{}, fmt.Errorf("%v at %v: %w", count, price, ErrNegative)
	}
	if o.rule == noRule || count.Less(exact.Int(int64(o.from))) {
		return exact.Money{}, nil
	}
	base := count.Mul(price).Round(minor, exact.HalfAway)
	off := o.off(base, count, price, minor)
	return exact.MoneyOf(off.Max(exact.Number{}).Min(base)), nil
}

// Pay returns what count packages cost under the offer: the rounded count
// times price less [Offer.Discount].
func (o Offer) Pay(count, price exact.Number, minor int) (exact.Money, error) {
	discount, err := o.Discount(count, price, minor)
	if err != nil {
		return exact.Money{}, err
	}
	return Line{Count: count, Price: price, Discount: discount}.Base(minor), nil
}

// off is the discount before it is held between nothing and the line.
func (o Offer) off(base, count, price exact.Number, minor int) exact.Number {
	groups := o.groups(count)
	round := func(n exact.Number) exact.Number { return n.Round(minor, exact.HalfAway) }
	switch o.rule {
	case groupPrice:
		// What the customer pays is what the shop prints, so the discount
		// is the rest of the line.
		rest := count.Sub(groups.Mul(exact.Int(int64(o.take))))
		return base.Sub(round(groups.Mul(o.money))).Sub(round(rest.Mul(price)))
	case groupFree:
		free := groups.Mul(exact.Int(int64(o.take - o.pay)))
		return base.Sub(round(count.Sub(free).Mul(price)))
	case percentOff:
		amount := groups.Mul(price)
		if o.take == 1 {
			amount = base
		}
		return round(amount.Mul(o.rate).Mul(exact.New(1, 2)))
	default:
		return round(groups.Mul(o.money.Min(price)))
	}
}

// Bundle returns the number of packages and the price of an offer such as "3 for
// 5.00", which says by itself what so many cost. It reports false for any other.
func (o Offer) Bundle() (count, price exact.Number, ok bool) {
	if o.rule != groupPrice || o.from > o.take {
		return exact.Number{}, exact.Number{}, false
	}
	return exact.Int(int64(o.take)), o.money, true
}

// groups returns how often the offer is met: how many whole groups there are,
// or for an offer on each package the count itself, whole or not.
func (o Offer) groups(count exact.Number) exact.Number {
	if o.take == 1 {
		return count
	}
	return count.Over(exact.Int(int64(o.take))).Floor()
}
