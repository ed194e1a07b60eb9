package energy

import (
	"errors"
	"iter"
	"slices"
	"time"

	"putby/pricing/exact"
)

// A Price is what a kWh costs from an instant on, before tax.
type Price struct {
	Line int                     // row in its file, for explanations; 0: unknown
	At   time.Time               // in whole seconds
	Rate exact.Opt[exact.Number] // money per kWh, may be negative; not given: from here on none is known
}

// LongestPrice is how long a price holds at most where none follows it: markets
// trade in hours and quarter-hours, some sell blocks of three hours.
const LongestPrice = 3 * time.Hour

// Prices are the prices of a tariff whose bands are hourly: each holds until the
// next, [LongestPrice] at most. They are immutable and safe for concurrent
// reading; nil is none.
type Prices struct {
	hours []pricedHour // in order, none into the next; where none is known there is a gap
	least exact.Number // of their rates
}

func pricesOf(hours []pricedHour) *Prices {
	p := &Prices{hours: hours}
	for i := range hours {
		if i == 0 || hours[i].rate.Less(p.least) {
			p.least = hours[i].rate
		}
	}
	return p
}

// A pricedHour is a stretch of the clock with one price, whatever its length;
// Unix seconds.
type pricedHour struct {
	from, until int64        // until is not in it
	rate        exact.Number // money per kWh before tax; may be below 0
	line        int          // row in the file of prices; 0: unknown, or an estimate
}

// What is wrong with a price that a [*RowError] reports.
var (
	ErrPriceOrder  = errors.New("its time is not after that of the price before it")
	ErrPriceSecond = errors.New("its time is not a whole second")
)

// NewPrices returns prices given in order of time. What is wrong is a
// [*RowError].
func NewPrices(list []Price) (*Prices, error) {
	hours := make([]pricedHour, 0, len(list))
	for i, row := range list {
		from := row.At.Unix()
		switch {
		case row.At.Nanosecond() != 0:
			return nil, &RowError{Row: "price", Index: i, Err: ErrPriceSecond}
		case i > 0 && from <= list[i-1].At.Unix():
			return nil, &RowError{Row: "price", Index: i, Err: ErrPriceOrder}
		}
		if last := len(hours) - 1; last >= 0 {
			hours[last].until = min(hours[last].until, from)
		}
		if rate, known := row.Rate.Get(); known {
			hours = append(hours, pricedHour{from, from + int64(LongestPrice/time.Second), rate, row.Line})
		}
	}
	return pricesOf(hours), nil
}

// A PricedHour is a time with one price per kWh, before tax.
type PricedHour struct {
	Line        int          // of its file
	From, Until time.Time    // in UTC
	Rate        exact.Number // money per kWh; may be below 0
}

// Between returns what has a price from one instant until another, in order of
// time; the first and last are whole, not cut.
func (p *Prices) Between(from, until time.Time) iter.Seq[PricedHour] {
	return func(yield func(PricedHour) bool) {
		if p == nil {
			return
		}
		for i, _ := p.find(from.Unix()); i < len(p.hours); i++ {
			h := &p.hours[i]
			if h.from >= until.Unix() || !yield(PricedHour{h.line, unix(h.from), unix(h.until), h.rate}) {
				return
			}
		}
	}
}

// Span returns when the first price begins and the last ends, and false where
// there is none.
func (p *Prices) Span() (first, end time.Time, any bool) {
	if p == nil || len(p.hours) == 0 {
		return first, end, false
	}
	return unix(p.hours[0].from), unix(p.hours[len(p.hours)-1].until), true
}

// Until returns the first instant from another on that has no price.
func (p *Prices) Until(from time.Time) time.Time {
	if p == nil {
		return from
	}
	second := from.Unix()
	for i, ok := p.find(second); ok && i < len(p.hours) && p.hours[i].from <= second; i++ {
		second = p.hours[i].until
	}
	if second == from.Unix() {
		return from
	}
	return unix(second)
}

// holds reports whether the price at a place is that of an instant, in Unix seconds.
func (p *Prices) holds(place int, second int64) bool {
	return place < len(p.hours) && p.hours[place].from <= second && second < p.hours[place].until
}

// find returns the place of the price that holds at an instant, in Unix
// seconds; without one, of the next that follows, and false.
func (p *Prices) find(second int64) (place int, holds bool) {
	return slices.BinarySearchFunc(p.hours, second, func(h pricedHour, s int64) int {
		switch {
		case h.until <= s:
			return -1
		case h.from > s:
			return 1
		}
		return 0
	})
}

func unix(second int64) time.Time { return time.Unix(second, 0).UTC() }

// noHour stands for the place of a price where there is none.
const noHour = -1
