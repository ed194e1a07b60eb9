package entry

import (
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/pricing/exact"
)

// An OfferInWords is what a shop offers, in its own words, as the options of worth
// that it gives: "strawberries 3.99 454 g limit 12".
type OfferInWords struct {
	Item    string
	Options [][2]string // names and texts
	Size    string      // of which package it is taken to be, where that was not said; may be empty
	Note    string      // what else is taken for granted; may be empty
}

const asOffer = "write it as strawberries 3.99 454 g limit 12, or broth 2 for 5.00 1 L"

// ReadOffer reads an offer on a day by the grammar of a receipt's lines; a package whose
// size is not said is of the known one whose price is nearest. The error is [ErrTyped].
func (x *ItemNames) ReadOffer(rec *ledger.Records, day exact.Date, said string) (o OfferInWords, err error) {
	text, dried, err := x.driedAs(said)
	if err != nil {
		return o, err
	}
	l, known, err := x.Read(text)
	switch {
	case err != nil:
		return o, err
	case !known || l.Kind != ledger.FoodLine:
		return o, x.noOffer(text, l.Item)
	case l.Less != "" || l.Tax != "" || l.Whole:
		return o, typed(text, "an offer has a price for one package: "+asOffer)
	}
	price := l.Price
	if l.Per != "" {
		l.Size = "1 " + l.Per
	}
	// Rounded up, so that no saving is told that the till would not give.
	if group, all, ok := l.bundle(); ok {
		one := all.Over(group).Round(x.minor, exact.Up)
		price = one.String()
		o.Note = "one " + titleOf(rec, l.Item) + " beyond the groups of " + l.Offer + " is taken to cost " + one.Fixed(x.minor)
	}
	if price != "" && l.Size == "" {
		if o.Size, err = l.sizeByPrice(rec, day, price, said); err != nil {
			return o, err
		}
	}
	if price == "" || l.Size == "" {
		return o, typed(text, "it lacks the price or the size of a package: "+asOffer)
	}
	o.Item = l.Item
	for _, option := range [][2]string{{"price", price}, {"size", l.Size}, {"limit", l.Limit}, {"offer", l.Offer}, {"as", dried}} {
		if option[1] != "" {
			o.Options = append(o.Options, option)
		}
	}
	return o, nil
}

// noOffer says what is wrong with a text that is read as no food's offer: what stands
// behind a food that it begins with, or that it names none.
func (x *ItemNames) noOffer(text, item string) error {
	words := strings.Fields(text)
	for end := len(words) - 1; end > 0; end-- {
		if _, ok := x.findKind(ledger.FoodLine, strings.Join(words[:end], " ")); ok {
			rest := strings.Join(words[end:], " ")
			return typed(text, "what stands behind "+strings.Join(words[:end], " ")+", "+quote(rest)+", cannot be read: "+asOffer)
		}
	}
	f := &ledger.Fault{Kind: ErrTyped, What: quote(text) + ": it names no food of the ledger: " + asOffer, Hint: x.Near(item)}
	if f.Hint == "" {
		f.Hint, f.Do = "see the foods there are\nadd it", []advice.Doing{advice.Do(advice.List("food")), advice.Do(advice.AddFood)}
	}
	return f
}

// driedAs takes out of an offer which food it is dried as: "eggs as beaten egg 2.59
// 12 ea" is of eggs, and their beaten egg.
func (x *ItemNames) driedAs(text string) (rest, food string, err error) {
	words := strings.Fields(text)
	at := slices.IndexFunc(words, func(word string) bool { return strings.EqualFold(word, "as") })
	if at < 1 {
		return text, "", nil
	}
	for end := len(words); end > at+1; end-- {
		if k, ok := x.findKind(ledger.FoodLine, strings.Join(words[at+1:end], " ")); ok {
			return strings.Join(append(words[:at:at], words[end:]...), " "), k.Item, nil
		}
	}
	return text, "", typed(text, "what stands behind as is no food of the ledger: write it as eggs as beaten-egg 2.59 12 ea limit 12")
}
