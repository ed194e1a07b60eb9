package entry

import (
	"putby/ledger"
	"putby/pricing/exact"
)

// A SpokenOffer is what a shop offers, in its own words, as the options of worth
// that it gives: "strawberries 3.99 454 g limit 12".
type SpokenOffer struct {
	Item    string
	Options [][2]string // names and texts
	Note    string      // what was not said and is taken for granted; may be empty
}

const asOffer = "write it as strawberries 3.99 454 g limit 12, or broth 2 for 5.00 1 L"

// ReadOffer reads an offer by the grammar of a receipt's lines; a package whose size
// is not said is as it was bought last. The error is [ErrTyped].
func (x *Lexicon) ReadOffer(rec *ledger.Records, text string) (o SpokenOffer, err error) {
	l, known, err := x.Read(text)
	switch {
	case err != nil:
		return o, err
	case !known || l.Kind != ledger.FoodLine:
		return o, typed(text, "it names no food of the ledger: "+asOffer)
	case l.Less != "" || l.Tax != "" || l.Whole:
		return o, typed(text, "an offer has a price for one package: "+asOffer)
	}
	price := l.Price
	switch {
	case l.Per != "":
		l.Size = "1 " + l.Per
	case l.Size == "":
		o.Note = l.Complete(rec, "")
	}
	if group, all, ok := l.bundle(); ok {
		one := all.Over(group).Round(x.minor, exact.Up)
		price = one.String()
		o.Note = "one " + titleOf(rec, l.Item) + " beyond the groups of " + l.Offer + " is taken to cost " + one.Fixed(x.minor)
	}
	if price == "" || l.Size == "" {
		return o, typed(text, "it lacks the price or the size of a package: "+asOffer)
	}
	o.Item = l.Item
	for _, option := range [][2]string{{"price", price}, {"size", l.Size}, {"limit", l.Limit}, {"offer", l.Offer}} {
		if option[1] != "" {
			o.Options = append(o.Options, option)
		}
	}
	return o, nil
}
