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
//	3 for 5.00                 every three packages cost 5.00 together
//	3 for 2                    take three and pay for two; also 3 for the price
//	                           of 2, buy 2 get 1 free
//	25% off, save 25%          a quarter off each package; half price is 50% off
//	0.50 off, save 0.50        so much money off each package
//	2nd 50% off                off one package of every two; also half price, free
//	                           or money off, 3rd, 4th ..., every 2nd ..., and
//	                           buy 1 get 1 half price
//	25% off from 6             any of these, once at least six packages are bought
//
// Numbers up to ten may be words, and capitals do not count. In "3 for 2" the
// second number counts packages, because it is a whole number below the first; a
// price that low is written with digits after the point, "3 for 2.00". An error
// wraps [ErrOffer].
func ParseOffer(s string) (Offer, error) {
	words := offerWords(s)
	o := Offer{take: 1}
	words, err := o.parseFrom(words)
	if err == nil {
		switch {
		case len(words) > 2 && words[1] == "for":
			err = o.parseGroup(words[0], words[2:])
		case len(words) > 4 && words[0] == "buy" && words[2] == "get":
			err = o.parseBuy(words[1], words[3], words[4:])
		default:
			err = o.parseOff(words)
		}
	}
	if err != nil {
		return Offer{}, fmt.Errorf("%s is %w: %w", exact.Quote(s), ErrOffer, err)
	}
	return o, nil
}

// plainWords are numbers as words.
var plainWords = map[string]string{
	"one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7", "eight": "8", "nine": "9", "ten": "10",
	"second": "2nd", "third": "3rd", "fourth": "4th", "fifth": "5th", "sixth": "6th", "half-price": "half price",
}

// offerWords parts an offer into words, of which each is written in one way.
func offerWords(s string) []string {
	words := strings.Fields(strings.ToLower(strings.ReplaceAll(s, " %", "%")))
	for i, w := range words {
		if plain, ok := plainWords[w]; ok {
			words[i] = plain
		}
	}
	text := " " + strings.Join(words, " ") + " "
	for _, other := range [][2]string{{" half off ", " half price "}, {" for the price of ", " for the-price-of "}} {
		text = strings.ReplaceAll(text, other[0], other[1])
	}
	words = strings.Fields(text)
	if len(words) > 1 && words[0] == "save" {
		words = append([]string{words[1], "off"}, words[2:]...)
	}
	return words
}

var errOfferForm = errors.New("write it as 3 for 5.00, 3 for 2, buy 2 get 1 free, 25% off, 0.50 off or 2nd half price")

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
func (o *Offer) parseGroup(take string, price []string) (err error) {
	if o.take, err = parseGroupSize(take); err != nil {
		return err
	}
	packages := len(price) == 2 && price[0] == "the-price-of"
	if len(price) > 1 && !packages {
		return errOfferForm
	}
	last := price[len(price)-1]
	if o.money, err = exact.ParseNumber(last); err != nil {
		return err
	}
	o.rule = groupPrice
	switch pay, err := strconv.Atoi(last); {
	case err == nil && pay < o.take:
		o.rule, o.pay, o.money = groupFree, pay, exact.Number{}
	case packages:
		return fmt.Errorf("how many are paid for must be a whole number below %d", o.take)
	}
	if o.pay <= 0 && o.money.Sign() <= 0 {
		return errors.New("something must be left to pay")
	}
	return nil
}

// parseBuy reads "buy 2 get 1 free" and "buy 2 get 1 half price".
func (o *Offer) parseBuy(buy, get string, words []string) error {
	paid, err := parseCount(buy, 1)
	if err != nil {
		return err
	}
	more, err := parseCount(get, 1)
	if err != nil {
		return err
	}
	if o.take = paid + more; o.take > maxGroup {
		return fmt.Errorf("a group has at most %d packages", maxGroup)
	}
	if len(words) == 1 && words[0] == "free" {
		o.rule, o.pay = groupFree, paid
		return nil
	}
	if more > 1 {
		return errors.New("write it for one package, as buy 2 get 1 half price")
	}
	return o.parseReduced(words)
}

// parseOff reads what comes off, and off which package.
func (o *Offer) parseOff(words []string) (err error) {
	every := len(words) > 2 && words[0] == "every"
	if every {
		words = words[1:]
	}
	if len(words) > 1 && (every || isOrdinal(words[0])) {
		if o.take, err = parseOrdinal(words[0]); err != nil {
			return err
		}
		words = words[1:]
	}
	return o.parseReduced(words)
}

// parseReduced reads what comes off a package.
func (o *Offer) parseReduced(words []string) error {
	switch text := strings.Join(words, " "); {
	case text == "half price":
		o.rule, o.rate = percentOff, exact.Int(50)
	case text == "free" && o.take > 1:
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

// parseGroupSize reads how many packages a group has.
func parseGroupSize(s string) (int, error) { return parseCount(s, 2) }

// parseCount reads a count of packages.
func parseCount(s string, least int64) (int, error) {
	n, err := exact.ParseNumber(s)
	if err != nil {
		return 0, err
	}
	size, whole := n.Int64()
	if !whole || size < least || size > maxGroup {
		return 0, fmt.Errorf("the number of packages must be a whole number from %d to %d", least, maxGroup)
	}
	return int(size), nil
}

// isOrdinal reports whether a word begins as 2nd does.
func isOrdinal(s string) bool {
	digits := strings.TrimRight(s, "stndrh")
	return digits != "" && digits != s && strings.Trim(digits, "0123456789") == ""
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
