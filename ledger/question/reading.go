package question

import (
	"strconv"
	"time"

	"putby/pricing/exact"
)

// A reading is the text of an option being read. Its methods return the value
// it holds; the first that holds none sets err, a fault of [ErrOption].
type reading struct {
	option, text string
	err          error
	parent       *reading // of which it is a part, and which gets the error
}

func (r *reading) fail(hint, format string, args ...any) {
	for r.parent != nil {
		r = r.parent
	}
	if r.err == nil {
		r.err = OptionFault(r.option, hint, format, args...)
	}
}

func (r *reading) check(err error, hint string) {
	if err != nil {
		r.fail(hint, "%v", err)
	}
}

// number reads a number that is not negative.
func (r *reading) number() exact.Number {
	n, err := exact.ParseNumber(r.text)
	r.check(err, "write digits with a point, such as 12.50")
	if n.Sign() < 0 {
		r.fail("write 0 or more", "%s is below 0", r.text)
	}
	return n
}

// positive reads a number above 0.
func (r *reading) positive() exact.Number {
	n := r.number()
	if n.IsZero() {
		r.fail("write more than 0", "%s is not above 0", exact.Quote(r.text))
	}
	return n
}

// quantity reads an amount with its unit, or a bare number of pieces; a bare 0
// is nothing of any unit.
func (r *reading) quantity() exact.Quantity {
	if n, err := exact.ParseNumber(r.text); err == nil {
		return r.notNegative(exact.Ea.Of(n))
	}
	q, err := exact.ParseQuantity(r.text)
	r.check(err, "write a number and a unit, such as 1.5L, 500g or 6 ea")
	return r.notNegative(q)
}

func (r *reading) notNegative(q exact.Quantity) exact.Quantity {
	if q.Sign() < 0 {
		r.fail("write 0 or more", "%s is below 0", r.text)
	}
	return q
}

// above refuses an amount of nothing.
func (r *reading) above(q exact.Quantity) exact.Quantity {
	if q.Sign() == 0 {
		r.fail("write more than 0", "%s is not above 0", exact.Quote(r.text))
	}
	return q
}

// mostCount is more than anybody buys, and small enough to multiply.
const mostCount = 1_000_000_000

// count reads a whole number from 0.
func (r *reading) count() int {
	n, err := exact.ParseNumber(r.text)
	whole, fits := n.Int64()
	switch {
	case err != nil, !n.IsInt():
		r.fail("write digits alone, such as 6", "%s is not a whole number", exact.Quote(r.text))
	case n.Sign() < 0:
		r.fail("write 0 or more", "%s is below 0", r.text)
	case !fits || whole > mostCount:
		r.fail("write a smaller number", "%s is more than %d", r.text, mostCount)
	}
	return int(min(whole, mostCount))
}

// atLeastOne reads a whole number from 1.
func (r *reading) atLeastOne() int {
	n := r.count()
	if n == 0 {
		r.fail("write digits alone, such as 6", "%s is not a whole number above 0", exact.Quote(r.text))
	}
	return n
}

// duration reads a length of time; a bare number is hours.
func (r *reading) duration() time.Duration {
	text := r.text
	if n, err := exact.ParseNumber(text); err == nil && n.IsInt() {
		text += "h"
	}
	d, err := exact.ParseDuration(text)
	r.check(err, "write it as 30h, 8h24m or 8:24")
	return d
}

// length reads a length of time above none.
func (r *reading) length() time.Duration {
	d := r.duration()
	if d <= 0 {
		r.fail("write it as 30h, 8h24m or 8:24", "%s is not above 0", exact.Quote(r.text))
	}
	return d
}

// date reads a civil date.
func (r *reading) date() exact.Date {
	d, err := exact.ParseDate(r.text)
	r.check(err, "write it as 2025-02-28")
	return d
}

// yes reads yes or no.
func (r *reading) yes() bool {
	if r.text == "yes" || r.text == "no" {
		return r.text == "yes"
	}
	b, err := strconv.ParseBool(r.text)
	if err != nil {
		r.fail("yes or no", "%s is neither", exact.Quote(r.text))
	}
	return b
}

// ParsePackage reads how much is in a package as it is bought; nothing is not
// given. Its error is a fault of [ErrOption].
func ParsePackage(option, text string) (exact.Quantity, error) {
	if text == "" {
		return exact.Quantity{}, nil
	}
	r := &reading{option: option, text: text}
	q := r.above(r.quantity())
	return q, r.err
}
