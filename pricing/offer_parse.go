package pricing

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"putby/pricing/exact"
)

// ErrOffer is what every error of [ParseOffer] is.
var ErrOffer = errors.New("not an offer")

// maxGroup is the most packages that a group of an offer may have.
const maxGroup = 1000

// ParseOffer reads an offer as shops write them:
//
//	3 for 5.00          every three packages cost 5.00 together
//	3 for 2             take three and pay for two
//	25% off             a quarter off each package; half price is 50% off
//	0.50 off            so much money off each package
//	every 2nd 50% off   off one package of every two; also half price, free
//	                    or money off, and 3rd, 4th ...
//	25% off from 6      any of these, once at least six packages are bought
//
// In "3 for 2" the second number counts packages, because it is a whole number
// below the first; a price that low is written with digits after the point,
// "3 for 2.00". An error wraps [ErrOffer].
func ParseOffer(s string) (Offer, error) {
	words := strings.Fields(strings.ReplaceAll(s, " %", "%"))
	o := Offer{take: 1}
	words, err := o.parseFrom(words)
	if err == nil {
		if len(words) == 3 && words[1] == "for" {
			err = o.parseGroup(words[0], words[2])
		} else {
			err = o.parseOff(words)
		}
	}
	if err != nil {
		return Offer{}, fmt.Errorf("%s is %w: %w", exact.Quote(s), ErrOffer, err)
	}
	return o, nil
}

var errOfferForm = errors.New("write it as 3 for 5.00, 3 for 2, 25% off, 0.50 off or every 2nd half price")

// parseFrom takes "from 6" off the end of words.
func (o *Offer) parseFrom(words []string) ([]string, error) {
	at := len(words) - 2
	if at < 1 || words[at] != "from" {
		return words, nil
	}
	n, err := parseGroupSize(words[at+1])
	o.from = n
	return words[:at], err
}

// parseGroup reads the two numbers of "3 for 5.00" and "3 for 2".
func (o *Offer) parseGroup(take, price string) (err error) {
	if o.take, err = parseGroupSize(take); err != nil {
		return err
	}
	if o.money, err = exact.ParseNumber(price); err != nil {
		return err
	}
	o.rule = groupPrice
	if pay, err := strconv.Atoi(price); err == nil && pay < o.take {
		o.rule, o.pay, o.money = groupFree, pay, exact.Number{}
	}
	if o.pay <= 0 && o.money.Sign() <= 0 {
		return errors.New("something must be left to pay")
	}
	return nil
}

// parseOff reads what comes off, and off which package.
func (o *Offer) parseOff(words []string) (err error) {
	every := len(words) > 2 && words[0] == "every"
	if every {
		if o.take, err = parseOrdinal(words[1]); err != nil {
			return err
		}
		words = words[2:]
	}
	switch text := strings.Join(words, " "); {
	case text == "half price":
		o.rule, o.rate = percentOff, exact.Int(50)
	case text == "free" && every:
		o.rule, o.rate = percentOff, exact.Int(100)
	case len(words) == 2 && words[1] == "off":
		return o.parseAmountOff(words[0])
	default:
		return errOfferForm
	}
	return nil
}

// parseAmountOff reads "25%" or "0.50".
func (o *Offer) parseAmountOff(amount string) error {
	digits, percent := strings.CutSuffix(amount, "%")
	n, err := exact.ParseNumber(digits)
	switch {
	case err != nil:
		return err
	case n.Sign() <= 0:
		return errors.New("what comes off must be above 0")
	case !percent:
		o.rule, o.money = moneyOff, n
		return nil
	case exact.Int(100).Less(n):
		return errors.New("no more than 100% can come off")
	}
	o.rule, o.rate = percentOff, n
	return nil
}

// parseGroupSize reads a count of packages.
func parseGroupSize(s string) (int, error) {
	n, err := exact.ParseNumber(s)
	if err != nil {
		return 0, err
	}
	size, whole := n.Int64()
	if !whole || size < 2 || size > maxGroup {
		return 0, fmt.Errorf("the number of packages must be a whole number from 2 to %d", maxGroup)
	}
	return int(size), nil
}

// parseOrdinal reads 2nd, 3rd, 4th and so on.
func parseOrdinal(s string) (int, error) {
	digits := strings.TrimRight(s, "stndrh")
	n, err := parseGroupSize(digits)
	if err != nil {
		return 0, err
	}
	if s != ordinal(n) {
		return 0, fmt.Errorf("write which package it is as %s", ordinal(n))
	}
	return n, nil
}

// ordinal writes 2 as 2nd.
func ordinal(n int) string {
	suffix := "th"
	if n/10%10 != 1 {
		switch n % 10 {
		case 1:
			suffix = "st"
		case 2:
			suffix = "nd"
		case 3:
			suffix = "rd"
		}
	}
	return strconv.Itoa(n) + suffix
}
