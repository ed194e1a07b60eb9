package pricing

import (
	"cmp"
	"iter"
	"slices"

	"putby/pricing/exact"
)

// Kind says how a price came to be known.
type Kind uint8

// The kinds of a known price.
const (
	AskedRegular Kind = iota // seen on a shelf at the everyday price
	AskedOffer               // seen on a shelf on offer
	Paid                     // paid, as a receipt has it
	PaidRegular              // seen on a shelf at the everyday price, and paid
	PaidOffer                // seen on a shelf on offer, and paid
)

// String names the kind.
func (k Kind) String() string {
	return [...]string{"regular", "offer", "paid", "regular, paid", "offer, paid"}[k]
}

// is reports whether a price of a kind is one of another, too.
func (k Kind) is(of Kind) bool {
	return k == of || k == PaidRegular && of != AskedOffer || k == PaidOffer && of != AskedRegular
}

// AndPaid is the kind of a price that was asked, and paid as well.
func (k Kind) AndPaid() Kind {
	switch k {
	case AskedRegular:
		return PaidRegular
	case AskedOffer:
		return PaidOffer
	}
	return k
}

// A Price is what an item cost somewhere on a day.
type Price struct {
	Date    exact.Date // local: of the receipt, or on which it was asked
	Shop    string
	Kind    Kind
	PerUnit exact.Ratio // money per edible base unit: L, kg or ea

	reduced bool // paid, and less than the regular price of the day
}

// Asked returns the prices that a shelf asks for an item in one form.
func (s *Shelf) Asked(form Form) iter.Seq[Price] {
	return func(yield func(Price) bool) {
		for _, a := range s.asks {
			kind := AskedRegular
			if a.Terms == OnOffer {
				kind = AskedOffer
			}
			if a.Form == form && !yield(Price{Date: a.Date, Shop: a.Shop, Kind: kind, PerUnit: a.PerUnit}) {
				return
			}
		}
	}
}

// A History is what is known of the prices of one item, by date. It is
// immutable; its methods Between, At and Of narrow it.
type History struct{ prices []Price }

// NewHistory takes prices in any order; those of a day keep theirs.
func NewHistory(prices []Price) *History {
	sorted := slices.Clone(prices)
	slices.SortStableFunc(sorted, func(a, b Price) int { return cmp.Compare(a.Date, b.Date) })
	regular := regularPrices{}
	for i := len(sorted) - 1; i >= 0; i-- { // so that the first of each shop stands in for the days before it
		regular.see(sorted[i])
	}
	for i := range sorted {
		regular.see(sorted[i])
		price, known := regular.at(sorted[i].Shop)
		sorted[i].reduced = known && sorted[i].Kind == Paid && sorted[i].PerUnit.Cmp(price) < 0
	}
	return &History{sorted}
}

// regularPrices are the latest regular price of each shop, and under "" of any; of
// several of a day, as of packages of several sizes, the lowest.
type regularPrices map[string]Price

func (r regularPrices) see(p Price) {
	if !p.Kind.is(AskedRegular) {
		return
	}
	for _, shop := range []string{p.Shop, ""} {
		if old, ok := r[shop]; !ok || old.Date != p.Date || p.PerUnit.Cmp(old.PerUnit) < 0 {
			r[shop] = p
		}
	}
}

// at is that of a shop; where it is known of none of its days, that of any.
func (r regularPrices) at(shop string) (exact.Ratio, bool) {
	price, ok := r[shop]
	if !ok {
		price, ok = r[""]
	}
	return price.PerUnit, ok
}

// Prices returns the prices, oldest first. The caller must not change them.
func (h *History) Prices() []Price { return h.prices }

// Between keeps the prices from one date to another, both included.
func (h *History) Between(from, to exact.Date) *History {
	return h.keep(func(p Price) bool { return from <= p.Date && p.Date <= to })
}

// YearTo keeps the prices of the year that ends with a day: those after the
// same day a year before.
func (h *History) YearTo(day exact.Date) *History {
	return h.Between(day.AddMonths(-12).AddDays(1), day)
}

// At keeps the prices of one shop.
func (h *History) At(shop string) *History {
	return h.keep(func(p Price) bool { return p.Shop == shop })
}

// Of keeps the prices of some kinds: asked on some terms, or paid.
func (h *History) Of(kinds ...Kind) *History {
	return h.keep(func(p Price) bool { return slices.ContainsFunc(kinds, p.Kind.is) })
}

func (h *History) keep(wanted func(Price) bool) *History {
	var kept []Price
	for _, p := range h.prices {
		if wanted(p) {
			kept = append(kept, p)
		}
	}
	return &History{kept}
}

// Shops returns the shops that the history knows, in alphabetical order.
func (h *History) Shops() []string {
	var shops []string
	for _, p := range h.prices {
		shops = append(shops, p.Shop)
	}
	slices.Sort(shops)
	return slices.Compact(shops)
}

// Lowest returns the lowest price, the newest of equal ones. It reports false
// when there is none.
func (h *History) Lowest() (lowest Price, ok bool) {
	for _, p := range h.prices {
		if !ok || p.PerUnit.Cmp(lowest.PerUnit) <= 0 {
			lowest, ok = p, true
		}
	}
	return lowest, ok
}

// Latest returns the newest price. It reports false when there is none.
func (h *History) Latest() (Price, bool) {
	if len(h.prices) == 0 {
		return Price{}, false
	}
	return h.prices[len(h.prices)-1], true
}

// referenceDays is the time before a price reduction over which its reference
// price is the lowest: Directive 98/6/EC, article 6a (memory).
const referenceDays = 30

// A Reference is the price that a reduction is measured against.
type Reference struct {
	Price
	// Presumed is set when no price is known of the days before, so that it
	// is the newest regular price of earlier days, which may still have held.
	Presumed bool
}

// Reference returns the lowest price of the [referenceDays] days before a day,
// that day not included, as article 6a of Directive 98/6/EC measures a
// reduction; narrow the history to one shop to measure that trader alone. It
// reports false where no price is known.
func (h *History) Reference(day exact.Date) (Reference, bool) {
	first := day.AddDays(-referenceDays)
	if p, ok := h.Between(first, day.AddDays(-1)).Lowest(); ok {
		return Reference{p, false}, true
	}
	p, ok := h.Between(exact.NoDate, first.AddDays(-1)).Of(AskedRegular).Latest()
	return Reference{p, true}, ok
}
