package entry

import (
	"fmt"

	"putby/ledger/intake"
	"putby/pricing"
	"putby/pricing/exact"
)

// Check returns what is wrong with a line of a thing bought, whose currency has so
// many minor digits.
func (l *Line) Check(minor int) string {
	for _, amount := range []struct{ what, text string }{{"count", l.Count}, {"price", l.Price}, {"amount after less", l.Less}, {"tax", l.Tax}} {
		if amount.text != "" && !isNumber(amount.text) {
			return fmt.Sprintf("the %s %s is not a number such as 1.99", amount.what, quote(amount.text))
		}
	}
	if l.Offer != "" {
		if _, err := pricing.ParseOffer(l.Offer); err != nil {
			return err.Error()
		}
	}
	switch {
	case l.Reduced && l.Regular:
		return "it is said to be on offer and regular: leave one of them out"
	case l.Per != "":
		return l.checkPer()
	case l.Whole:
		if _, ok := intake.PriceOfOne(number(l.Price), number(l.Count), minor); !ok {
			return fmt.Sprintf("%s in all cannot be shared among %s: write what one costs, as in %s x ... at 1.99", l.Price, l.Count, l.Count)
		}
	}
	return l.checkBundle()
}

// checkBundle returns what is wrong with packages whose only price is that of an
// offer, such as 3 at 2 for 5.00.
func (l *Line) checkBundle() string {
	if l.Price != "" || l.Offer == "" || l.Count == "" || l.bundled() {
		return ""
	}
	offer, _ := pricing.ParseOffer(l.Offer)
	if group, _, ok := offer.Bundle(); ok {
		return fmt.Sprintf("%s are not whole groups of %v: say what one costs alone, as in %s x ... 2.79 %s", l.Count, group, l.Count, l.Offer)
	}
	return ""
}

// checkPer returns what is wrong with a price by weight or measure.
func (l *Line) checkPer() string {
	unit, err := exact.ParseUnit(l.Per)
	switch {
	case err != nil:
		return err.Error()
	case l.Count != "":
		return "a price per " + l.Per + " is for an amount, such as 1.234 kg pears at 2.49/kg: leave the count out"
	case l.Size == "":
		return "a price per " + l.Per + " needs the amount bought, such as 1.234 kg pears at 2.49/kg"
	}
	if _, err := exact.MustQuantity(l.Size).In(unit); err != nil {
		return fmt.Sprintf("%s is not sold by the %s", l.Size, l.Per)
	}
	return ""
}
