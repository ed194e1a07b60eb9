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
	Date    exact.Date // local, on which it was seen; it is in force from that day on
	Shop    string
	Terms   Terms
	Form    Form
	PerUnit exact.Ratio // money per edible base unit: L, kg or ea
	Line    int         // its row in the file
}

// A Shelf is what shops ask for one item, by date. It is immutable.
type Shelf struct {
	asks []Ask
	by   [OnOffer + 1][Preserved + 1][]Ask // the same, by terms and form
}

// NewShelf takes the asks of one item in file order.
func NewShelf(asks []Ask) *Shelf {
	s := &Shelf{asks: slices.Clone(asks)}
	slices.SortStableFunc(s.asks, func(a, b Ask) int { return cmp.Compare(a.Date, b.Date) })
	for _, a := range s.asks {
		of := &s.by[a.Terms][a.Form]
		*of = append(*of, a)
	}
	return s
}

// At returns the price in force on a day: the last in file order among those
// of the newest date not after the day, else of the next date after it. It
// reports false when there is none of these terms and form at all. It takes
// time logarithmic in the number of asks.
func (s *Shelf) At(day exact.Date, terms Terms, form Form) (Ask, bool) {
	asks := s.by[terms][form]
	if len(asks) == 0 {
		return Ask{}, false
	}
	if first := asks[0].Date; day < first {
		day = first
	}
	after, _ := slices.BinarySearchFunc(asks, day, func(a Ask, d exact.Date) int {
		if a.Date <= d {
			return -1
		}
		return 1
	})
	return asks[after-1], true
}

// Asks returns the asks of the item, by date.
func (s *Shelf) Asks() []Ask { return slices.Clone(s.asks) }
