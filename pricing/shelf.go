package pricing

import (
	"cmp"
	"slices"

	"putby/pricing/exact"
)

// Terms say on what terms a shop asks a price.
type Terms uint8

// The terms of a shelf price.
const (
	Regular Terms = iota // the everyday price
	OnOffer              // a price reduced for a time
)

// String returns the word that records use.
func (t Terms) String() string { return [...]string{"regular", "offer"}[t] }

// Form says in what form a shop sells a food.
type Form uint8

// The forms of a food on the shelf.
const (
	Fresh     Form = iota // as it is loaded, or bought to be eaten at once
	Preserved             // the shop's own dried equivalent, counted as reconstituted
)

// String returns the word that records use.
func (f Form) String() string { return [...]string{"fresh", "preserved"}[f] }

// An Ask is a price that a shop asked for an item on a day.
type Ask struct {
	Date    exact.Date
	Shop    string
	Terms   Terms
	Form    Form
	PerUnit exact.Ratio // money per edible base unit: L, kg or ea
	Line    int         // its row in the file
}

// A Shelf is what shops ask for one item, by date. It is immutable.
type Shelf struct{ asks []Ask }

// NewShelf takes the asks of one item in file order.
func NewShelf(asks []Ask) *Shelf {
	sorted := slices.Clone(asks)
	slices.SortStableFunc(sorted, func(a, b Ask) int { return cmp.Compare(a.Date, b.Date) })
	return &Shelf{sorted}
}

// Asks returns all asks, oldest first, those of a day in file order. The
// caller must not change them.
func (s *Shelf) Asks() []Ask { return s.asks }

// At returns the price in force on a day: the last in file order among those
// of the newest date not after the day, else of the next date after it. It
// reports false when there is none of these terms and form at all. The search
// is logarithmic in the number of asks, plus those of other terms and forms
// that lie nearer.
func (s *Shelf) At(day exact.Date, terms Terms, form Form) (Ask, bool) {
	after, _ := slices.BinarySearchFunc(s.asks, day, func(a Ask, d exact.Date) int {
		if a.Date <= d {
			return -1
		}
		return 1
	})
	for i := after - 1; i >= 0; i-- {
		if s.asks[i].is(terms, form) {
			return s.asks[i], true
		}
	}
	return s.next(after, terms, form)
}

// next returns the last in file order of the first date, from index i on, that
// has an ask of these terms and form.
func (s *Shelf) next(i int, terms Terms, form Form) (found Ask, ok bool) {
	for ; i < len(s.asks) && (!ok || s.asks[i].Date == found.Date); i++ {
		if s.asks[i].is(terms, form) {
			found, ok = s.asks[i], true
		}
	}
	return found, ok
}

func (a Ask) is(terms Terms, form Form) bool { return a.Terms == terms && a.Form == form }
