package entry

import (
	"fmt"
	"slices"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/pricing"
	"putby/pricing/exact"
)

// A priced is a size of a food's packages with the last price known of it.
type priced struct {
	size  exact.Quantity
	price exact.Money // of one package; above 0
	day   exact.Date  // on which it was asked or paid
	shop  string
}

// sizeByPrice fills in the size of an offered package that is not said: of the sizes
// that were bought or asked for, that whose last price is nearest in proportion, since a
// price of 2.49 is hardly that of a sack which cost 20. It says what it took; the error,
// [ErrTyped], is of two that are equally near.
func (l *Line) sizeByPrice(rec *ledger.Records, day exact.Date, price, said string) (note string, err error) {
	asked, err := exact.ParseNumber(price)
	list := pricedSizes(rec, l.Item, day)
	if err != nil || asked.Sign() <= 0 || len(list) < 2 {
		return l.Complete(rec, ""), nil
	}
	far := func(p priced) exact.Ratio {
		if last := p.price.Number(); last.Cmp(asked) > 0 {
			return last.Over(asked)
		}
		return asked.Over(p.price.Number())
	}
	slices.SortStableFunc(list, func(a, b priced) int { return far(a).Cmp(far(b)) })
	near, other := list[0], list[1]
	title := titleOf(rec, l.Item)
	if far(near).Equal(far(other)) {
		sizes := []string{near.size.String(), other.size.String()}
		what := fmt.Sprintf("%s: %s is sold in packages of %s and of %s, and this may be the price of either", quote(said), title, sizes[0], sizes[1])
		return "", &ledger.Fault{Kind: ErrTyped, What: what, Do: []advice.Doing{advice.Do(advice.Worth, said+" "+sizes[0]), advice.Do(advice.Worth, said+" "+sizes[1])}}
	}
	l.Size = near.size.String()
	return fmt.Sprintf("%s: taken for packages of %s, whose last price, %s, is nearest (%s).", title, l.Size, moneyText(rec, near.price), placed(rec, near.shop, near.day)), nil
}

// pricedSizes are the sizes of a food's packages with their last prices by a day. What is
// weighed at the till has none.
func pricedSizes(rec *ledger.Records, item string, day exact.Date) (list []priced) {
	add := func(p priced) {
		if p.day > day || p.size.Sign() <= 0 || p.price.Sign() <= 0 {
			return
		}
		at := slices.IndexFunc(list, func(q priced) bool { return q.size.Base().String() == p.size.Base().String() })
		if at < 0 {
			list = append(list, p)
		} else if p.day >= list[at].day {
			list[at] = p
		}
	}
	for i := range rec.Shelf {
		if s := &rec.Shelf[i]; s.Item == item && s.Form == pricing.Fresh {
			add(priced{s.Size, s.Price, s.Date, s.Shop})
		}
	}
	for _, r := range rec.Receipts.All() {
		if r.Item == item && r.Kind == ledger.FoodLine && r.Count.IsInt() {
			add(priced{r.Size, r.Price, r.Date, r.Shop})
		}
	}
	return list
}
