package entry

import (
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/intake"
	"putby/pricing"
	"putby/pricing/exact"
)

func quote(s string) string { return exact.Quote(s) }

// A Line is a line of a receipt as it was typed; what was left out is "". Its
// numbers and amounts are as records write them.
type Line struct {
	Kind  ledger.ReceiptKind
	Count string
	Size  string
	Item  string
	Price string // of one package, or with Whole of all; the amount of a receipt-wide kind
	Whole bool   // the price is of all packages together
	Per   string // the unit that a price by weight or measure is for; its amount is Size
	Less  string // off the whole line
	Offer string // the shop's, by which the price falls
	Tax   string // on the whole line
	Limit string // packages that the shop sells at most
	On    string // lines, or the thing, that a receipt-wide amount is for
	Note  string

	Reduced bool // the price is an offer's already
	Regular bool // the price is what the shop asks on any day
}

// Named reports whether the line's item is a food, a supply or a machine of the
// ledger, by its identifier or as people call it.
func (l *Line) Named() bool {
	return l.Kind == ledger.FoodLine || l.Kind == ledger.SupplyLine || l.Kind == ledger.MachineLine
}

// Lacks names what a line still needs: "item", "size", "price".
func (l *Line) Lacks() []string {
	var list []string
	if l.Kind.Bought() && l.Item == "" {
		list = append(list, "item")
	}
	if l.Kind == ledger.FoodLine && l.Size == "" {
		list = append(list, "size")
	}
	if l.Price == "" && !l.bundled() {
		list = append(list, "price")
	}
	return list
}

// Bare reports whether a line is no more than the name of a thing, so that all
// the rest of it may be asked for.
func (l *Line) Bare() bool { return l.Kind.Bought() && l.Count == "" && l.Size == "" && l.Price == "" }

// bundled reports whether the offer says what is paid: 2 for 5.00.
func (l *Line) bundled() bool {
	_, _, ok := l.bundle()
	return ok
}

// bundle is the number of packages and the price that stand for a line without a
// price of one: of "2 for 5.00", 2 and 5.00, and of four packages at that 4 and 10.00.
func (l *Line) bundle() (count, price exact.Number, ok bool) {
	if l.Price != "" || l.Offer == "" {
		return count, price, false
	}
	offer, err := pricing.ParseOffer(l.Offer)
	if err != nil {
		return count, price, false
	}
	group, price, ok := offer.Bundle()
	if !ok || l.Count == "" {
		return group, price, ok
	}
	groups, ends := number(l.Count).Over(group).Number()
	return number(l.Count), price.Mul(groups), ends && groups.IsInt() && groups.Sign() > 0
}

// counted returns the count and the size that the ledger records: of a price
// per kg they are the kg and 1 kg.
func (l *Line) counted() (count, size string) {
	if n, _, ok := l.bundle(); ok {
		return n.String(), l.Size
	}
	if l.Per == "" {
		return l.Count, l.Size
	}
	unit, _ := exact.ParseUnit(l.Per)
	q, err := exact.MustQuantity(l.Size).In(unit)
	if err != nil {
		return l.Count, l.Size // it was refused
	}
	return q.Number().String(), unit.Of(exact.Int(1)).String()
}

// count is how many packages there are.
func (l *Line) count() exact.Number {
	if count, _ := l.counted(); count != "" {
		return number(count)
	}
	return exact.Int(1)
}

// each is the price of one package, which of a price for all of them is the one
// with the fewest places that comes to it.
func (l *Line) each(minor int) string {
	all, count := number(l.Price), l.count()
	if n, price, ok := l.bundle(); ok {
		all, count = price, n
	} else if !l.Whole {
		return l.Price
	}
	each, ok := intake.PriceOfOne(all, count, minor)
	if !ok {
		return l.Price // it was refused
	}
	return each
}

// Cells returns the line's cells of receipts.csv, its offer as a discount at
// the currency's minor digits.
func (l *Line) Cells(minor int) (map[string]string, error) {
	cells := map[string]string{"kind": l.Kind.String(), "item": l.Item, "tax": l.Tax, "on": l.On}
	cells["count"], cells["size"] = l.counted()
	cells["price"] = l.each(minor)
	discount, err := l.discount(minor)
	if err != nil {
		return nil, err
	}
	if cells["discount"] = l.Less; l.Offer != "" && !discount.IsZero() {
		cells["discount"] = discount.Fixed(minor)
	}
	cells["note"] = l.notes()
	blanks(cells)
	return cells, nil
}

// notes is the note with the offer behind it.
func (l *Line) notes() string {
	offer := ""
	switch {
	case l.Offer != "":
		offer = "offer " + l.Offer
	case l.Reduced:
		offer = "on offer"
	}
	return strings.Join(slices.DeleteFunc([]string{l.Note, offer}, func(s string) bool { return s == "" }), "; ")
}

// discount is what is taken off the whole line: less, and the offer's.
func (l *Line) discount(minor int) (exact.Money, error) {
	less := exact.MoneyOf(number(l.Less))
	if l.Offer == "" || l.bundled() {
		return less, nil
	}
	offer, err := pricing.ParseOffer(l.Offer)
	if err != nil {
		return less, err
	}
	off, err := offer.Discount(l.count(), number(l.each(minor)), minor)
	return less.Add(off), err
}

// String returns the line as it can be typed again, without the word of its
// kind.
func (l *Line) String() string {
	var words []string
	add := func(before, text string) {
		if text != "" {
			words = append(words, before+text)
		}
	}
	if l.Count != "" {
		words = append(words, l.Count, "x")
	}
	if !l.Kind.Bought() {
		words = append(words, l.Price)
		add("on ", l.On)
		add("note ", l.Note)
		return strings.Join(words, " ")
	}
	// The order is that of the usual line, and reading it gives the line again (TestReadLaw).
	add("", l.Size)
	add("", l.Item)
	switch {
	case l.Per != "":
		add("at ", l.Price+"/"+l.Per)
	case l.Whole:
		add("in all ", l.Price)
	default:
		add("at ", l.Price)
	}
	add("less ", l.Less)
	add("offer ", l.Offer)
	if l.Reduced {
		add("", "on offer")
	}
	if l.Regular {
		add("", "regular")
	}
	add("tax ", l.Tax)
	add("limit ", l.Limit)
	add("note ", l.Note)
	return strings.Join(words, " ")
}
